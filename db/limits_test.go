package db_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
	"halfpoint/scoring/document"
)

// TestImportRefuses: what can be scored and cannot be a contest is named, all
// of it at once, and nothing of it is stored.
func TestImportRefuses(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	bundle := readBundle(t, everything)
	bundle.Contest.Ends = "2026-06-11"
	bundle.Contest.Name = "a\x00b"
	for n := range 600 {
		bundle.Pilots = append(bundle.Pilots, scoring.Pilot{ID: fmt.Sprint("more", n)})
	}
	known := &bundle.Categories[0].Programmes[0]
	flight := &known.Flights[0]
	flight.Penalties = append(flight.Penalties, scoring.Penalty{Kind: "low", Count: 100, Points: 1}, scoring.Penalty{Count: 1})
	flight.Sheets[0].Remarks[0] = strings.Repeat("ü", 501)
	flight.Rulings = append(flight.Rulings, scoring.Ruling{Item: 4, Ruling: scoring.HardZeroConfirmed})
	free := &bundle.Categories[0].Programmes[1].Flights[0]
	for len(free.Sequence.Items) < 41 {
		free.Sequence.Items = append(free.Sequence.Items, free.Sequence.Items[0])
	}
	bundle.Pilots[1].Note = strings.Repeat("ü", 501)
	free.Description = strings.Repeat("ü", 1001)
	_, err := d.Import(t.Context(), bundle, db.ImportOptions{})
	complaints, ok := errors.AsType[document.Complaints](err)
	if !ok {
		t.Fatalf("%v", err)
	}
	const flights = "categories[0].programmes[0].flights[0]"
	for _, place := range []string{
		"", "contest.ends", "pilots", flights + ".penalties[2].kind", flights + ".penalties[2].count", flights + ".penalties[3].kind",
		flights + ".sheets[0].remarks[0]", flights + ".rulings[3].item", "categories[0].programmes[1].flights[0].sequence.items",
		"pilots[1].note", "categories[0].programmes[1].flights[0].description",
	} {
		found := 0
		for _, c := range complaints {
			if c.Place == place {
				found++
			}
		}
		if found != 1 {
			t.Errorf("%d complaints at %q in\n%v", found, place, complaints)
		}
	}
	nothingIsStored(t, d)
}

func nothingIsStored(t *testing.T, d *db.DB) {
	t.Helper()
	contests, err := d.Contests(t.Context(), db.ContestQuery{Limit: 1})
	heads, headsErr := d.Heads(t.Context())
	if err != nil || headsErr != nil || len(contests) > 0 || len(heads) > 0 {
		t.Errorf("stored: %v and %v, %v, %v", contests, heads, err, headsErr)
	}
}

// A bundle that the database itself refuses in the middle leaves nothing.
func TestImportIsAllOrNothing(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	bundle := readBundle(t, everything)
	programmes := bundle.Categories[0].Programmes
	programmes[2].ID = programmes[0].ID // which no bundle that was read has
	if _, err := d.Import(t.Context(), bundle, db.ImportOptions{}); !errors.Is(err, db.ErrConflict) {
		t.Errorf("%v", err)
	}
	nothingIsStored(t, d)
	bundle = readBundle(t, everything)
	if _, err := d.Import(t.Context(), bundle, db.ImportOptions{Opened: "ajar"}); !errors.Is(err, db.ErrInvalid) {
		t.Errorf("%v", err)
	}
	nothingIsStored(t, d)
}

// An import signs what is complete and closes what is signed all over, so that
// nothing of a finished contest waits for anyone.
func TestImportLeavesNothingOpen(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := imported(t, d, "../testdata/cases/101.bundle.json")
	part := partOf(t, d, contest)
	for _, p := range part.Categories[0].Programmes {
		for _, f := range p.Flights {
			if len(f.State.Blocks) > 0 {
				t.Errorf("flight %d is blocked: %+v", f.Number, f.State.Blocks)
			}
		}
	}
}
