package api_test

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring"
)

// TestResultsAreThoseOfTheBundle imports the invented contests of
// testdata/cases and reads their results back: the scores, ranks and totals
// are those that stand beside each bundle.
func TestResultsAreThoseOfTheBundle(t *testing.T) {
	t.Parallel()
	s := start(t)
	for _, name := range []string{"101", "105", "108"} {
		contest := get[api.Contest](s, "/api/v1/contests/"+s.imports(bundleOf(t, name), db.Closed).String())
		want := wantedOf(t, name)
		for i, category := range contest.Categories {
			s.compareCategory(category, &want.Categories[i])
			for j, programme := range category.Programmes {
				s.compareProgramme(programme.ID, &want.Categories[i].Programmes[j])
			}
		}
	}
}

func wantedOf(t *testing.T, name string) (results scoring.Results) {
	t.Helper()
	text, err := os.ReadFile("../testdata/cases/" + name + ".results.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &results); err != nil {
		t.Fatal(err)
	}
	return results
}

func (s *service) compareCategory(category api.Category, want *scoring.CategoryResult) {
	s.t.Helper()
	got := get[api.CategoryResults](s, "/api/v1/categories/"+category.ID.String()+"/results")
	if len(got.Overall) != len(want.Overall) {
		s.t.Fatalf("%d pilots in the standing, want %d", len(got.Overall), len(want.Overall))
	}
	for i, one := range got.Overall {
		if w := &want.Overall[i]; one.Total != w.Total || !sameRank(one.Rank, w.Rank) || len(one.ByProgramme) != len(w.ByProgramme) {
			s.t.Errorf("%s: total %v, rank %v, %d programmes; want %+v", one.Pilot.Name, one.Total, show(one.Rank), len(one.ByProgramme), w)
		}
		for _, of := range one.ByProgramme {
			if percent := percentIn(category, want, want.Overall[i].Pilot, of); of.Percent != percent {
				s.t.Errorf("%s: %v %% in a programme, want %v", one.Pilot.Name, of.Percent, percent)
			}
		}
	}
}

// percentIn is a pilot's percentage of a programme in the results that are
// wanted, whose programmes run in the order of the contest.
func percentIn(category api.Category, want *scoring.CategoryResult, pilot string, of api.ProgrammeScore) float64 {
	i := slices.IndexFunc(category.Programmes, func(p api.Programme) bool { return p.ID == of.Programme })
	for _, f := range want.Programmes[i].Flights {
		if f.Pilot == pilot && f.Placing != nil {
			return f.Percent
		}
	}
	return -1
}

func (s *service) compareProgramme(id uuid.UUID, want *scoring.ProgrammeResult) {
	s.t.Helper()
	got := get[api.ProgrammeResults](s, "/api/v1/programmes/"+id.String()+"/results")
	if string(got.State) != want.State || got.Method.Name != want.Method || got.Method.Fallback != want.Fallback {
		s.t.Errorf("programme %s: %s by %v, want %s by %s", got.Programme.Name, got.State, got.Method, want.State, want.Method)
	}
	for i, f := range got.Flights { // an imported contest runs in the bundle's order
		w := &want.Flights[i]
		if w.Placing != nil && (f.Score == nil || *f.Score != w.Score || *f.Percent != w.Percent || !sameRank(f.Rank, w.Rank)) {
			s.t.Errorf("flight %d of %s: score %v, rank %v; want %+v", f.Number, got.Programme.Name, f.Score, show(f.Rank), w.Placing)
		}
		if w.Judged != nil {
			s.compareSheet(f.ID, want.Method, w)
		}
	}
}

// compareSheet holds that the items' points add up to the panel's score. The
// normalised method moves whole totals, so that they do not there.
func (s *service) compareSheet(flight uuid.UUID, method string, want *scoring.FlightResult) {
	s.t.Helper()
	sheet := get[api.FlightSheet](s, "/api/v1/flights/"+flight.String()+"/result")
	sum, against := 0.0, 0
	for _, item := range sheet.Items {
		sum += *item.Points
		if item.Against != nil {
			against++
			if moved := *item.Points - *item.Against - item.Item.K*item.Field.Middle; math.Abs(moved) > 1e-9 {
				s.t.Errorf("item %d: %v points are %v against a field at %v", item.Item.Number, *item.Points, *item.Against, item.Field.Middle)
			}
		}
		if len(item.Cells) != sheet.Method.Seats {
			s.t.Errorf("item %d has %d cells of %d seats", item.Item.Number, len(item.Cells), sheet.Method.Seats)
		}
	}
	if *sheet.PanelScore != want.PanelScore && math.Abs(*sheet.PanelScore-want.PanelScore) > 1e-6 {
		s.t.Errorf("flight %d: a panel score of %v, want %v", sheet.Flight.Number, *sheet.PanelScore, want.PanelScore)
	}
	if method != scoring.Normalised && math.Abs(sum-*sheet.PanelScore) > 1e-6 {
		s.t.Errorf("flight %d: the items add up to %v, the panel score is %v", sheet.Flight.Number, sum, *sheet.PanelScore)
	}
}

func sameRank(a, b *int) bool { return a == b || a != nil && b != nil && *a == *b }

func show(rank *int) int {
	if rank == nil {
		return 0
	}
	return *rank
}

// TestImportAndExportOverHTTP sends a bundle and gets the same one back.
func TestImportAndExportOverHTTP(t *testing.T) {
	t.Parallel()
	s := start(t)
	want, err := bundleOf(t, "101").Encode()
	if err != nil {
		t.Fatal(err)
	}
	a := s.send(request{method: "POST", path: "/api/v1/bundles?opened=published", token: token, contentType: json1, body: string(want)})
	var made api.Contest
	if err := json.Unmarshal([]byte(a.body), &made); err != nil || a.status != 201 {
		t.Fatalf("%d %s", a.status, a.body)
	}
	at := a.header.Get("Location")
	if at != "/api/v1/contests/"+made.ID.String() || made.Opened != api.Published {
		t.Errorf("made at %q, opened %s", at, made.Opened)
	}
	if back := s.send(request{path: at + "/bundle", token: token}); back.body != string(want) {
		t.Errorf("%d bytes came back of %d sent", len(back.body), len(want))
	}
}

// TestMissingGradesAreCounted takes two grades of the second seat away.
func TestMissingGradesAreCounted(t *testing.T) {
	t.Parallel()
	s := start(t)
	b := bundleOf(t, "104")
	flights := b.Categories[0].Programmes[0].Flights
	at := slices.IndexFunc(flights, func(f scoring.Flight) bool { return f.Status == scoring.Flown && len(f.Sheets[1].Grades) > 3 })
	grades := flights[at].Sheets[1].Grades
	grades[1], grades[2] = scoring.NotEntered, scoring.NotEntered

	contest := get[api.Contest](s, "/api/v1/contests/"+s.imports(b, db.Live).String())
	id := contest.Categories[0].Programmes[0].ID
	got := get[api.ProgrammeResults](s, "/api/v1/programmes/"+id.String()+"/results")
	f := got.Flights[at]
	if f.State != api.FlightStateIncomplete || f.Missing.Grades != 2 || !slices.Equal(f.Missing.Seats, []int{2}) {
		t.Errorf("the flight is %s, missing %+v; want two grades of seat 2", f.State, f.Missing)
	}
	if f.Score != nil || got.State != api.ProgrammeResultsStateIncomplete {
		t.Errorf("score %v, programme %s", f.Score, got.State)
	}
}
