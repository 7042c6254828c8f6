package soak

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db/cluster"
	"halfpoint/db/dbtest"
)

// How long the soak lasts where nobody says (HALFPOINT_SOAK), how many contests are
// held at once, how many spectators each has, and what each contest has.
const (
	shortSoak            = 8 * time.Second
	lanes                = 2
	spectators           = 3
	flights, items, many = 2, 5, 3
)

// A soak is contests that are held while things break.
type soak struct {
	t         *testing.T
	seed      uint64
	lasts     time.Duration
	disk      *disk // nil where it cannot be filled
	postgres  *cluster.Cluster
	data      string // the folder of the Postgres
	steady    *process
	shaky     *process
	network   *proxy
	away      atomic.Int64
	published atomic.Int64
	looked    atomic.Int64

	mu       sync.Mutex
	contests []*contest
	faults   map[string]int
}

// TestSoak holds contests through random faults: processes and the Postgres are
// killed, the network is slow and is cut, tablets' clocks jump, the disk is full. At
// the end nothing that was answered as stored is lost or there twice, every journal
// is whole, every publication verifies, and the process that was never killed is as
// small as it was.
//
//	HALFPOINT_SOAK=10m HALFPOINT_SEED=7 go test ./cmd/soak -run TestSoak -v -timeout 0
func TestSoak(t *testing.T) {
	s := startSoak(t)
	before := s.steady.size(t)
	ctx, cancel := context.WithTimeout(t.Context(), s.lasts+5*time.Minute)
	defer cancel()
	soaking, dry := context.WithTimeout(ctx, s.lasts)
	defer dry()
	var all sync.WaitGroup
	for lane := range lanes {
		all.Go(func() { s.holdContests(ctx, soaking, rand.New(rand.NewPCG(s.seed, uint64(lane)))) })
	}
	all.Go(func() { s.tell(soaking) })
	s.breakThings(soaking, rand.New(rand.NewPCG(s.seed, 1000)))
	all.Wait()
	s.summary()
	if !t.Failed() {
		s.check(before)
	}
}

func startSoak(t *testing.T) *soak {
	s := &soak{t: t, seed: uint64(time.Now().UnixNano()) % 1_000_000, lasts: shortSoak, faults: map[string]int{}}
	if text := os.Getenv("HALFPOINT_SEED"); text != "" {
		seed, err := strconv.ParseUint(text, 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		s.seed = seed
	}
	shared := dbtest.Folder(t)
	s.data = filepath.Join(shared, "postgres")
	if text := os.Getenv("HALFPOINT_SOAK"); text != "" {
		lasts, err := time.ParseDuration(text)
		if err != nil {
			t.Fatal(err)
		}
		s.lasts = lasts
		s.disk = smallDisk(t, s.data)
	}
	t.Logf("a soak of %v with seed %d, and a disk that can be full: %t", s.lasts, s.seed, s.disk != nil)
	s.postgres = startPostgres(t, s.data)
	s.steady, s.shaky = newProcess(t, shared, "steady", s.postgres.URL()), newProcess(t, shared, "shaky", s.postgres.URL())
	s.steady.start()
	s.shaky.start()
	s.network = newProxy(t, s.steady.address, s.shaky.address)
	return s
}

// holdContests holds one contest after the other until it is over; the last one is
// flown to its end.
func (s *soak) holdContests(ctx, soaking context.Context, random *rand.Rand) {
	for soaking.Err() == nil {
		if err := s.holdOne(ctx, random); err != nil {
			s.t.Error(err)
			return
		}
	}
}

func (s *soak) holdOne(ctx context.Context, random *rand.Rand) error {
	c, err := holdContest(ctx, flights, items, many, func() *client { return newClient(s.network.address(), &s.away) })
	if err != nil {
		return err
	}
	s.mu.Lock()
	s.contests = append(s.contests, c)
	s.mu.Unlock()
	looking, stop := context.WithCancel(ctx)
	var all sync.WaitGroup
	defer all.Wait()
	defer stop()
	for range spectators {
		all.Go(func() { s.look(looking, c.id) })
	}
	for _, flight := range c.flights {
		if err := c.fly(ctx, random, flight); err != nil {
			return err
		}
		s.published.Add(1)
	}
	return nil
}

// look is a spectator, who follows a contest and reads what is published at every
// change.
func (s *soak) look(ctx context.Context, contest uuid.UUID) {
	c := newClient(s.network.address(), &s.away)
	defer c.http.CloseIdleConnections()
	c.http.Timeout = 0
	for wait := time.NewTicker(again); ctx.Err() == nil; {
		s.follow(ctx, c, contest)
		select {
		case <-ctx.Done():
			wait.Stop()
		case <-wait.C:
		}
	}
}

func (s *soak) follow(ctx context.Context, c *client, contest uuid.UUID) {
	path := c.url + "/api/v1/contests/" + contest.String()
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, path+"/events", nil)
	if err != nil {
		return
	}
	stream, err := c.http.Do(request)
	if err != nil {
		return
	}
	defer stream.Body.Close()
	for lines := bufio.NewScanner(stream.Body); lines.Scan(); {
		if !strings.HasPrefix(lines.Text(), "id:") {
			continue
		}
		if status, _, _, err := c.once(ctx, http.MethodGet, "/api/v1/contests/"+contest.String()+"/publications", nil); err == nil && status == http.StatusOK {
			s.looked.Add(1)
		}
	}
}

// tell says how it goes.
func (s *soak) tell(soaking context.Context) {
	for every := time.NewTicker(10 * time.Second); ; {
		select {
		case <-soaking.Done():
			every.Stop()
			return
		case <-every.C:
			s.summary()
		}
	}
}

func (s *soak) summary() {
	s.mu.Lock()
	defer s.mu.Unlock()
	stored := 0
	for _, c := range s.contests {
		for _, t := range c.tablets() {
			stored += t.count()
		}
	}
	faults, _ := json.Marshal(s.faults)
	s.t.Logf("%d contests, %d records stored, %d publications, read %d times; %d times no answer, or to come again; faults: %s",
		len(s.contests), stored, s.published.Load(), s.looked.Load(), s.away.Load(), faults)
}

// check holds what was promised against what is there.
func (s *soak) check(before size) {
	s.t.Helper()
	for _, c := range s.contests {
		checkStored(s.t, s.postgres, c)
		s.checkPublications(c)
		for _, t := range append(c.tablets(), &tablet{client: c.office}) {
			t.http.CloseIdleConnections()
		}
	}
	runs(s.t, "verify", "--journal", "--database", s.postgres.URL())
	after := s.steady.size(s.t)
	await(s.t, "the process to be as small as before", func() bool {
		after = s.steady.size(s.t)
		return after.goroutines <= before.goroutines+mayGrow
	})
	s.t.Logf("the process that was never killed: %d goroutines before and %d after, %.0f and %.0f MiB of live heap and what may come before the next collection",
		before.goroutines, after.goroutines, before.heap, after.heap)
	if after.heap > before.heap+mayHold {
		s.t.Errorf("the process holds %.0f MiB, and held %.0f", after.heap, before.heap)
	}
}

func (s *soak) checkPublications(c *contest) {
	s.t.Helper()
	var list api.PublicationList
	if _, err := c.office.ask(s.t.Context(), http.MethodGet, "/api/v1/contests/"+c.id.String()+"/publications", nil, &list); err != nil {
		s.t.Fatal(err)
	}
	if len(list.Publications) != flights {
		s.t.Errorf("%d flights were published by %d publications", flights, len(list.Publications))
	}
	for _, p := range list.Publications {
		var archive []byte
		if _, err := c.office.ask(s.t.Context(), http.MethodGet, "/api/v1/publications/"+p.ID.String()+"/archive", nil, &archive); err != nil {
			s.t.Fatal(err)
		}
		file := filepath.Join(s.t.TempDir(), p.ID.String()+".zip")
		if err := os.WriteFile(file, archive, 0o600); err != nil {
			s.t.Fatal(err)
		}
		runs(s.t, "verify", file)
	}
}

// What a process may have more at the end: connections to the database that were not
// used before, and the results that it keeps of contests.
const (
	mayGrow = 20 // goroutines
	mayHold = 64 // MiB
)

// A size is how large a process is.
type size struct {
	goroutines int
	heap       float64 // MiB at which the next collection begins: twice what the last one left
}

// size reads what a process tells of itself.
func (p *process) size(t testing.TB) (s size) {
	t.Helper()
	response, err := http.Get("http://" + p.address + "/metrics")
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	for lines := bufio.NewScanner(response.Body); lines.Scan(); {
		var value float64
		if n, _ := fmt.Sscanf(lines.Text(), "go_goroutines %g", &value); n == 1 {
			s.goroutines = int(value)
		}
		if n, _ := fmt.Sscanf(lines.Text(), "go_memstats_next_gc_bytes %g", &value); n == 1 {
			s.heap = value / (1 << 20)
		}
	}
	return s
}
