package soak

import (
	"context"
	"net/http"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"halfpoint/db/dbtest"
	"halfpoint/scoring/line"
)

// What is asked for: from the promotion to the next grade stored, and from the
// start of a process that was killed until it serves.
const (
	writingWithin = 10 * time.Second
	servingWithin = 3 * time.Second
)

// TestGradesOutliveTheirPrimary has two processes on a primary with a synchronous
// standby, tablets that enter grades through both, kills the primary and promotes
// the standby. Every grade that was answered as stored is there once.
func TestGradesOutliveTheirPrimary(t *testing.T) {
	shared := dbtest.Folder(t)
	servers := startPair(t)
	read := "--read-database=" + servers.standby.URL()
	processes := []*process{newProcess(t, shared, "one", servers.url(), read), newProcess(t, shared, "other", servers.url(), read)}
	for _, p := range processes {
		p.start()
	}
	var away atomic.Int64
	n := 0
	field, err := holdContest(t.Context(), 2, 10, 6, func() *client {
		n++
		return newClient(processes[n%2].address, &away)
	})
	if err != nil {
		t.Fatal(err)
	}
	entering := enterGrades(t, field)
	entering.awaitMore(20)

	lost := time.Now()
	servers.losePrimary()
	refusedNow(t, field)
	readableNow(t, processes[0], field)
	asked := time.Now()
	servers.promote()
	promoted := time.Now()
	entering.awaitMore(1)
	took := time.Since(promoted)
	t.Logf("the promotion took Postgres %v; every tablet had a grade stored %v after it, %v after the primary was killed",
		promoted.Sub(asked).Round(time.Millisecond), took.Round(time.Millisecond), time.Since(lost).Round(time.Millisecond))
	if took > writingWithin {
		t.Errorf("writing took %v", took)
	}
	entering.awaitMore(20)

	processes[0].kill()
	took = processes[0].start()
	t.Logf("a process that was killed served again after %v", took.Round(time.Millisecond))
	if took > servingWithin {
		t.Errorf("serving took %v", took)
	}
	entering.awaitMore(5)
	entering.stop()
	t.Logf("%d grades were stored; %d times a tablet was told to come again, or was not answered", entering.total(), away.Load())
	checkStored(t, servers.standby, field)
	runs(t, "verify", "--journal", "--database", servers.standby.URL())
}

// refusedNow holds the answers without a primary to what they must be: neither a
// grade nor anything else is answered as if it had been stored.
func refusedNow(t *testing.T, field *contest) {
	t.Helper()
	offer := []byte(`{"role": "chief"}`)
	var status int
	var header http.Header
	var text []byte
	var err error
	await(t, "the killed server's sessions to end", func() bool { // until then they store, on the standby too
		status, header, text, err = field.office.once(t.Context(), http.MethodPost, "/api/v1/contests/"+field.id.String()+"/pairings", offer)
		return status != http.StatusCreated
	})
	if err != nil || status != http.StatusServiceUnavailable || header.Get("Retry-After") == "" || header.Get("Content-Type") != "application/problem+json" {
		t.Errorf("without a primary: %d %v %s %v", status, header, text, err)
	}
}

// readableNow: what is published can be read from the standby all the while.
func readableNow(t *testing.T, p *process, field *contest) {
	t.Helper()
	response, err := http.Get("http://" + p.address + "/api/v1/contests/" + field.id.String() + "/publications")
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
	if response.StatusCode != http.StatusOK {
		t.Errorf("publications without a primary: %d", response.StatusCode)
	}
}

// entering is tablets that enter one grade after the other.
type entering struct {
	t     testing.TB
	field *contest
	end   context.CancelFunc
	all   sync.WaitGroup
}

func enterGrades(t testing.TB, field *contest) *entering {
	t.Helper()
	ctx, stop := context.WithCancel(context.WithoutCancel(t.Context()))
	e := &entering{t: t, field: field, end: stop}
	t.Cleanup(stop)
	for _, judge := range field.judges {
		e.all.Go(func() {
			for ctx.Err() == nil {
				if err := enterGrade(context.WithoutCancel(ctx), field, judge); err != nil {
					t.Error(err)
					return
				}
			}
		})
	}
	return e
}

// enterGrade enters the next grade of a judge, and returns when it is stored.
func enterGrade(ctx context.Context, field *contest, judge *tablet) error {
	flight := field.flights[0]
	_, err := judge.enter(line.Record{
		Kind: line.KindGrade, Flight: flight.ID.String(), Judge: judge.judge.String(), Sequence: flight.Sequence.Digest,
		Item: 1 + int(judge.seq)%field.items, Grade: "7.5",
	})
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(ctx, time.Minute)
	defer cancel()
	return judge.send(ctx)
}

// awaitMore waits until every tablet has stored some more.
func (e *entering) awaitMore(many int) {
	e.t.Helper()
	var from []int
	for _, judge := range e.field.judges {
		from = append(from, judge.count())
	}
	await(e.t, "every tablet to store grades", func() bool {
		for i, judge := range e.field.judges {
			if judge.count() < from[i]+many {
				return false
			}
		}
		return true
	})
}

func (e *entering) stop() {
	e.end()
	e.all.Wait()
}

func (e *entering) total() (n int) {
	for _, judge := range e.field.judges {
		n += judge.count()
	}
	return n
}
