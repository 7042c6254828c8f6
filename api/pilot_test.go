package api_test

import (
	"math"
	"net/http"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
)

// TestPilotIsToldAll reads a pilot's page before anything is published, and
// afterwards as the pilot and as anyone. The sums by kind are those of the sheets.
func TestPilotIsToldAll(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "105"), db.Published)
	part, err := s.db.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	programme, flights := part.Categories[0].Programmes[0], part.Bundle.Categories[0].Programmes[0].Flights
	code := flights[2].Pilot
	path := "/api/v1/contests/" + contest.String() + "/pilots/"
	read := func(pilot, session string) (page api.PilotPage) {
		t.Helper()
		return decoded[api.PilotPage](s, request{path: path + pilot, session: session})
	}
	before := read(code, "")
	if len(before.Programmes) != 3 || before.Programmes[0].Published != nil || before.Programmes[0].Now != nil || len(before.Kinds) != 0 {
		t.Fatalf("before anything is published: %+v", before)
	}
	if turn := before.Programmes[0].Turn; turn == nil || turn.Place != 3 || turn.Of != len(flights) || turn.Before != 0 {
		t.Errorf("a turn of %+v", turn)
	}
	s.publishes(programme.ID, part.Pilots[code])
	page := read(part.Pilots[code].String(), "")
	if page.Code != code || page.Own || page.Programmes[0].Published == nil || page.Categories[0].Published == nil || page.Programmes[1].Sequence != nil {
		t.Errorf("as anyone: %+v", page)
	}
	s.compareKinds(programme.Flights[2].ID, page.Kinds)
	pilot := s.account("the third", false)
	s.give(contest, pilot, db.RolePilot, part.Pilots[code])
	if own := read(code, s.signIn(pilot)); !own.Own || own.Programmes[1].Sequence == nil || own.Programmes[1].Sequence.Revision != 1 {
		t.Errorf("as the pilot: %+v", own.Programmes[1].Sequence)
	}
	if a := s.send(request{path: path + "nobody"}); a.status != http.StatusNotFound {
		t.Errorf("nobody's page: %d", a.status)
	}
}

// compareKinds holds sums by kind to the rows of a sheet.
func (s *service) compareKinds(flight uuid.UUID, sums []api.KindSum) {
	s.t.Helper()
	sheet := get[api.FlightSheet](s, "/api/v1/flights/"+flight.String()+"/result")
	k, points, items := 0.0, 0.0, 0
	for _, item := range sheet.Items {
		k, points = k+item.Item.K, points+*item.Points
	}
	for _, sum := range sums {
		k, points, items = k-sum.K, points-sum.Points, items+sum.Items
		if math.Abs(sum.Lost+sum.Points-10*sum.K) > 1e-9 || sum.Gain == nil || sum.Compared != sum.Items {
			s.t.Errorf("%+v", sum)
		}
	}
	if math.Abs(k) > 1e-9 || math.Abs(points) > 1e-9 || items != len(sheet.Items) {
		s.t.Errorf("the kinds leave %v K and %v points, and are of %d items", k, points, items)
	}
}

// TestWorkingIsOfTheScore reads the working of a live flight and of the same as
// it was published.
func TestWorkingIsOfTheScore(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	part, err := s.db.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	programme, code := part.Categories[0].Programmes[0], part.Bundle.Categories[0].Programmes[0].Flights[0].Pilot
	published, _ := s.publishes(programme.ID, part.Pilots[code])
	flight := programme.Flights[0].ID
	live := decoded[api.Working](s, request{path: "/api/v1/flights/" + flight.String() + "/working"})
	stored := decoded[api.Working](s, request{path: "/api/v1/publications/" + published.String() + "/workings/" + code})
	sheet := get[api.FlightSheet](s, "/api/v1/flights/"+flight.String()+"/result")
	if live.Score != *sheet.Flight.Score || stored.Score != live.Score || stored.Sum != live.Sum || len(live.Items) != len(sheet.Items) {
		t.Errorf("a score of %v live, %v published, %v on the sheet", live.Score, stored.Score, *sheet.Flight.Score)
	}
	if live.Flight == nil || live.About != nil || stored.About == nil || len(stored.Others) == 0 || stored.Pilot.ID != code {
		t.Errorf("live %+v, published %+v", live.Pilot, stored.Pilot)
	}
}

// TestChangesSinceThePublication takes points off a published flight.
func TestChangesSinceThePublication(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	part, err := s.db.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	category := part.Categories[0]
	paths := []string{"/api/v1/programmes/" + category.Programmes[0].ID.String(), "/api/v1/categories/" + category.ID.String()}
	changes := func(path string) api.ChangesSince {
		return decoded[api.ChangesSince](s, request{path: path + "/results/changes"})
	}
	for _, path := range paths {
		if got := changes(path); got.Since != nil || len(got.Changes) != 0 {
			t.Errorf("before anything is published: %+v", got)
		}
	}
	protests := make([]uuid.UUID, len(category.Programmes))
	for i, programme := range category.Programmes {
		_, protests[i] = s.publishes(programme.ID, part.Pilots[part.Bundle.Pilots[0].ID])
	}
	for _, path := range paths {
		if got := changes(path); got.Since == nil || len(got.Changes) != 0 {
			t.Errorf("just published: %+v", got)
		}
	}
	if _, err := s.db.Decide(t.Context(), protests[0], db.NewDecision{Upheld: true, Text: "Too low.", Reopen: &category.Programmes[0].Flights[0].ID}); err != nil {
		t.Fatal(err)
	}
	s.storesAPenalty(contest)
	for i, what := range []string{"score", "total"} {
		said := []string{}
		for _, c := range changes(paths[i]).Changes {
			said = append(said, c.What)
		}
		if !strings.Contains(strings.Join(said, " "), what) {
			t.Errorf("%s: %v", paths[i], said)
		}
	}
}
