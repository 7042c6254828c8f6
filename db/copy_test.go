package db_test

import (
	"errors"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring/document"
)

// TestACopyIsSetUpAlike copies a contest that was flown.
func TestACopyIsSetUpAlike(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	from, err := d.Import(t.Context(), readBundle(t, everything), db.ImportOptions{Opened: db.Live})
	if err != nil {
		t.Fatal(err)
	}
	was, err := d.Setup(t.Context(), from)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.SetLimits(t.Context(), from, was.Categories[0].ID, []byte(`{"max_figures": 9}`), "Rule 4", "office"); err != nil {
		t.Fatal(err)
	}
	if err := d.SetNumbers(t.Context(), from, []byte("5.2.1.1,17\n"), 1, "office"); err != nil {
		t.Fatal(err)
	}
	next := db.NewContest{Name: "Next Year", Starts: "2027-06-12"}
	whole, err := d.CopyContest(t.Context(), from, db.ContestCopy{NewContest: next, Pilots: true, Officials: true}, "owner")
	if err != nil {
		t.Fatal(err)
	}
	is, err := d.Setup(t.Context(), whole)
	if err != nil {
		t.Fatal(err)
	}
	if is.Contest.Name != "Next Year" || is.Contest.Opened != db.Closed || is.Contest.Starts != "2027-06-12" {
		t.Errorf("%+v", is.Contest)
	}
	if len(is.Pilots) != len(was.Pilots) || len(is.Entries) != len(was.Entries) || len(is.Programmes) != len(was.Programmes) || len(is.Penalties) != len(was.Penalties) {
		t.Errorf("%d pilots, %d entries, %d programmes, %d penalties", len(is.Pilots), len(is.Entries), len(is.Programmes), len(is.Penalties))
	}
	if is.Pilots[1].Note == "" || is.Pilots[1].Note != was.Pilots[1].Note {
		t.Errorf("a line about the second pilot: %q, was %q", is.Pilots[1].Note, was.Pilots[1].Note)
	}
	if p, q := is.Programmes[0], was.Programmes[0]; p.ID == q.ID || len(p.Panel) != len(q.Panel) || p.Method != q.Method {
		t.Errorf("%+v, was %+v", p, q)
	}
	rules, err := d.CategoryRules(t.Context(), is.Categories[0].ID)
	if err != nil || rules.Note != "Rule 4" || rules.Numbers != 1 {
		t.Errorf("%+v %v", rules, err)
	}
	exported, err := d.Export(t.Context(), whole)
	if err != nil || len(exported.Categories[0].Programmes[0].Flights) > 0 {
		t.Errorf("flights were copied: %v", err)
	}
}

func TestACopyLeavesPeopleBehind(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	from := emptyContest(t, d)
	change(t, d, from, smallContest())
	bare, err := d.CopyContest(t.Context(), from, db.ContestCopy{NewContest: db.NewContest{Name: "Bare"}}, "owner")
	if err != nil {
		t.Fatal(err)
	}
	is, err := d.Setup(t.Context(), bare)
	if err != nil || len(is.Pilots)+len(is.Entries)+len(is.Officials)+len(is.Programmes[0].Panel) > 0 || len(is.Categories) != 1 {
		t.Errorf("%+v %v", is, err)
	}
	if _, err := d.CopyContest(t.Context(), uuid.New(), db.ContestCopy{NewContest: db.NewContest{Name: "None"}}, ""); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("%v", err)
	}
	_, err = d.CopyContest(t.Context(), from, db.ContestCopy{NewContest: db.NewContest{Name: " ", Starts: "2027-06-12", Ends: "2027-06-11"}}, "")
	if list, ok := errors.AsType[document.Complaints](err); !ok || len(list) != 2 || list[0].Place != "name" || list[1].Place != "ends" {
		t.Errorf("%v", err)
	}
}
