package db

import (
	"context"
	"maps"
	"slices"
	"sync"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"
)

const (
	channel   = "contest_changed"
	hintGap   = 50 * time.Millisecond  // between the hints of a process
	lookEvery = 2 * time.Second        // at the versions, for lost hints
	rejoin    = 500 * time.Millisecond // after the connection for hints was lost
	hintMax   = 5 * time.Second        // for sending one
)

// A hinter tells all processes, after a commit, which contests have changed. A hint
// says what to look at, never what was changed: it may be lost, and many changes, of
// many contests, make one. Inside the transaction it would serialise all commits.
type hinter struct {
	send func(contests []uuid.UUID)
	mu   sync.Mutex
	last time.Time              // when hints were last sent
	due  map[uuid.UUID]struct{} // those to come
	next *time.Timer            // when they will be; nil where there are none
	all  sync.WaitGroup
	shut bool
}

func newHinter(pool *pgxpool.Pool) *hinter {
	return &hinter{
		due: map[uuid.UUID]struct{}{},
		send: func(contests []uuid.UUID) {
			ctx, cancel := context.WithTimeout(context.Background(), hintMax)
			defer cancel()
			// A lost hint is found by the look at the versions.
			_, _ = pool.Exec(ctx, "SELECT pg_notify(@channel, contest::text) FROM unnest(@contests::uuid[]) AS contest",
				pgx.StrictNamedArgs{"channel": channel, "contests": contests})
		},
	}
}

// give sends a hint at once, or, soon after others, with all that come until its
// time has come.
func (h *hinter) give(contest uuid.UUID) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.shut {
		return
	}
	h.due[contest] = struct{}{}
	if h.next == nil {
		h.all.Add(1)
		h.next = time.AfterFunc(time.Until(h.last.Add(hintGap)), h.sendDue)
	}
}

func (h *hinter) sendDue() {
	defer h.all.Done()
	h.mu.Lock()
	contests := slices.Collect(maps.Keys(h.due))
	clear(h.due)
	h.next, h.last = nil, time.Now()
	h.mu.Unlock()
	h.send(contests)
}

// close sends no more hints and waits for those on their way.
func (h *hinter) close() {
	h.mu.Lock()
	h.shut = true
	if h.next != nil && h.next.Stop() {
		h.next = nil
		h.all.Done()
	}
	h.mu.Unlock()
	h.all.Wait()
}

// Listen calls changed for every contest that is new or has another version or
// epoch than when it was last looked at, from the first look on, until ctx is
// done, with what kinds of things changed where that is known. It looks at the
// contests that hints name, and at all when the connection for hints is back after a
// gap and every two seconds. Many changes make one call, with the latest head. It
// holds one connection of its own, and is to run once in a process.
func (db *DB) Listen(ctx context.Context, changed func(Change)) {
	due := &due{some: make(chan struct{}, 1), all: true}
	var receiver sync.WaitGroup
	receiver.Go(func() { db.receive(ctx, due) })
	defer receiver.Wait()

	look := time.NewTicker(lookEvery)
	defer look.Stop()
	for known := map[uuid.UUID]Head{}; ; {
		db.look(ctx, due.take(), known, changed)
		select {
		case <-ctx.Done():
			return
		case <-due.some:
		case <-look.C:
			due.addAll()
		}
	}
}

// due is what is to be looked at.
type due struct {
	some chan struct{} // there is something

	mu       sync.Mutex
	all      bool
	contests []uuid.UUID
}

// add adds the contest that a hint names.
func (d *due) add(name string) {
	contest, err := uuid.Parse(name)
	if err != nil {
		return // nobody of ours sent it
	}
	d.mu.Lock()
	d.contests = append(d.contests, contest)
	d.mu.Unlock()
	d.signal()
}

func (d *due) addAll() {
	d.mu.Lock()
	d.all = true
	d.mu.Unlock()
	d.signal()
}

func (d *due) signal() {
	select {
	case d.some <- struct{}{}:
	default: // a look is due already
	}
}

// take is what is to be looked at now: nil for all contests.
func (d *due) take() []uuid.UUID {
	d.mu.Lock()
	defer d.mu.Unlock()
	contests := append([]uuid.UUID{}, d.contests...)
	if d.all {
		contests = nil
	}
	d.all, d.contests = false, nil
	return contests
}

// look calls changed for what differs from what is known. A database that is
// away has changed nothing that can be read.
func (db *DB) look(ctx context.Context, contests []uuid.UUID, known map[uuid.UUID]Head, changed func(Change)) {
	heads, err := db.headsOf(ctx, contests)
	if err != nil {
		return
	}
	heads = slices.DeleteFunc(heads, func(h Head) bool { return h.sameAs(known[h.Contest]) })
	kinds := db.kindsSince(ctx, heads, known)
	for _, h := range heads {
		known[h.Contest] = h
		changed(Change{h, kinds[h.Contest]})
	}
}

// receive holds the connection for hints, and makes a new one when it is lost.
func (db *DB) receive(ctx context.Context, due *due) {
	for ctx.Err() == nil {
		db.receiveUntilLost(ctx, due)
		select {
		case <-ctx.Done():
		case <-time.After(rejoin):
		}
	}
}

// receiveUntilLost takes hints until the connection is lost; all are due when it
// listens, for what came before.
func (db *DB) receiveUntilLost(ctx context.Context, due *due) {
	conn, err := pgx.ConnectConfig(ctx, db.pool.Config().ConnConfig)
	if err != nil {
		return
	}
	defer conn.Close(context.WithoutCancel(ctx))
	if _, err := conn.Exec(ctx, "LISTEN "+channel); err != nil {
		return
	}
	due.addAll()
	for {
		idle, cancel := context.WithTimeout(ctx, lookEvery)
		hint, err := conn.WaitForNotification(idle)
		silent := idle.Err() != nil && ctx.Err() == nil
		cancel()
		switch {
		case err == nil:
			due.add(hint.Payload)
		case !silent || !answers(ctx, conn):
			return
		}
	}
}

// answers tells whether a silent connection still holds. A server that is gone
// without a word says nothing at all.
func answers(ctx context.Context, conn *pgx.Conn) bool {
	ctx, cancel := context.WithTimeout(ctx, pingTime)
	defer cancel()
	return conn.Ping(ctx) == nil
}
