package db_test

import (
	"reflect"
	"slices"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

func TestContestsComeInPages(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	bundle := readBundle(t, everything)
	var made []uuid.UUID // the last one first
	for _, opened := range []string{db.Closed, db.Live, db.Published, db.Live} {
		contest, err := d.Import(t.Context(), bundle, db.ImportOptions{Opened: opened})
		if err != nil {
			t.Fatal(err)
		}
		made = append([]uuid.UUID{contest}, made...)
	}
	for _, c := range []struct {
		query db.ContestQuery
		want  []uuid.UUID
	}{
		{db.ContestQuery{Limit: 3}, made[:3]},
		{db.ContestQuery{Limit: 3, After: made[2]}, made[3:]},
		{db.ContestQuery{Limit: 3, After: made[3]}, nil},
		{db.ContestQuery{Limit: 9, Opened: []string{db.Live, db.Published}}, made[:3]},
		{db.ContestQuery{Limit: 9, Opened: []string{db.Live}, After: made[0]}, made[2:3]},
	} {
		page, err := d.Contests(t.Context(), c.query)
		if err != nil {
			t.Fatal(err)
		}
		var got []uuid.UUID
		for _, info := range page {
			got = append(got, info.ID)
			if info.Name != bundle.Contest.Name || info.Place != "Hollowfield" || info.Starts != "2026-06-12" || info.Ends != "2026-06-14" {
				t.Errorf("%+v", info)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%+v: %v, want %v", c.query, got, c.want)
		}
	}
}

func TestContestAndProgramme(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	bundle := readBundle(t, everything)
	id, err := d.Import(t.Context(), bundle, db.ImportOptions{Opened: db.Live})
	if err != nil {
		t.Fatal(err)
	}
	c, err := d.Contest(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	if c.Head.Contest != id || c.Head.Version != 1 || c.Opened != db.Live || len(c.Categories) != 3 || c.Categories[0].Pilots != 5 {
		t.Errorf("%+v", c)
	}
	known := c.Categories[0].Programmes[0]
	// Of five flights one is signed all over and closed, one lacks grades, and
	// three did not come to a score.
	if known.Code != "known" || known.Seats != 5 || known.Flights != 5 || known.Flown != 2 || known.Closed != 1 || known.Cut != 3 {
		t.Errorf("%+v", known)
	}
	p, err := d.Programme(t.Context(), known.ID)
	if err != nil {
		t.Fatal(err)
	}
	want := bundle.Categories[0].Programmes[0]
	if p.Category.Name != "Club" || p.Contest.ID != id || p.Method != want.Method || p.Sequence.Released == nil {
		t.Errorf("%+v", p)
	}
	for i, seat := range p.Panel {
		if seat.Number != i+1 || seat.Code != want.Panel[i] {
			t.Errorf("seat %+v, want %s", seat, want.Panel[i])
		}
	}
	if len(p.Sequence.Items) != 3 || p.Sequence.Items[1].Name != want.Sequence.Items[1].Name || p.Sequence.Items[1].K != 125 {
		t.Errorf("%+v", p.Sequence)
	}
	for n, released := range map[int]bool{1: true, 2: false} { // an unknown that nobody has flown stays unseen
		p, err := d.Programme(t.Context(), c.Categories[0].Programmes[n].ID)
		if err != nil {
			t.Fatal(err)
		}
		if own := p.Kind == scoring.Free; (p.Sequence == nil) != own || !own && (p.Sequence.Released != nil) != released {
			t.Errorf("%s has %+v", p.Code, p.Sequence)
		}
	}
}

func TestFlights(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 0)
	list, err := b.d.Flights(t.Context(), b.sheets.Programme.ID)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{line.StatusClosed, line.StatusLanded, line.StatusWithdrawn, line.StatusNotFlown, line.StatusDisqualified}
	if !slices.Equal(list.Statuses, want) || list.Head.Version != 1 {
		t.Errorf("%v, want %v", list.Statuses, want)
	}
	for i, code := range []string{"p1", "p3", "p2", "p5", "p4"} {
		if f := list.Flights[i]; f.Number != i+1 || f.Position != i+1 || f.Pilot.Code != code {
			t.Errorf("flight %d is %+v", i, f)
		}
	}
}

func TestSheets(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 0)
	s := b.sheets
	if s.Flight.Pilot.Code != "p1" || len(s.Panel) != 5 || len(s.Sequence.Items) != 3 || s.State.Status != line.StatusClosed || len(s.State.Blocks) > 0 {
		t.Errorf("%+v", s)
	}
	first := s.State.Attempts[0].Sheets[0]
	if first.Judge != s.Panel[0].Judge.String() || first.Signature.State != line.Signed || first.By == "" {
		t.Errorf("%+v", first)
	}
	cell := first.Cells[1]
	if cell.Grade != "HZ" || cell.Remark != "flat on top" || len(cell.Heads) != 1 {
		t.Errorf("%+v", cell)
	}
	if r := s.Records[cell.Heads[0]]; r.Standing.Standing != line.Head || r.Grade != "HZ" || r.EnteredAt == "" {
		t.Errorf("%+v", r)
	}
}

// A programme is read alone unless a cut before it decides who is ranked.
func TestPartsOfABundle(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	id := imported(t, d, everything)
	whole := partOf(t, d, id)
	club := whole.Categories[0]
	part, err := d.CategoryBundle(t.Context(), club.ID)
	if err != nil {
		t.Fatal(err)
	}
	if len(part.Bundle.Categories) != 1 || len(part.Bundle.Pilots) != 5 || len(part.Bundle.Judges) != 6 || part.Categories[0].ID != club.ID {
		t.Errorf("%+v", part)
	}
	checkPart(t, part)
	for n, codes := range [][]string{{"known"}, {"known", "free"}, {"known", "free", "unknown"}} {
		part, err := d.ProgrammeBundle(t.Context(), club.Programmes[n].ID)
		if err != nil {
			t.Fatal(err)
		}
		checkPart(t, part)
		var got []string
		for _, p := range part.Bundle.Categories[0].Programmes {
			got = append(got, p.ID)
		}
		if !slices.Equal(got, codes) || part.Index != n || part.Categories[0].Programmes[part.Index].ID != club.Programmes[n].ID {
			t.Errorf("programme %d comes with %v at %d", n, got, part.Index)
		}
	}
	other := whole.Categories[1].Programmes[1].ID
	if part, err := d.ProgrammeBundle(t.Context(), other); err != nil || part.Index != 0 || len(part.Bundle.Categories[0].Programmes) != 1 {
		t.Errorf("without a cut: %+v, %v", part, err)
	}
}

// checkPart holds the ids of a part against its bundle.
func checkPart(t *testing.T, part *db.Part) {
	t.Helper()
	if len(part.Pilots) != len(part.Bundle.Pilots) || len(part.Judges) != len(part.Bundle.Judges) {
		t.Errorf("ids of %v and %v", part.Pilots, part.Judges)
	}
	for c, category := range part.Bundle.Categories {
		for p, programme := range category.Programmes {
			behind := part.Categories[c].Programmes[p]
			if len(behind.Flights) != len(programme.Flights) {
				t.Fatalf("%d ids of %d flights", len(behind.Flights), len(programme.Flights))
			}
			for f, flight := range behind.Flights {
				if flight.Number != f+1 || flight.State.Flight != flight.ID.String() {
					t.Errorf("%+v is behind flight %d", flight, f)
				}
			}
		}
	}
}

// What comes from the database is scored as what came from the bundle.
func TestScoredFromTheDatabase(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	bundle := readBundle(t, "../testdata/cases/105.bundle.json")
	id, err := d.Import(t.Context(), bundle, db.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	c, err := d.Contest(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	want := scoring.ScoreCategory(&bundle.Categories[0])
	for n, p := range c.Categories[0].Programmes {
		part, err := d.ProgrammeBundle(t.Context(), p.ID)
		if err != nil {
			t.Fatal(err)
		}
		got := scoring.ScoreProgramme(&part.Bundle.Categories[0], part.Index)
		if !reflect.DeepEqual(got, want.Programmes[n]) {
			t.Errorf("%s has other results from the database", p.Code)
		}
	}
}
