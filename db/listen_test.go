package db_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
)

// listen collects the changes of which a listener is told, until the test ends.
func listen(t *testing.T, d *db.DB) <-chan db.Change {
	t.Helper()
	heads := make(chan db.Change, 1000)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() {
		defer close(done)
		d.Listen(ctx, func(c db.Change) { heads <- c })
	}()
	t.Cleanup(func() { cancel(); <-done })
	return heads
}

// awaitVersion waits until a listener is told of a version of a contest.
func awaitVersion(t *testing.T, heads <-chan db.Change, contest uuid.UUID, version int64) {
	t.Helper()
	for deadline := time.After(30 * time.Second); ; {
		select {
		case h := <-heads:
			if h.Contest == contest && h.Version >= version {
				return
			}
		case <-deadline:
			t.Fatalf("nobody told of version %d", version)
		}
	}
}

func setOpened(t *testing.T, d *db.DB, contest uuid.UUID, opened string) (version int64) {
	t.Helper()
	if err := d.SetOpened(t.Context(), contest, opened, "director"); err != nil {
		t.Fatal(err)
	}
	head, err := d.Head(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	return head.Version
}

// What one process changes another one is told of, and what it did before too.
func TestListen(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	writer, reader := open(t, url), open(t, url)
	contest := small(t, writer)
	heads := listen(t, reader)
	awaitVersion(t, heads, contest, 1)
	for _, opened := range []string{db.Live, db.Published, db.Closed} {
		awaitVersion(t, heads, contest, setOpened(t, writer, contest, opened))
	}
	awaitVersion(t, heads, small(t, writer), 1)
}

// A listener is told what kinds of things changed since it last heard, all of them
// where it heard nothing of some.
func TestListenToldWhat(t *testing.T) {
	t.Parallel()
	d := open(t, dbtest.URL(t))
	contest := small(t, d)
	changes := listen(t, d)
	awaitVersion(t, changes, contest, 1)
	last := setOpened(t, d, contest, db.Live)
	var kinds []string
	for told := int64(0); told < last; {
		c := <-changes
		kinds, told = append(kinds, c.Kinds...), c.Version
	}
	if !slices.Equal(kinds, []string{db.ChangedSetup}) {
		t.Errorf("told of %q", kinds)
	}
}

func TestChangesThatWereNotTold(t *testing.T) {
	t.Parallel()
	line, both, unknown := []string{db.ChangedLine}, []string{db.ChangedLine, db.ChangedResults}, []string(nil)
	head := db.Head{Epoch: uuid.New()}
	for _, c := range []struct{ before, then, want []string }{
		{line, line, line}, {both, line, both}, {line, unknown, unknown}, {unknown, line, unknown},
	} {
		got := db.Change{Head: head, Kinds: c.then}.After(db.Change{Head: head, Kinds: c.before})
		if !slices.Equal(got.Kinds, c.want) {
			t.Errorf("%q after %q is %q, want %q", c.then, c.before, got.Kinds, c.want)
		}
	}
}

// A listener whose connections are cut is told what happened meanwhile.
func TestListenAfterAGap(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	writer, reader := open(t, url), open(t, url)
	contest := small(t, writer)
	heads := listen(t, reader)
	awaitVersion(t, heads, contest, 1)
	writer.Close()
	// Without the program there is no hint.
	if _, err := query(t, url).Exec(t.Context(), `
		SELECT pg_terminate_backend(pid)
		FROM pg_stat_activity
		WHERE datname = current_database() AND pid <> pg_backend_pid();
		UPDATE contest_head SET version = 7`); err != nil {
		t.Fatal(err)
	}
	awaitVersion(t, heads, contest, 7)
	awaitVersion(t, heads, contest, setOpened(t, open(t, url), contest, db.Live))
}

// Another epoch is told even where the version is the same.
func TestListenToANewEpoch(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	contest := small(t, d)
	heads := listen(t, d)
	awaitVersion(t, heads, contest, 1)
	if _, err := query(t, url).Exec(t.Context(), "UPDATE server SET epoch = gen_random_uuid()"); err != nil {
		t.Fatal(err)
	}
	awaitVersion(t, heads, contest, 1)
}
