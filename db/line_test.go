package db_test

import (
	"reflect"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring/line"
)

// A grade that was entered for the wrong flight is taken over into another
// programme: read alone, either flight is what it is when all are read.
func TestFlightsAreTied(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 1)
	wrong := b.sheets.Flight.ID
	entered := b.grade(2, "6.5")
	b.send(entered)
	b.look(wrong)
	if got := b.sheets.State.Attempts[0].Sheets[0].Cells[1].Grade; got != "6.5" {
		t.Fatalf("before, the cell has %q", got)
	}
	right := rightFlight(t, b)
	b.look(right)
	taken := b.grade(2, "6.5")
	taken.Adopts, taken.Reason = []string{entered.ID}, "was entered for the wrong flight"
	taken.Judge = entered.Judge
	chief := db.Delivery{Store: uuid.New(), Author: line.Author{Role: line.RoleChief, Device: "chief"}, Records: []db.Received{taken}}
	if _, err := b.d.StoreRecords(t.Context(), b.contest, chief); err != nil {
		t.Fatal(err)
	}
	whole := partOf(t, b.d, b.contest)
	for flight, want := range map[uuid.UUID]string{wrong: "", right: "6.5"} {
		b.look(flight)
		if got := gradeOf(&b.sheets.State, entered.Judge); got != want {
			t.Errorf("the cell has %q, want %q", got, want)
		}
		if all := stateIn(whole, flight); !reflect.DeepEqual(*all, b.sheets.State) {
			t.Errorf("alone it is %+v, among all %+v", b.sheets.State, *all)
		}
	}
}

// rightFlight is the first flight of the free programme after the tablet's.
func rightFlight(t *testing.T, b *tablet) uuid.UUID {
	t.Helper()
	c, err := b.d.Contest(t.Context(), b.contest)
	if err != nil {
		t.Fatal(err)
	}
	list, err := b.d.Flights(t.Context(), c.Categories[0].Programmes[1].ID)
	if err != nil {
		t.Fatal(err)
	}
	return list.Flights[0].ID
}

// gradeOf is what a judge's sheet has for the second item.
func gradeOf(f *line.Flight, judge string) string {
	for _, s := range f.Attempts[0].Sheets {
		if s.Judge == judge {
			return s.Cells[1].Grade
		}
	}
	return "no sheet"
}

func stateIn(part *db.Part, flight uuid.UUID) *line.Flight {
	for _, c := range part.Categories {
		for _, p := range c.Programmes {
			for i := range p.Flights {
				if p.Flights[i].ID == flight {
					return &p.Flights[i].State
				}
			}
		}
	}
	return nil
}
