package api_test

import (
	"bytes"
	"net/http"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgxpool"

	"halfpoint/db"
)

// A busy day: so many contests with so many tablets in all, each of which enters
// a grade so often, for so long.
const (
	loadContests = 12
	loadTablets  = 200
	loadEvery    = 2 * time.Second
	loadFor      = 10 * time.Second
)

// BenchmarkTablets has 200 tablets enter a grade every two seconds over HTTP,
// each answered when it is committed, and then the same rows written at the same
// times by pgx alone. Asked for is a p99 under 50 ms, and no error.
func BenchmarkTablets(b *testing.B) {
	s := start(b)
	s.client = &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: loadTablets}}
	tablets := manyTablets(s)
	for b.Loop() {
		served := atTheirTimes(b, len(tablets), func(i int) error { return tablets[i].enter() })
		bare := atTheirTimes(b, len(tablets), bareRows(b, s.database))
		if b.Failed() {
			return
		}
		report(b, served, "")
		report(b, bare, "bare-")
		b.ReportMetric(float64(quantile(served, 0.99))/float64(quantile(bare, 0.99)), "p99-ratio")
	}
}

// manyTablets pairs the tablets of all contests, a seat each.
func manyTablets(s *service) []*tablet {
	s.t.Helper()
	var all []*tablet
	for n := range loadContests {
		bundle := unflownBundle(3, 40, (loadTablets+n)/loadContests)
		l := lineOf(s, s.imports(bundle, db.Live))
		for _, seat := range l.panel {
			all = append(all, l.tablet("judge", seat.Judge.ID))
		}
	}
	return all
}

// enter records the next grade of a tablet, sends it, and wants it stored.
func (b *tablet) enter() error { return stores(b.client, b.url, b.nextBody()) }

// bareRows writes rows of the size of a record, each committed alone.
func bareRows(b *testing.B, address string) func(int) error {
	pool, err := pgxpool.New(b.Context(), address)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(pool.Close)
	if _, err := pool.Exec(b.Context(), "CREATE TABLE IF NOT EXISTS bare (contest uuid, id uuid PRIMARY KEY, body bytea, at timestamptz DEFAULT now())"); err != nil {
		b.Fatal(err)
	}
	contest, body := uuid.New(), bytes.Repeat([]byte("7"), 480)
	return func(int) error {
		_, err := pool.Exec(b.Context(), "INSERT INTO bare (contest, id, body) VALUES ($1, $2, $3)", contest, uuid.New(), body)
		return err
	}
}

// atTheirTimes lets each of so many do its work again and again, one a moment
// after the other, and tells how long each time took. It is nil where one failed.
func atTheirTimes(b *testing.B, many int, work func(i int) error) []time.Duration {
	took := make([][]time.Duration, many)
	var all sync.WaitGroup
	for i := range many {
		all.Go(func() {
			first := time.NewTimer(loadEvery * time.Duration(i) / time.Duration(many))
			<-first.C
			every := time.NewTicker(loadEvery)
			defer every.Stop()
			for range int(loadFor / loadEvery) {
				began := time.Now()
				if err := work(i); err != nil {
					b.Error(err)
					return
				}
				took[i] = append(took[i], time.Since(began))
				<-every.C
			}
		})
	}
	all.Wait()
	list := slices.Concat(took...)
	slices.Sort(list)
	return list
}

func quantile(sorted []time.Duration, q float64) time.Duration {
	return sorted[int(q*float64(len(sorted)-1))]
}

func report(b *testing.B, took []time.Duration, of string) {
	for name, q := range map[string]float64{"p50": 0.5, "p99": 0.99} {
		b.ReportMetric(float64(quantile(took, q).Microseconds())/1000, of+name+"-ms")
	}
}
