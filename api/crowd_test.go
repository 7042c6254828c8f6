package api_test

import (
	"context"
	"crypto/ecdsa"
	"crypto/sha256"
	"fmt"
	"math/rand/v2"
	"net/http"
	"runtime"
	"slices"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/api"
	"halfpoint/db"
)

// A great many tablets: so many contests with ten each, of which so many hold their
// event stream open, or as many as the process may open files for: a stream in a
// test has two ends in it.
const (
	crowdContests = 1000
	crowdSeats    = 10
	crowdStreams  = 8000
	crowdPerSec   = 300         // grades
	crowdFor      = time.Minute // with collections of garbage in it
)

// BenchmarkCrowd has 10,000 tablets of 1,000 contests, nearly all of them silent,
// enter 300 grades a second in all. A grade's time runs from when it was due. Asked
// for is a p99 under 100 ms, and no error. The Postgres keeps what it is given.
func BenchmarkCrowd(b *testing.B) {
	s := startDurable(b)
	tablets := crowd(s)
	streams := openStreams(b, s, tablets)
	defer streams()
	random := rand.New(rand.NewPCG(7, 7))
	runtime.GC() // of making a thousand contests, which no line does
	for b.Loop() {
		took := dueGrades(b, tablets, random)
		report(b, took, "")
		b.ReportMetric(float64(len(took))/crowdFor.Seconds(), "grades/s")
	}
}

// crowd makes the contests, and puts devices and their sessions there as pairing
// would have.
func crowd(s *service) []*tablet {
	s.t.Helper()
	keys := make([]*ecdsa.PrivateKey, crowdSeats)
	for i := range keys {
		keys[i] = newKey(s.t)
	}
	contests := make([]*aLine, crowdContests)
	var all sync.WaitGroup
	for part := range 4 {
		all.Go(func() {
			for n := part; n < crowdContests; n += 4 {
				contests[n] = scheduled(s, 1, 10, crowdSeats)
			}
		})
	}
	all.Wait()
	var tablets []*tablet
	for _, l := range contests {
		for i, seat := range l.panel {
			judge := api.Named{ID: seat.Judge.ID, Name: seat.Judge.Name}
			tablets = append(tablets, &tablet{
				aLine: l, key: keys[i], session: uuid.NewString(), store: uuid.New(),
				paired: api.PairedDevice{Device: uuid.Must(uuid.NewV7()), Judge: &judge},
			})
		}
	}
	insertPaired(s, tablets)
	return tablets
}

// scheduled is a contest whose flights are still to be flown.
func scheduled(s *service, flights, items, seats int) *aLine {
	s.t.Helper()
	bundle := unflownBundle(flights, items, seats)
	contest, err := s.db.Import(s.t.Context(), bundle, db.ImportOptions{Opened: db.Live})
	if err != nil {
		s.t.Error(err)
		return nil
	}
	l := &aLine{service: s, contest: contest}
	part, err := s.db.ContestBundle(s.t.Context(), contest)
	if err != nil {
		s.t.Error(err)
		return nil
	}
	flight := part.Categories[0].Programmes[0].Flights[0].ID
	sheets, err := s.db.Sheets(s.t.Context(), flight)
	if err != nil {
		s.t.Error(err)
		return nil
	}
	l.flight = api.LineFlight{ID: flight, Sequence: &api.LineSequence{Digest: sheets.Sequence.Digest}}
	for _, seat := range sheets.Panel {
		l.panel = append(l.panel, api.Seat{Judge: api.Named{ID: seat.Judge}})
	}
	return l
}

// insertPaired writes the rows that pairing writes.
func insertPaired(s *service, tablets []*tablet) {
	s.t.Helper()
	conn, err := pgx.Connect(s.t.Context(), s.database)
	if err != nil {
		s.t.Fatal(err)
	}
	defer conn.Close(context.WithoutCancel(s.t.Context()))
	devices, sessions := [][]any{}, [][]any{}
	for _, t := range tablets {
		public, err := t.key.PublicKey.Bytes()
		if err != nil {
			s.t.Fatal(err)
		}
		hash := sha256.Sum256([]byte(t.session))
		devices = append(devices, []any{t.contest, t.paired.Device, "judge", t.paired.Judge.ID, public})
		sessions = append(sessions, []any{uuid.New(), hash[:], t.contest, t.paired.Device, "simulated", time.Now().Add(time.Hour)})
	}
	_, err = conn.CopyFrom(s.t.Context(), pgx.Identifier{"device"},
		[]string{"contest_id", "device_id", "role", "judge_id", "public_key"}, pgx.CopyFromRows(devices))
	if err == nil {
		_, err = conn.CopyFrom(s.t.Context(), pgx.Identifier{"session"},
			[]string{"session_id", "hash", "contest_id", "device_id", "user_agent", "expires_at"}, pgx.CopyFromRows(sessions))
	}
	if err != nil {
		s.t.Fatal(err)
	}
}

// openStreams has tablets follow their contests, and returns what ends that.
func openStreams(b *testing.B, s *service, tablets []*tablet) (end func()) {
	b.Helper()
	ctx, cancel := context.WithCancel(b.Context())
	var opened, read sync.WaitGroup
	many := mayOpen(b)
	for part := range 8 {
		client := &http.Client{}
		opened.Go(func() {
			for n := part; n < many; n += 8 {
				if n/8%100 == 0 {
					client = clientFrom(3000 + n)
				}
				if err := follow(ctx, client, tablets[n], &read); err != nil {
					b.Error(err)
					return
				}
			}
		})
	}
	opened.Wait()
	if b.Failed() {
		b.FailNow()
	}
	return func() { cancel(); read.Wait() }
}

// mayOpen is how many streams can be open.
func mayOpen(b *testing.B) int {
	b.Helper()
	var files syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_NOFILE, &files); err != nil {
		b.Fatal(err)
	}
	const others = 2000
	many := min(crowdStreams, max(0, int(files.Cur)-others)/2)
	b.Logf("%d of %d tablets hold their stream open", many, crowdContests*crowdSeats)
	return many
}

// follow opens a stream and reads it until it is called off.
func follow(ctx context.Context, client *http.Client, t *tablet, read *sync.WaitGroup) error {
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, t.url+"/api/v1/contests/"+t.contest.String()+"/events", nil)
	if err != nil {
		return err
	}
	request.AddCookie(&http.Cookie{Name: "halfpoint", Value: t.session})
	request.Header.Set("Origin", t.url)
	stream, err := client.Do(request)
	if err != nil {
		return err
	}
	if stream.StatusCode != http.StatusOK {
		stream.Body.Close()
		return fmt.Errorf("a stream: %d", stream.StatusCode)
	}
	read.Go(func() {
		defer stream.Body.Close()
		for piece := make([]byte, 512); err == nil; {
			_, err = stream.Body.Read(piece)
		}
	})
	return nil
}

// dueGrades has any tablet enter a grade whenever one is due, and tells how long each
// took.
func dueGrades(b *testing.B, tablets []*tablet, random *rand.Rand) []time.Duration {
	b.Helper()
	const many = int(crowdPerSec * crowdFor / time.Second)
	senders := make([]*http.Client, 50)
	for i := range senders {
		newAddress++
		senders[i] = clientFrom(newAddress)
		senders[i].Transport.(*http.Transport).MaxIdleConnsPerHost = 20
	}
	bodies := make([][]byte, many)
	for i := range bodies {
		bodies[i] = tablets[random.IntN(len(tablets))].nextBody()
	}
	took := make([]time.Duration, many)
	var all sync.WaitGroup
	every := time.NewTicker(time.Second / crowdPerSec)
	defer every.Stop()
	for i := range many {
		due := <-every.C
		all.Go(func() {
			err := stores(senders[i%len(senders)], tablets[0].url, bodies[i])
			took[i] = time.Since(due)
			if err != nil && !b.Failed() {
				b.Error(err)
			}
		})
	}
	all.Wait()
	slices.Sort(took)
	return took
}
