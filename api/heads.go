package api

import (
	"context"
	"sync"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
)

// headTime is how long a head is taken for the present one where nothing is heard
// of a change: another process may make one, and its hint may be lost.
const headTime = time.Second

// heads remembers where contests stand, so that what is in memory is answered
// from memory. What this process changes is forgotten before the change is
// answered, what others change when it is heard of.
type heads struct {
	read func(ctx context.Context, contest uuid.UUID) (db.Head, error)
	now  func() time.Time

	mu      sync.Mutex
	kept    map[uuid.UUID]seenHead
	changes int // heard of
}

type seenHead struct {
	head db.Head
	at   time.Time
}

func newHeads(d *db.DB) *heads {
	h := &heads{read: d.Head, now: time.Now, kept: map[uuid.UUID]seenHead{}}
	d.OnChange(h.forget)
	return h
}

// get gives the head of a contest.
func (h *heads) get(ctx context.Context, contest uuid.UUID) (db.Head, error) {
	now := h.now()
	h.mu.Lock()
	seen, ok := h.kept[contest]
	changes := h.changes
	h.mu.Unlock()
	if ok && now.Sub(seen.at) < headTime {
		return seen.head, nil
	}
	head, err := h.read(ctx, contest)
	if err != nil {
		return db.Head{}, err
	}
	h.keep(contest, seenHead{head, now}, changes)
	return head, nil
}

// keep keeps what was read, unless there was a change meanwhile.
func (h *heads) keep(contest uuid.UUID, seen seenHead, changes int) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.changes == changes {
		h.kept[contest] = seen
	}
}

// forget is told that a contest has changed.
func (h *heads) forget(contest uuid.UUID) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.changes++
	delete(h.kept, contest)
}
