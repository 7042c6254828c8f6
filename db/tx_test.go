package db_test

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/db"
	"halfpoint/db/cluster"
	"halfpoint/db/dbtest"
)

// imported imports the bundle of a file.
func imported(t testing.TB, d *db.DB, path string) uuid.UUID {
	t.Helper()
	contest, err := d.Import(t.Context(), readBundle(t, path), db.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return contest
}

// small imports the smallest of the worked cases.
func small(t testing.TB, d *db.DB) uuid.UUID {
	t.Helper()
	return imported(t, d, "../testdata/cases/108.bundle.json")
}

// partOf is a whole contest, with the ids of what is in it.
func partOf(t testing.TB, d *db.DB, contest uuid.UUID) *db.Part {
	t.Helper()
	part, err := d.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	return part
}

// query is a connection to the database beside the pool, to look and to meddle.
func query(t testing.TB, url string) *pgx.Conn {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close(context.Background()) })
	return conn
}

func open(t testing.TB, url string) *db.DB {
	t.Helper()
	d, err := db.Open(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.Close)
	return d
}

func TestNotFound(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	nothing := uuid.New()
	for name, ask := range map[string]func() error{
		"Head":            func() error { _, err := d.Head(t.Context(), nothing); return err },
		"Contest":         func() error { _, err := d.Contest(t.Context(), nothing); return err },
		"Export":          func() error { _, err := d.Export(t.Context(), nothing); return err },
		"CategoryBundle":  func() error { _, err := d.CategoryBundle(t.Context(), nothing); return err },
		"ProgrammeBundle": func() error { _, err := d.ProgrammeBundle(t.Context(), nothing); return err },
		"Programme":       func() error { _, err := d.Programme(t.Context(), nothing); return err },
		"Flights":         func() error { _, err := d.Flights(t.Context(), nothing); return err },
		"Sheets":          func() error { _, err := d.Sheets(t.Context(), nothing); return err },
		"Journal":         func() error { _, _, err := d.Journal(t.Context(), nothing); return err },
		"SetOpened":       func() error { return d.SetOpened(t.Context(), nothing, db.Live, "") },
		"StoreRecords":    func() error { _, err := d.StoreRecords(t.Context(), nothing, db.Delivery{}); return err },
	} {
		if err := ask(); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A transaction that Postgres takes as a victim is tried again, but not for
// ever. A trigger plays Postgres: it refuses the first changes of a contest.
func TestVictimsAreTriedAgain(t *testing.T) {
	t.Parallel()
	for _, code := range []string{"serialization_failure", "deadlock_detected"} {
		for refusals, want := range map[int]string{4: db.Live, 100: db.Closed} {
			t.Run(fmt.Sprint(code, " ", refusals), func(t *testing.T) {
				t.Parallel()
				url := dbtest.URL(t)
				d := open(t, url)
				contest := small(t, d)
				if _, err := query(t, url).Exec(t.Context(), fmt.Sprintf(`
					CREATE SEQUENCE tries; -- what it counts is not rolled back
					CREATE FUNCTION refuse() RETURNS trigger LANGUAGE plpgsql AS $$
					BEGIN
						IF nextval('tries') <= %d THEN
							RAISE EXCEPTION 'refused' USING ERRCODE = '%s';
						END IF;
						RETURN NEW;
					END
					$$;
					CREATE TRIGGER refuse BEFORE UPDATE ON contest
						FOR EACH ROW EXECUTE FUNCTION refuse()`, refusals, code)); err != nil {
					t.Fatal(err)
				}
				err := d.SetOpened(t.Context(), contest, db.Live, "director")
				if (err == nil) != (want == db.Live) {
					t.Errorf("%v", err)
				}
				c, err := d.Contest(t.Context(), contest)
				if err != nil || c.Opened != want {
					t.Errorf("opened is %+v, %v", c, err)
				}
			})
		}
	}
}

// awaitWaiting returns when a session of the database waits for a lock.
func awaitWaiting(t *testing.T, conn *pgx.Conn) {
	t.Helper()
	await(t, "a session to wait for a lock", func() bool {
		var waiting bool
		err := conn.QueryRow(t.Context(), `
			SELECT EXISTS (
				SELECT
				FROM pg_stat_activity
				WHERE datname = current_database() AND wait_event_type = 'Lock'
			)`).Scan(&waiting)
		if err != nil {
			t.Fatal(err)
		}
		return waiting
	})
}

// await looks again and again until something is so, for half a minute at most.
func await(t *testing.T, what string, so func() bool) {
	t.Helper()
	look := time.NewTicker(5 * time.Millisecond)
	defer look.Stop()
	for deadline := time.After(30 * time.Second); !so(); {
		select {
		case <-look.C:
		case <-deadline:
			t.Fatalf("waited in vain for %s", what)
		}
	}
}

// A request that is called off gives its locks back at once.
func TestACancelledRequestIsRolledBack(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	contest := small(t, d)
	holder := query(t, url)
	tx, err := holder.Begin(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := tx.Exec(t.Context(), "SELECT FROM contest_head FOR UPDATE"); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	answer := make(chan error, 1)
	go func() { answer <- d.SetOpened(ctx, contest, db.Live, "director") }()
	awaitWaiting(t, query(t, url))
	cancel()
	if err := <-answer; !errors.Is(err, context.Canceled) || errors.Is(err, db.ErrUnavailable) {
		t.Errorf("%v", err)
	}
	// The contest's row, which it had changed, is free although the head is not.
	if _, err := query(t, url).Exec(t.Context(), "SET lock_timeout = '20s'; UPDATE contest SET place = 'here'"); err != nil {
		t.Error(err)
	}
	if err := tx.Rollback(t.Context()); err != nil {
		t.Error(err)
	}
}

// A database that goes away and comes back.
func TestAnAwayDatabase(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	contest := small(t, d)
	if _, err := query(t, url).Exec(t.Context(), `
		SELECT pg_terminate_backend(pid)
		FROM pg_stat_activity
		WHERE datname = current_database() AND pid <> pg_backend_pid()`); err != nil {
		t.Fatal(err)
	}
	await(t, "the database to be back", func() bool {
		_, err := d.Head(t.Context(), contest)
		if err != nil && !errors.Is(err, db.ErrUnavailable) {
			t.Fatalf("%v does not say that the database is away", err)
		}
		return err == nil
	})
}

func TestNoDatabase(t *testing.T) {
	t.Parallel()
	const nowhere = "postgres:///nowhere?host=/nowhere"
	if _, err := db.Open(t.Context(), nowhere); !errors.Is(err, db.ErrUnavailable) {
		t.Errorf("Open: %v", err)
	}
	if err := db.Migrate(t.Context(), nowhere); !errors.Is(err, db.ErrUnavailable) {
		t.Errorf("Migrate: %v", err)
	}
}

// A connection that is lost in the middle of a transaction is said as such. What it
// waits for is held by no session, which might end before the one that waits and let
// it through.
func TestAServerThatStops(t *testing.T) {
	t.Parallel()
	c, err := cluster.Start(t.Context(), dbtest.Folder(t), "fsync=off", "max_prepared_transactions=1")
	if err != nil {
		t.Fatal(err)
	}
	defer c.Stop()
	if err := db.Migrate(t.Context(), c.URL()); err != nil {
		t.Fatal(err)
	}
	d := open(t, c.URL())
	contest := small(t, d)
	holder := query(t, c.URL())
	if _, err := holder.Exec(t.Context(), "BEGIN; SELECT FROM contest_head FOR UPDATE; PREPARE TRANSACTION 'held'"); err != nil {
		t.Fatal(err)
	}
	answer := make(chan error, 1)
	go func() { answer <- d.SetOpened(t.Context(), contest, db.Live, "director") }()
	awaitWaiting(t, query(t, c.URL()))
	c.Stop()
	if err := <-answer; !errors.Is(err, db.ErrUnavailable) {
		t.Errorf("in the middle: %v", err)
	}
	if _, err := d.Head(t.Context(), contest); !errors.Is(err, db.ErrUnavailable) {
		t.Errorf("afterwards: %v", err)
	}
	if err := d.Ping(t.Context()); !errors.Is(err, db.ErrUnavailable) {
		t.Errorf("Ping: %v", err)
	}
}
