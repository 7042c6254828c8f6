package db_test

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
	"halfpoint/scoring/document"
)

// emptyContest makes a contest of which nothing is set up.
func emptyContest(t *testing.T, d *db.DB) uuid.UUID {
	t.Helper()
	bundle, err := scoring.DecodeBundle([]byte(`{"format":"halfpoint-bundle/1","contest":{},"judges":[],"pilots":[],"categories":[]}`))
	if err != nil {
		t.Fatal(err)
	}
	id, err := d.Import(t.Context(), bundle, db.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func row(position int) db.RowHead { return db.RowHead{ID: uuid.New(), Position: position} }

func put[R any](rows ...R) []db.Edit[R] {
	edits := make([]db.Edit[R], len(rows))
	for i, r := range rows {
		edits[i].Row = r
	}
	return edits
}

// smallContest is a change that sets up two pilots, two judges and a programme.
func smallContest() *db.SetupChange {
	ann, bea := db.PilotRow{RowHead: row(1), Code: "ann", Name: "Ann Ash"}, db.PilotRow{RowHead: row(2), Code: "bea", Name: "Bea Birch"}
	jo, kim := db.OfficialRow{RowHead: row(1), Code: "jo", Duty: "judge"}, db.OfficialRow{RowHead: row(2), Code: "kim", Duty: "judge"}
	meadow := db.CategoryRow{RowHead: row(1), Code: "meadow", Combine: scoring.Combine{By: scoring.BySum}}
	known := db.ProgrammeRow{
		RowHead: row(1), Category: meadow.ID, Code: "known", Kind: scoring.Known,
		Method: scoring.DefaultMethod(""), Panel: []uuid.UUID{kim.ID, jo.ID},
	}
	return &db.SetupChange{
		Contest:    &db.ContestRow{RowHead: db.RowHead{Revision: 1}, Name: "Tarn Cup", Opened: db.Closed, Starts: "2026-06-12", Ends: "2026-06-14"},
		Penalties:  put(db.PenaltyRow{RowHead: row(1), Kind: "low", Points: 50, Repeats: true}),
		Officials:  put(jo, kim),
		Pilots:     put(ann, bea),
		Categories: put(meadow),
		Entries: put(db.EntryRow{RowHead: row(1), Category: meadow.ID, Pilot: ann.ID, Ranked: true},
			db.EntryRow{RowHead: row(2), Category: meadow.ID, Pilot: bea.ID}),
		Programmes: put(known),
	}
}

// change makes a change and expects it to be made.
func change(t *testing.T, d *db.DB, contest uuid.UUID, c *db.SetupChange) *db.Setup {
	t.Helper()
	after, err := d.ChangeSetup(t.Context(), contest, c, "office")
	if err != nil {
		t.Fatal(err)
	}
	return after
}

// complaints makes a change and expects it to be refused, with complaints.
func complaints(t *testing.T, d *db.DB, contest uuid.UUID, c *db.SetupChange) (places []string, text string) {
	t.Helper()
	_, err := d.ChangeSetup(t.Context(), contest, c, "office")
	list, ok := errors.AsType[document.Complaints](err)
	if changed, is := errors.AsType[*db.SetupChangedError](err); is {
		list, ok = changed.Complaints, true
	}
	if !ok {
		t.Fatalf("%v, want complaints", err)
	}
	for _, one := range list {
		places = append(places, one.Place)
	}
	return places, list.Error()
}

func TestSetupIsMadeFromNothing(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest, c := emptyContest(t, d), smallContest()
	after := change(t, d, contest, c)

	for _, same := range []struct{ got, want any }{
		{after.Contest.Name, "Tarn Cup"},
		{after.Contest.Revision, int64(2)},
		{after.Pilots[1].Name, "Bea Birch"},
		{after.Entries[1].Ranked, false},
		{after.Programmes[0].Panel, c.Programmes[0].Row.Panel},
		{after.Programmes[0].Method, scoring.DefaultMethod("")},
		{after.Penalties[0].Points, 50.0},
	} {
		if !reflect.DeepEqual(same.got, same.want) {
			t.Errorf("%v, want %v", same.got, same.want)
		}
	}
	exported, err := d.Export(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := scoring.DecodeBundle(encoded(t, exported)); err != nil {
		t.Errorf("the contest makes no bundle: %v", err)
	}
	if panel := exported.Categories[0].Programmes[0].Panel; !slices.Equal(panel, []string{"kim", "jo"}) {
		t.Errorf("the panel is %v", panel)
	}
}

// TestSetupSentAgainChangesNothing is a double click, or an answer that was lost.
func TestSetupSentAgainChangesNothing(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest, c := emptyContest(t, d), smallContest()
	first := change(t, d, contest, c)
	again := change(t, d, contest, c)
	if !reflect.DeepEqual(first, again) {
		t.Errorf("%+v, then %+v", first, again)
	}
}

func TestNobodyOverwritesWhatTheyHaveNotSeen(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := emptyContest(t, d)
	seen := change(t, d, contest, smallContest())

	mine, theirs := seen.Pilots[0], seen.Pilots[0]
	mine.Aircraft, theirs.Name = "Swift", "Ann Alder"
	change(t, d, contest, &db.SetupChange{Pilots: put(theirs)})

	places, text := complaints(t, d, contest, &db.SetupChange{Pilots: put(seen.Pilots[1], mine)})
	if want := []string{"pilots[1].name", "pilots[1].aircraft"}; !slices.Equal(places, want) {
		t.Errorf("complaints at %v, want %v", places, want)
	}
	if !strings.Contains(text, `it is now "Ann Alder"`) {
		t.Errorf("what it is now is not said: %s", text)
	}
	if _, err := d.ChangeSetup(t.Context(), contest, &db.SetupChange{Pilots: put(mine)}, ""); !errors.Is(err, db.ErrConflict) {
		t.Errorf("%v is no conflict", err)
	}
}

func TestEveryWrongRowIsComplainedOf(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := emptyContest(t, d)
	seen := change(t, d, contest, smallContest())
	meadow, kim := seen.Categories[0], seen.Officials[1]

	weights := meadow
	weights.Combine = scoring.Combine{By: scoring.ByWeightedPercent, Weights: map[string]float64{"known": 0.5}}
	method := seen.Programmes[0]
	method.Method.Trim, method.Kind = -1, "solo"
	for name, c := range map[string]struct {
		change db.SetupChange
		want   []string
	}{
		"codes twice": {db.SetupChange{Pilots: put(
			db.PilotRow{RowHead: row(3), Code: "ann"}, db.PilotRow{RowHead: row(4)}, db.PilotRow{RowHead: row(5), Code: "dee", Name: "D\x07e"},
		)}, []string{"pilots[1].code", "pilots[2].name"}},
		"a code that is there":    {db.SetupChange{Pilots: put(db.PilotRow{RowHead: row(3), Code: "ann"})}, []string{"pilots[0].code"}},
		"weights":                 {db.SetupChange{Categories: put(weights)}, []string{"categories[0].combine.weights"}},
		"a method":                {db.SetupChange{Programmes: put(method)}, []string{"programmes[0].kind", "programmes[0].method.trim"}},
		"dates":                   {db.SetupChange{Contest: &db.ContestRow{RowHead: db.RowHead{Revision: 2}, Name: "T", Starts: "2026-02-30", Opened: db.Live}}, []string{"contest.starts"}},
		"a pilot entered":         {db.SetupChange{Pilots: []db.Edit[db.PilotRow]{{Row: seen.Pilots[0], Remove: true}}}, []string{"pilots[0]"}},
		"a judge on a panel":      {db.SetupChange{Officials: []db.Edit[db.OfficialRow]{{Row: kim, Remove: true}}}, []string{"officials[0]"}},
		"a category with more":    {db.SetupChange{Categories: []db.Edit[db.CategoryRow]{{Row: meadow, Remove: true}}}, []string{"categories[0]", "categories[0]", "categories[0]"}},
		"an entry of nobody":      {db.SetupChange{Entries: put(db.EntryRow{RowHead: row(3), Category: meadow.ID, Pilot: uuid.New()})}, []string{"entries[0].pilot"}},
		"a pilot entered twice":   {db.SetupChange{Entries: put(db.EntryRow{RowHead: row(3), Category: meadow.ID, Pilot: seen.Pilots[0].ID})}, []string{"entries[0].pilot"}},
		"a penalty that is there": {db.SetupChange{Penalties: put(db.PenaltyRow{RowHead: row(2), Kind: "low"})}, []string{"penalties[0].kind"}},
	} {
		if places, text := complaints(t, d, contest, &c.change); !slices.Equal(places, c.want) {
			t.Errorf("%s: complaints at %v, want %v\n%s", name, places, c.want, text)
		}
	}
	if now, err := d.Setup(t.Context(), contest); err != nil || !reflect.DeepEqual(now, seen) {
		t.Errorf("something was changed: %v", err)
	}
}

func TestRowsTakenOutAndNamesPassedOn(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := emptyContest(t, d)
	seen := change(t, d, contest, smallContest())

	ann, bea := seen.Pilots[0], seen.Pilots[1]
	ann.Code, bea.Code = bea.Code, ann.Code
	after := change(t, d, contest, &db.SetupChange{
		Pilots:    put(ann, bea),
		Penalties: append(put(db.PenaltyRow{RowHead: row(1), Kind: "low", Points: 20}), db.Edit[db.PenaltyRow]{Row: seen.Penalties[0], Remove: true}),
		Entries:   []db.Edit[db.EntryRow]{{Row: seen.Entries[0], Remove: true}},
	})
	if after.Pilots[0].Code != "bea" || after.Pilots[1].Code != "ann" || len(after.Entries) != 1 || after.Penalties[0].Points != 20 {
		t.Errorf("%+v", after)
	}
}

// TestWhatIsFlownStaysSetUp changes a contest that was flown.
func TestWhatIsFlownStaysSetUp(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := imported(t, d, everything)
	seen, err := d.Setup(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	programme := seen.Programmes[slices.IndexFunc(seen.Programmes, func(p db.ProgrammeRow) bool { return len(p.Panel) > 1 })]
	method := programme
	method.Method.Name, method.Panel = scoring.Mean, programme.Panel[1:]
	places, text := complaints(t, d, contest, &db.SetupChange{Programmes: put(method)})
	if want := []string{"programmes[0].method", "programmes[0].panel"}; !slices.Equal(places, want) {
		t.Errorf("complaints at %v, want %v\n%s", places, want, text)
	}
	method.Panel = programme.Panel
	after := change(t, d, contest, &db.SetupChange{Programmes: put(method), Reason: "agreed with all pilots"})
	if got := after.Programmes[slices.IndexFunc(after.Programmes, func(p db.ProgrammeRow) bool { return p.ID == method.ID })]; got.Method.Name != scoring.Mean {
		t.Errorf("the method is %s", got.Method.Name)
	}
	head, journal, err := d.Journal(t.Context(), contest)
	if err != nil || db.CheckJournal(head, journal) != nil || !strings.Contains(string(journal[len(journal)-1].Body), "agreed with all pilots") {
		t.Errorf("the reason is not in the journal: %v %s", err, journal[len(journal)-1].Body)
	}
	if places, _ := complaints(t, d, contest, &db.SetupChange{Programmes: []db.Edit[db.ProgrammeRow]{{Row: after.Programmes[0], Remove: true}}}); !slices.Equal(places, []string{"programmes[0]"}) {
		t.Errorf("complaints at %v", places)
	}
}

// TestOnlyADecisionSaysThatAProgrammeCounts sets an abandoned programme up anew.
func TestOnlyADecisionSaysThatAProgrammeCounts(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := emptyContest(t, d)
	known := change(t, d, contest, smallContest()).Programmes[0]
	if err := d.SetCounting(t.Context(), known.ID, db.Counting{Abandoned: true, Reason: "fog", By: "director"}); err != nil {
		t.Fatal(err)
	}
	known.Name = "First known"
	change(t, d, contest, &db.SetupChange{Programmes: put(known)})
	now, err := d.Programme(t.Context(), known.ID)
	if err != nil || now.Counts || now.Name != "First known" {
		t.Errorf("%+v %v", now, err)
	}
}

func TestProgrammesAreFlownOneAfterTheOther(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := emptyContest(t, d)
	known := change(t, d, contest, smallContest()).Programmes[0]
	free := known
	free.ID, free.Revision, free.Code = uuid.New(), 0, "free"
	if places, _ := complaints(t, d, contest, &db.SetupChange{Programmes: put(free)}); !slices.Equal(places, []string{"programmes[0].position"}) {
		t.Errorf("complaints at %v", places)
	}
	free.Position = 1
	known.Position = 2
	after := change(t, d, contest, &db.SetupChange{Programmes: put(known, free)})
	if after.Programmes[0].Code != "free" {
		t.Errorf("%+v", after.Programmes)
	}
}
