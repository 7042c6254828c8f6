package api_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"

	"halfpoint/db"
	"halfpoint/db/cluster"
	"halfpoint/db/dbtest"
)

// storedGrades is how many grades are stored in a turn, and storedTurns how often the
// two ways take turns, since other work on the machine comes and goes. So many
// tablets send at once that no connection waits for any of them.
const (
	storedGrades  = 1920
	storedTurns   = 3
	storedTablets = 64
)

// BenchmarkGradesStored stores grades over HTTP, each signed, and answered when it is
// committed, on 1, 8 and 32 connections to Postgres; and, in turns with it, has pgx
// alone write the same rows on as many connections, with a commit for each. Postgres
// keeps what it is given, as for a contest. Asked for is 0.6 of what pgx alone reaches.
func BenchmarkGradesStored(b *testing.B) {
	c := startCluster(b)
	for _, connections := range []int{1, 8, 32} {
		b.Run(fmt.Sprint(connections), func(b *testing.B) {
			s := serveOn(b, fmt.Sprintf("%s&pool_max_conns=%d", c.URL(), connections))
			besideAlone(b, s, manyTablets(s)[:storedTablets], connections)
		})
	}
}

// BenchmarkGradeStored has one tablet alone, which sends the next grade when the last
// is answered, beside pgx alone, which does the same: how long a grade takes where
// nothing is done beside it. Then neither processor nor disk has anything to do while
// the other works, and each sleeps.
func BenchmarkGradeStored(b *testing.B) {
	s := startDurable(b)
	besideAlone(b, s, manyTablets(s)[:1], 1)
}

// besideAlone measures tablets that send at once, and in turns with them pgx alone.
func besideAlone(b *testing.B, s *service, tablets []*tablet, connections int) {
	b.Helper()
	alone := aloneFor(b, s.database, tablets, connections)
	for b.Loop() {
		var served, bare time.Duration
		for range storedTurns {
			served += atOnce(b, len(tablets), senderOf(b, tablets))
			bare += atOnce(b, connections, alone)
		}
		const grades = storedGrades * storedTurns
		b.ReportMetric(grades/served.Seconds(), "grades/s")
		b.ReportMetric(grades/bare.Seconds(), "pgx-alone/s")
		b.ReportMetric(bare.Seconds()/served.Seconds(), "ratio")
	}
}

// startDurable is a service on a Postgres with everything on that keeps what was
// committed.
func startDurable(b *testing.B) *service {
	b.Helper()
	return serveOn(b, startCluster(b).URL())
}

func startCluster(b *testing.B) *cluster.Cluster {
	b.Helper()
	c, err := cluster.Start(b.Context(), dbtest.Folder(b))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(c.Stop)
	if err := db.Migrate(b.Context(), c.URL()); err != nil {
		b.Fatal(err)
	}
	return c
}

// serveOn is a service on a database, by its URL.
func serveOn(b *testing.B, database string) *service {
	b.Helper()
	d, err := db.Open(b.Context(), database)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(d.Close)
	s := startOn(b, d)
	s.database = database
	return s
}

// atOnce has so many do their share of the work at once, and tells how long all of
// it took.
func atOnce(b *testing.B, many int, work func(worker, n int) error) time.Duration {
	b.Helper()
	var all sync.WaitGroup
	began := time.Now()
	for worker := range many {
		all.Go(func() {
			for n := range storedGrades / many {
				if err := work(worker, n); err != nil {
					b.Error(err)
					return
				}
			}
		})
	}
	all.Wait()
	took := time.Since(began)
	if b.Failed() {
		b.FailNow()
	}
	return took
}

// senderOf has tablets make all that they are to send, and returns what sends it. Each
// tablet has an address of its own.
func senderOf(b *testing.B, tablets []*tablet) func(worker, n int) error {
	b.Helper()
	bodies, clients := make([][][]byte, len(tablets)), make([]*http.Client, len(tablets))
	for i, one := range tablets {
		newAddress++
		clients[i] = clientFrom(newAddress)
		for range storedGrades / len(tablets) {
			bodies[i] = append(bodies[i], one.nextBody())
		}
	}
	return func(worker, n int) error {
		return stores(clients[worker], tablets[worker].url, bodies[worker][n])
	}
}

// newAddress counts the addresses that were sent from.
var newAddress int

// nextBody is what a tablet sends of its next grade.
func (b *tablet) nextBody() []byte {
	b.t.Helper()
	record := b.grade(1+int(b.seq)%40, "7.5")
	body, err := json.Marshal(map[string]any{"device": b.paired.Device, "store": b.store, "unsent": 0, "records": []any{record}})
	if err != nil {
		b.t.Fatal(err)
	}
	return body
}

// stores sends a grade, and wants it stored.
func stores(client *http.Client, url string, body []byte) error {
	a, err := client.Post(url+"/api/v1/line/records", json1, bytes.NewReader(body))
	if err != nil {
		return err
	}
	defer a.Body.Close()
	text, err := io.ReadAll(a.Body)
	if err == nil && (a.StatusCode != http.StatusOK || !bytes.Contains(text, []byte(`"stored"`))) {
		err = fmt.Errorf("%d %s", a.StatusCode, text)
	}
	return err
}

// aloneFor writes with pgx and nothing else what the grades of tablets become: a
// record, a row of the contest's journal, and the contest's head, in one piece, by a
// worker for each connection. The tables are made like the program's own.
func aloneFor(b *testing.B, address string, tablets []*tablet, connections int) func(worker, n int) error {
	b.Helper()
	config, err := pgxpool.ParseConfig(address)
	if err != nil {
		b.Fatal(err)
	}
	config.MaxConns = int32(connections)
	pool, err := pgxpool.NewWithConfig(b.Context(), config)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(pool.Close)
	if _, err := pool.Exec(b.Context(), `
		CREATE TABLE IF NOT EXISTS bare_record (LIKE line_record INCLUDING ALL);
		CREATE TABLE IF NOT EXISTS bare_head (LIKE contest_head INCLUDING ALL);
		CREATE TABLE IF NOT EXISTS bare_journal (LIKE journal INCLUDING ALL);
		INSERT INTO bare_head SELECT * FROM contest_head ON CONFLICT DO NOTHING`); err != nil {
		b.Fatal(err)
	}
	body, row := bytes.Repeat([]byte("7"), 480), bytes.Repeat([]byte("8"), 240)
	return func(worker, n int) error {
		one := tablets[worker*len(tablets)/connections] // of all their contests
		batch := &pgx.Batch{}
		batch.Queue(`
			INSERT INTO bare_record (contest_id, record_id, body, kind, flight_id, attempt, judge_id, item, grade, sequence, entered_at, author_role, author_seat, author_device, author_withdrawn, store, seq)
			VALUES ($1, $2, $3, 'grade', $4, 1, $5, 1, '7.5', $6, $7, 'judge', $5, $8, false, $9, $10)`,
			one.contest, uuid.New(), body, one.flight.ID, one.paired.Judge.ID, one.flight.Sequence.Digest,
			time.RFC3339Nano, one.paired.Device.String(), one.store, n+1)
		batch.Queue(`
			WITH head AS (
				UPDATE bare_head
				SET version = version + 1, journal_number = journal_number + 1, journal_hash = sha256(journal_hash || $2)
				WHERE contest_id = $1
				RETURNING contest_id, journal_number, journal_hash
			)
			INSERT INTO bare_journal (contest_id, number, body, hash)
			SELECT contest_id, journal_number, $2, journal_hash
			FROM head`,
			one.contest, row)
		return pool.SendBatch(b.Context(), batch).Close()
	}
}
