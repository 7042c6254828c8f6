package db_test

import (
	"errors"
	"reflect"
	"slices"
	"sync"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
)

// desk is where a seat's paper sheet is keyed.
type desk struct {
	*tablet
	judge uuid.UUID
}

func newDesk(t *testing.T) *desk {
	b := newTablet(t, dbtest.New(t), everything, 1, 0)
	return &desk{b, b.sheets.Panel[0].Judge}
}

// paper is a signed sheet with one grade in every cell, some of them changed.
func (d *desk) paper(by string, changed map[int]string) db.KeyedReading {
	r := db.KeyedReading{ID: uuid.New(), By: by, Reading: line.Reading{Signed: true}}
	for i := range d.sheets.State.Attempts[0].Sheets[0].Cells {
		r.Entries = append(r.Entries, line.Entry{Grade: "7.5"})
		if g, ok := changed[i+1]; ok {
			r.Entries[i].Grade = g
		}
	}
	return r
}

func (d *desk) key(r db.KeyedReading) bool {
	d.t.Helper()
	entered, err := d.d.Key(d.t.Context(), d.sheets.Flight.ID, d.judge, r)
	if err != nil {
		d.t.Fatal(err)
	}
	return entered
}

func (d *desk) keying() *db.Keying {
	d.t.Helper()
	k, err := d.d.Keying(d.t.Context(), d.sheets.Flight.ID, d.judge)
	if err != nil {
		d.t.Fatal(err)
	}
	return k
}

func (d *desk) grades() []string {
	var all []string
	k := d.keying()
	for _, c := range k.Sheet.Cells {
		all = append(all, c.Grade)
	}
	return all
}

func TestOnlyEqualReadingsBecomeRecords(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	first, second := d.paper("ada", map[int]string{1: "8.0"}), d.paper("bob", map[int]string{1: "3.0", 2: "HZ"})
	if d.key(first) || d.key(first) {
		t.Error("one reading, sent twice, was entered")
	}
	if d.key(second) {
		t.Error("two readings that differ were entered")
	}
	want := []db.Difference{{Item: 1, First: "8.0", Last: "3.0"}, {Item: 2, First: "7.5", Last: "HZ"}}
	if got := d.keying().Differences(); !reflect.DeepEqual(got, want) {
		t.Errorf("differences %+v, want %+v", got, want)
	}
	if got := d.grades(); got[0] != "" {
		t.Errorf("the sheet shows %q before it is settled", got[0])
	}
	third := d.paper("ada", map[int]string{1: "8.0", 2: "HZ"})
	if !d.key(third) || !d.key(third) {
		t.Error("a third reading that shares each cell with one before was not entered")
	}
	k := d.keying()
	if got := d.grades(); !slices.Equal(got, []string{"8.0", "HZ"}) || k.Sheet.Signature.State != line.Signed {
		t.Errorf("the sheet shows %v and is %s", got, k.Sheet.Signature.State)
	}
	if _, err := d.d.Key(t.Context(), d.sheets.Flight.ID, d.judge, d.paper("ada", nil)); !errors.Is(err, db.ErrConflict) {
		t.Errorf("keying a signed sheet: %v", err)
	}
}

// A sheet half on the tablet is finished on paper; what the paper says of the
// other half takes the place of what the tablet said.
func TestPaperFinishesATabletsSheet(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	d.send(d.grade(1, "9.0"), d.grade(2, "4.0"))
	for _, by := range []string{"ada", "bob"} {
		d.key(d.paper(by, map[int]string{1: "", 2: "4.5"}))
	}
	if got := d.grades(); !slices.Equal(got, []string{"9.0", "4.5"}) {
		t.Errorf("the sheet shows %v", got)
	}
}

func TestKeyingRefusesWhatNoPaperSays(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	_, err := d.d.Key(t.Context(), d.sheets.Flight.ID, d.judge, d.paper("ada", map[int]string{1: "11", 2: ""}))
	complaints, _ := errors.AsType[document.Complaints](err)
	if len(complaints) != 2 || complaints[0].Place != "entries[0].grade" || complaints[1].Place != "entries[1].grade" {
		t.Errorf("got %v", err)
	}
	if _, err := d.d.Keying(t.Context(), d.sheets.Flight.ID, uuid.New()); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("a seat that is not there: %v", err)
	}
}

// Two people key at once: one of them is the second.
func TestTwoPeopleKeyAtOnce(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	var entered [2]bool
	var failed [2]error
	var both sync.WaitGroup
	for i, by := range []string{"ada", "bob"} {
		r := d.paper(by, nil)
		both.Go(func() { entered[i], failed[i] = d.d.Key(t.Context(), d.sheets.Flight.ID, d.judge, r) })
	}
	both.Wait()
	if err := errors.Join(failed[:]...); err != nil || entered[0] == entered[1] {
		t.Errorf("entered: %v, %v", entered, err)
	}
}

func TestKeyedReadingsAreForgotten(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	d.key(d.paper("ada", map[int]string{1: "8.0"}))
	for range 2 {
		if err := d.d.ForgetKeyed(t.Context(), d.sheets.Flight.ID, d.judge, "ada"); err != nil {
			t.Fatal(err)
		}
	}
	if d.key(d.paper("bob", map[int]string{1: "8.0"})) {
		t.Error("what was forgotten still agrees with what is keyed")
	}
}
