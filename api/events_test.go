package api_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/line"
)

// patience bounds what is waited for; it is only met by what fails.
const patience = 10 * time.Second

func TestEventAfterARecord(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	events := s.follow(contest)

	first := events.next()
	stored := s.storesAPenalty(contest)
	second := events.next()
	if second.Epoch != first.Epoch || second.Version <= first.Version || second.Version > stored {
		t.Errorf("at first %v, then %v; stored was version %d", first, second, stored)
	}
	if head := get[api.Contest](s, "/api/v1/contests/"+contest.String()).Head; head.Version < second.Version {
		t.Errorf("version %d was told, %d is read", second.Version, head.Version)
	}
}

// TestEventTellsWhatChanged: after the first change of which it is told, a stream
// knows what came between.
func TestEventTellsWhatChanged(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	events := s.follow(contest)
	if events.next(); events.changed != nil {
		t.Errorf("at first %q changed", events.changed)
	}
	for range 2 {
		for stored := s.storesAPenalty(contest); events.next().Version < stored; {
		}
	}
	if !slices.Equal(events.changed, []string{db.ChangedLine}) {
		t.Errorf("%q changed", events.changed)
	}
}

// TestStreamEndsWhenTheContestIsClosed follows as anyone.
func TestStreamEndsWhenTheContestIsClosed(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	events := s.follow(contest)
	events.next()
	if err := s.db.SetOpened(t.Context(), contest, db.Closed, ""); err != nil {
		t.Fatal(err)
	}
	if line, more := <-events.lines; more {
		t.Errorf("the stream went on with %q", line)
	}
}

// storesAPenalty stores a record and returns the version it made.
func (s *service) storesAPenalty(contest uuid.UUID) int64 {
	s.t.Helper()
	part, err := s.db.ContestBundle(s.t.Context(), contest)
	if err != nil {
		s.t.Fatal(err)
	}
	receipt, err := s.db.StoreRecords(s.t.Context(), contest, db.Delivery{
		Store: uuid.New(), Author: line.Author{Role: line.RoleOffice, Device: "test"},
		Records: []db.Received{{Record: line.Record{
			Seq: 1, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindPenalty,
			Flight:  part.Categories[0].Programmes[0].Flights[0].ID.String(),
			Penalty: &line.Penalty{Kind: "height", Count: 1, Points: 50},
		}}},
	})
	if err != nil {
		s.t.Fatal(err)
	}
	if receipt.Answers[0].Result != db.ResultStored {
		s.t.Fatalf("the record was not stored: %+v", receipt.Answers[0])
	}
	return receipt.Version
}

// A stream is read line by line until it ends.
type stream struct {
	t       testing.TB
	lines   chan string
	changed []string // as the event read last says
}

func (s *service) follow(contest uuid.UUID) *stream {
	s.t.Helper()
	r, err := http.NewRequestWithContext(s.t.Context(), http.MethodGet, s.url+"/api/v1/contests/"+contest.String()+"/events", http.NoBody)
	if err != nil {
		s.t.Fatal(err)
	}
	response, err := http.DefaultClient.Do(r)
	if err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(func() { response.Body.Close() })
	if got := response.Header.Get("Content-Type"); response.StatusCode != http.StatusOK || got != "text/event-stream" {
		s.t.Fatalf("the stream is answered %d, %s", response.StatusCode, got)
	}
	lines := make(chan string)
	go func() {
		defer close(lines)
		for read := bufio.NewScanner(response.Body); read.Scan(); {
			select {
			case lines <- read.Text():
			case <-s.t.Context().Done():
				return
			}
		}
	}()
	return &stream{t: s.t, lines: lines}
}

// next reads an event: its id, its data and an empty line.
func (s *stream) next() (head api.Head) {
	s.t.Helper()
	id, data, empty := s.line(), s.line(), s.line()
	var told struct {
		api.Head
		Changed []string `json:"changed"`
	}
	if err := json.Unmarshal([]byte(strings.TrimPrefix(data, "data: ")), &told); err != nil {
		s.t.Fatalf("%q: %v", data, err)
	}
	head, s.changed = told.Head, told.Changed
	if want := fmt.Sprintf("id: %s:%d", head.Epoch, head.Version); id != want || empty != "" {
		s.t.Fatalf("an event is %q, %q, %q; its id should be %q", id, data, empty, want)
	}
	return head
}

func (s *stream) line() string {
	s.t.Helper()
	select {
	case line, more := <-s.lines:
		if !more {
			s.t.Fatal("the stream ended")
		}
		return line
	case <-time.After(patience):
		s.t.Fatal("nothing came")
	}
	return ""
}
