package api_test

import (
	"fmt"
	"io"
	"net/http"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/publication"
)

// Each path is asked for by so many at once, for so long, in so many rounds, one
// path after the other in each, so that other work on the machine meets all alike.
const (
	readers    = 4
	readFor    = 500 * time.Millisecond
	readRounds = 6
)

// perAddress is how many requests come from one address: fewer than the service
// lets through at once.
const perAddress = 1_900

// gzipped is said by hand, so that nothing is unpacked here.
var gzipped = map[string]string{"Accept-Encoding": "gzip"}

var addresses atomic.Int32

// nextClient asks from an address that nobody has asked from.
func nextClient() *http.Client { return clientFrom(int(addresses.Add(1))) }

// BenchmarkPublished asks over HTTP for what is published of a programme of 60
// flights, 15 items and 10 seats, as a browser does, and for /healthz, which
// answers nothing. Asked for is at least half of that one's rate for each.
func BenchmarkPublished(b *testing.B) {
	s := start(b)
	contest := get[api.Contest](s, "/api/v1/contests/"+s.imports(largeBundle(60, 15, 10), db.Live).String())
	programme := contest.Categories[0].Programmes[0].ID
	id, _, err := s.db.Publish(b.Context(), db.Scope{Programme: programme}, db.Publishing{State: publication.Provisional}, signer)
	if err != nil {
		b.Fatal(err)
	}
	at := "/api/v1/publications/" + id.String()
	paths := map[string]string{
		"page": at, "bundle": at + "/bundle", "results": at + "/results",
		"latest": "/api/v1/programmes/" + programme.String() + "/publications/latest",
	}
	for b.Loop() {
		answered, bare := map[string]int{}, 0
		for range readRounds {
			bare += s.answersOf(b, "/healthz")
			for name, path := range paths {
				answered[name] += s.answersOf(b, path)
			}
		}
		seconds := (readRounds * readFor).Seconds()
		b.ReportMetric(float64(bare)/seconds, "healthz/s")
		for name, n := range answered {
			b.ReportMetric(float64(len(s.send(request{path: paths[name], header: gzipped}).body))/1000, name+"-kB")
			b.ReportMetric(float64(n)/seconds, name+"/s")
			b.ReportMetric(float64(n)/float64(bare), name+"-ratio")
		}
	}
}

// answersOf counts how many answers there are to a path in a while.
func (s *service) answersOf(b *testing.B, path string) int {
	counts := make([]int, readers)
	end := time.Now().Add(readFor)
	var all sync.WaitGroup
	for i := range readers {
		all.Go(func() {
			from := nextClient()
			for ; time.Now().Before(end); counts[i]++ {
				if counts[i]%perAddress == perAddress-1 {
					from.CloseIdleConnections()
					from = nextClient()
				}
				if err := readAll(from, s.url+path); err != nil {
					b.Error(err)
					return
				}
			}
			from.CloseIdleConnections()
		})
	}
	all.Wait()
	sum := 0
	for _, n := range counts {
		sum += n
	}
	return sum
}

func readAll(from *http.Client, url string) error {
	asked, err := http.NewRequest(http.MethodGet, url, nil)
	if err != nil {
		return err
	}
	asked.Header.Set("Accept-Encoding", gzipped["Accept-Encoding"])
	a, err := from.Do(asked)
	if err != nil {
		return err
	}
	defer a.Body.Close()
	if a.StatusCode != http.StatusOK {
		return fmt.Errorf("%s: %s", url, a.Status)
	}
	_, err = io.Copy(io.Discard, a.Body)
	return err
}
