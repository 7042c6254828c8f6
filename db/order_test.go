package db_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
	"halfpoint/scoring/order"
)

// field is a programme with four pilots of whom none has a flight.
type field struct {
	t         *testing.T
	d         *db.DB
	contest   uuid.UUID
	programme uuid.UUID
}

func newField(t *testing.T) *field {
	t.Helper()
	d, c := dbtest.New(t), smallContest()
	f := &field{t: t, d: d, contest: emptyContest(t, d), programme: c.Programmes[0].Row.ID}
	for i, code := range []string{"cal", "dot"} {
		pilot := db.PilotRow{RowHead: row(3 + i), Code: code, Name: code}
		c.Pilots = append(c.Pilots, put(pilot)...)
		c.Entries = append(c.Entries, put(db.EntryRow{RowHead: row(3 + i), Category: c.Categories[0].Row.ID, Pilot: pilot.ID})...)
	}
	change(t, d, f.contest, c)
	return f
}

func (f *field) order() *db.Order {
	f.t.Helper()
	o, err := f.d.Order(f.t.Context(), f.programme)
	if err != nil {
		f.t.Fatal(err)
	}
	return o
}

// ids are the pilots of some codes.
func (f *field) ids(codes string) (list []uuid.UUID) {
	f.t.Helper()
	s, err := f.d.Setup(f.t.Context(), f.contest)
	if err != nil {
		f.t.Fatal(err)
	}
	for code := range strings.FieldsSeq(codes) {
		at := slices.IndexFunc(s.Pilots, func(p db.PilotRow) bool { return p.Code == code })
		list = append(list, s.Pilots[at].ID)
	}
	return list
}

// try sets an order of what is there now.
func (f *field) try(codes string, plan *order.Plan) error {
	f.t.Helper()
	return f.d.SetOrder(f.t.Context(), f.programme, db.OrderChange{Revision: f.order().Revision, Pilots: f.ids(codes), Plan: plan, By: "office"})
}

func (f *field) set(codes string, plan *order.Plan) *db.Order {
	f.t.Helper()
	if err := f.try(codes, plan); err != nil {
		f.t.Fatal(err)
	}
	return f.order()
}

// says writes an order: 3cal is flight 3, of cal.
func says(o *db.Order) string {
	var list []string
	for _, turn := range o.Turns {
		list = append(list, string(rune('0'+turn.Number))+turn.Pilot.Code)
	}
	return strings.Join(list, " ")
}

// status has the chief judge say what a flight does, and when.
func (f *field) status(code, status, at string) {
	f.t.Helper()
	o := f.order()
	turn := slices.IndexFunc(o.Turns, func(t db.Turn) bool { return t.Pilot.Code == code })
	receipt, err := f.d.StoreRecords(f.t.Context(), f.contest, db.Delivery{
		Store: uuid.New(), Author: line.Author{Role: line.RoleChief, Device: newUUID()},
		Records: []db.Received{{Record: line.Record{
			Seq: 1, ID: newUUID(), Kind: line.KindStatus, Flight: o.Turns[turn].ID.String(), Status: status, EnteredAt: at,
		}}},
	})
	if err != nil || receipt.Answers[0].Result != db.ResultStored {
		f.t.Fatalf("%+v, %v", receipt, err)
	}
}

func TestOrderMakesFlights(t *testing.T) {
	t.Parallel()
	f := newField(t)
	before := f.order()
	if before.Revision != 0 || len(before.Turns) != 0 || len(before.Entered) != 4 || before.Plan != nil {
		t.Errorf("before: %+v", before)
	}
	plan := &order.Plan{By: order.ByLot, Seed: "wind 24 kt"}
	drawn := f.set("cal ann dot", plan)
	if says(drawn) != "1cal 2ann 3dot" || len(drawn.Entered) != 1 || drawn.Revision != 1 || drawn.Draws != 1 || *drawn.Plan != *plan || drawn.ChangedBy != "office" {
		t.Errorf("drawn: %s, %+v", says(drawn), drawn)
	}
	late := f.set("bea dot cal ann", nil)
	if says(late) != "4bea 3dot 1cal 2ann" || len(late.Entered) != 0 || late.Draws != 1 || late.Moves != 1 || *late.Plan != *plan {
		t.Errorf("with one who came late: %s, %+v", says(late), late)
	}
	again := f.set("bea dot cal ann", nil)
	if again.Revision != late.Revision || again.Head.Version != late.Head.Version {
		t.Errorf("the same again: revision %d, version %d", again.Revision, again.Head.Version)
	}
	if left := f.set("dot ann bea", nil); says(left) != "3dot 2ann 4bea" || len(left.Entered) != 1 || left.Moves != 2 {
		t.Errorf("with one left out: %s, %+v", says(left), left)
	}
	if redrawn := f.set("dot ann bea", plan); redrawn.Draws != 2 || redrawn.Moves != 0 || redrawn.Revision != 4 {
		t.Errorf("drawn again: %+v", redrawn)
	}
	journalSays(t, f.d, f.contest, "order", "order", "order", "order")
}

func TestOrderKeepsWhatWasCalled(t *testing.T) {
	t.Parallel()
	f := newField(t)
	f.set("ann bea cal", nil)
	f.status("ann", line.StatusCalled, "2026-06-12T10:00:00Z")
	f.status("cal", line.StatusWithdrawn, "2026-06-12T10:01:00Z")
	for _, c := range []struct{ codes, want string }{
		{"bea ann cal", "pilots[0]"},
		{"bea cal", "pilots pilots[0]"},
		{"ann bea", "pilots"},            // cal has a record
		{"dot ann bea cal", "pilots[0]"}, // too late for that
		{"ann bea bea cal", "pilots[2]"},
	} {
		complaints, _ := errors.AsType[document.Complaints](f.try(c.codes, nil))
		var places []string
		for _, one := range complaints {
			if !slices.Contains(places, one.Place) {
				places = append(places, one.Place)
			}
		}
		if got := strings.Join(places, " "); !strings.HasPrefix(got, c.want) || got == "" {
			t.Errorf("%s: complaints at %q, want %q (%v)", c.codes, got, c.want, complaints)
		}
	}
	o := f.set("ann cal dot bea", nil)
	if says(o) != "1ann 3cal 4dot 2bea" {
		t.Errorf("%s", says(o))
	}
	if want := time.Date(2026, 6, 12, 10, 0, 0, 0, time.UTC); o.Turns[0].Begun == nil || !o.Turns[0].Begun.Equal(want) || o.Turns[1].Begun != nil {
		t.Errorf("begun %v and %v", o.Turns[0].Begun, o.Turns[1].Begun)
	}
	fly, out := o.Movable()
	if len(fly) != 2 || len(out) != 1 || out[0].Code != "cal" {
		t.Errorf("%v can be moved, %v are out", fly, out)
	}
	if all := o.With([]uuid.UUID{fly[1].ID}); !slices.Equal(all, []uuid.UUID{o.Turns[0].Pilot.ID, fly[1].ID}) {
		t.Errorf("%v", all)
	}
}

func TestOrderThatWasNotSeenIsKept(t *testing.T) {
	t.Parallel()
	f := newField(t)
	f.set("ann bea", nil)
	err := f.d.SetOrder(t.Context(), f.programme, db.OrderChange{Pilots: f.ids("bea ann"), By: "another"})
	changed, ok := errors.AsType[*db.OrderChangedError](err)
	if !ok || changed.By != "office" || !errors.Is(err, db.ErrConflict) || says(f.order()) != "1ann 2bea" {
		t.Errorf("%v, and then %s", err, says(f.order()))
	}
	if never := (&db.OrderChangedError{}).Error(); !strings.HasPrefix(never, "somebody changed") {
		t.Error(never)
	}
	err = f.d.SetOrder(t.Context(), uuid.New(), db.OrderChange{})
	if !errors.Is(err, db.ErrNotFound) {
		t.Errorf("no programme: %v", err)
	}
}

// TestOrderOfABundle: the flights that came with a bundle are put in order like
// others, and one that has its own sequence cannot be left out.
func TestOrderOfABundle(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	bundle := readBundle(t, everything)
	contest, err := d.Import(t.Context(), bundle, db.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	part := partOf(t, d, contest)
	for i, p := range part.Bundle.Categories[0].Programmes {
		f := &field{t, d, contest, part.Categories[0].Programmes[i].ID}
		if o := f.order(); o.Revision != 0 || len(o.Turns) != len(p.Flights) {
			t.Errorf("%s: %+v", p.Name, o)
		}
		if err := f.try("", nil); p.OwnSequences() && err == nil {
			t.Errorf("%s: all were left out", p.Name)
		}
	}
}
