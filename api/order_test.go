package api_test

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
	"halfpoint/scoring/order"
)

// orders is a contest whose last programme is still to be flown.
type orders struct {
	*service
	flown uuid.UUID // the first programme
	path  string    // of the last one's order
}

func newOrders(t *testing.T) *orders {
	t.Helper()
	s, b := start(t), bundleOf(t, "108")
	last := len(b.Categories[0].Programmes) - 1
	flights := b.Categories[0].Programmes[last].Flights
	for i := range flights {
		flights[i] = scoring.Flight{Pilot: flights[i].Pilot, Sequence: flights[i].Sequence, Status: scoring.Scheduled}
	}
	part, err := s.db.ContestBundle(t.Context(), s.imports(b, db.Live))
	if err != nil {
		t.Fatal(err)
	}
	programmes := part.Categories[0].Programmes
	return &orders{s, programmes[0].ID, "/api/v1/programmes/" + programmes[last].ID.String() + "/order"}
}

// asked sends something and expects an order.
func (s *orders) asked(method, path, body string) api.RunningOrder {
	s.t.Helper()
	return decoded[api.RunningOrder](s.service, request{method: method, path: path, token: token, contentType: json1, body: body})
}

func (s *orders) draw(body string) api.RunningOrder {
	s.t.Helper()
	return s.asked(http.MethodPost, s.path+"/draw", body)
}

func codes(o *api.RunningOrder) (list []string) {
	for _, turn := range o.Turns {
		list = append(list, turn.Code)
	}
	return list
}

// standing are the pilots of the flown programme by rank, as its results say.
func (s *orders) standing() []string {
	s.t.Helper()
	results := get[api.ProgrammeResults](s.service, "/api/v1/programmes/"+s.flown.String()+"/results")
	slices.SortStableFunc(results.Flights, func(a, b api.FlightStanding) int { return *a.Rank - *b.Rank })
	var names []string
	for _, f := range results.Flights {
		names = append(names, f.Pilot.Name)
	}
	return names
}

func names(o *api.RunningOrder) (list []string) {
	for _, turn := range o.Turns {
		list = append(list, turn.Pilot.Name)
	}
	return list
}

func TestOrderIsDrawn(t *testing.T) {
	t.Parallel()
	s := newOrders(t)
	before := get[api.RunningOrder](s.service, s.path)
	if before.Revision != 0 || before.Plan != nil || len(before.Turns) != 6 || before.Turns[0].State != api.TurnStateWaiting || before.Pace != nil || before.Turns[0].Expected != nil {
		t.Fatalf("%+v", before)
	}

	drawn := s.draw(`{"revision": 0, "by": "lot"}`)
	if drawn.Plan == nil || drawn.Plan.Seed == nil || len(*drawn.Plan.Seed) != 12 || drawn.Draws != 1 || drawn.Revision != 1 {
		t.Fatalf("drawn: %+v", drawn.Plan)
	}
	plan := order.Plan{By: order.ByLot, Seed: *drawn.Plan.Seed}
	if want := plan.Draw(codes(&before)); !slices.Equal(codes(&drawn), want) {
		t.Errorf("drawn %v, and by the seed that is shown %v", codes(&drawn), want)
	}
	again := s.draw(fmt.Sprintf(`{"revision": 1, "by": "lot", "seed": %q}`, *drawn.Plan.Seed))
	if !slices.Equal(codes(&again), codes(&drawn)) || again.Draws != 2 {
		t.Errorf("drawn again: %v, then %v", codes(&drawn), codes(&again))
	}

	best := s.standing()
	by := s.draw(fmt.Sprintf(`{"revision": 2, "by": "standing", "of": %q}`, s.flown))
	if !slices.Equal(names(&by), best) || by.Plan.Seed != nil || *by.Plan.Of != s.flown {
		t.Errorf("by standing %v, want %v", names(&by), best)
	}
	slices.Reverse(best)
	by = s.draw(fmt.Sprintf(`{"revision": 3, "by": "standing", "reversed": true, "of": %q}`, s.flown))
	if !slices.Equal(names(&by), best) {
		t.Errorf("reversed %v, want %v", names(&by), best)
	}
	by = s.draw(fmt.Sprintf(`{"revision": 4, "by": "standing", "reversed": true, "block": 3, "seed": "7", "of": %q}`, s.flown))
	got := names(&by)
	for i, block := range [][]string{got[:3], got[3:]} {
		if !slices.Equal(slices.Sorted(slices.Values(block)), slices.Sorted(slices.Values(best[3*i:3*i+3]))) {
			t.Errorf("in blocks %v of %v", got, best)
		}
	}
	overall := s.draw(`{"revision": 5, "by": "standing", "best": 2}`)
	if len(overall.Turns) != 2 || len(overall.Entered) != 4 || *overall.Plan.Best != 2 {
		t.Errorf("%d fly, %d do not", len(overall.Turns), len(overall.Entered))
	}
}

func TestOrderIsMovedByHand(t *testing.T) {
	t.Parallel()
	s := newOrders(t)
	before := get[api.RunningOrder](s.service, s.path)
	var pilots []string
	for _, turn := range before.Turns {
		pilots = append(pilots, `"`+turn.Pilot.ID.String()+`"`)
	}
	first := append([]string{pilots[5]}, pilots[:5]...)
	body := `{"revision": 0, "pilots": [` + strings.Join(first, ",") + `]}`
	moved := s.asked(http.MethodPut, s.path, body)
	if moved.Turns[0].Number != 6 || moved.Turns[1].Number != 1 || moved.Moves != 1 || moved.Draws != 0 || moved.Plan != nil {
		t.Errorf("%+v", moved)
	}
	a := s.send(request{method: http.MethodPut, path: s.path, token: token, contentType: json1, body: body})
	if p := problemOf(t, a); a.status != http.StatusConflict || !strings.Contains(*p.Detail, "changed the running order meanwhile") {
		t.Errorf("a change of what was not seen: %d %s", a.status, a.body)
	}
	for body, want := range map[string]string{
		`{"revision": 1, "pilots": [` + pilots[0] + `,` + pilots[0] + `]}`:    "/pilots/1",
		`{"revision": 1, "pilots": ["0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7"]}`: "/pilots/0",
	} {
		a := s.send(request{method: http.MethodPut, path: s.path, token: token, contentType: json1, body: body})
		if got := complainedOf(t, a); a.status != http.StatusUnprocessableEntity || !slices.Contains(got, want) {
			t.Errorf("%s: %d %s", body, a.status, a.body)
		}
	}
	for body, want := range map[string]string{
		`{"revision": 1, "by": "lot", "block": 2}`:                                        "/block",
		`{"revision": 1, "by": "lot", "seed": "a\tb"}`:                                    "/seed",
		`{"revision": 1, "by": "standing", "of": "0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7"}`: "/of",
	} {
		a := s.send(request{method: http.MethodPost, path: s.path + "/draw", token: token, contentType: json1, body: body})
		if got := complainedOf(t, a); a.status != http.StatusUnprocessableEntity || !slices.Contains(got, want) {
			t.Errorf("%s: %d %s", body, a.status, a.body)
		}
	}
}

// TestOrderSaysWhen has three flights called ten minutes apart, an hour from
// now, so that the clock of the test decides nothing.
func TestOrderSaysWhen(t *testing.T) {
	t.Parallel()
	s := newOrders(t)
	before := get[api.RunningOrder](s.service, s.path)
	at := time.Now().Add(time.Hour).UTC().Truncate(time.Second)
	for i, turn := range before.Turns[:3] {
		s.says(before.Contest.ID, turn.Flight, line.StatusCalled, at.Add(time.Duration(i)*10*time.Minute))
	}
	s.says(before.Contest.ID, before.Turns[4].Flight, line.StatusWithdrawn, at)
	after := get[api.RunningOrder](s.service, s.path)
	if after.Pace == nil || *after.Pace != 600 {
		t.Fatalf("the pace is %v", after.Pace)
	}
	for i, want := range []time.Duration{-1, -1, -1, 30 * time.Minute, -1, 40 * time.Minute} {
		turn := &after.Turns[i]
		if (turn.Expected == nil) != (want < 0) || turn.Expected != nil && !turn.Expected.Equal(at.Add(want)) || turn.Fixed != (i < 3) {
			t.Errorf("flight %d: %+v, begun %v, expected %v", i+1, turn.State, turn.Begun, turn.Expected)
		}
	}
	drawn := s.draw(`{"revision": 0, "by": "lot"}`)
	if got := codes(&drawn); !slices.Equal(got[:3], codes(&before)[:3]) || got[5] != before.Turns[4].Code {
		t.Errorf("%v was drawn of %v", got, codes(&before))
	}
}

// says stores what the chief judge says of a flight.
func (s *orders) says(contest, flight uuid.UUID, status string, at time.Time) {
	s.t.Helper()
	receipt, err := s.db.StoreRecords(s.t.Context(), contest, db.Delivery{
		Store: uuid.New(), Author: line.Author{Role: line.RoleChief, Device: "chief"},
		Records: []db.Received{{Record: line.Record{
			Seq: 1, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindStatus, Flight: flight.String(),
			Status: status, EnteredAt: at.Format(time.RFC3339),
		}}},
	})
	if err != nil || receipt.Answers[0].Result != db.ResultStored {
		s.t.Fatalf("%+v, %v", receipt, err)
	}
}
