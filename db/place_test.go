package db_test

import (
	"errors"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
)

func TestThingsAreOfOneContest(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := small(t, d)
	part := partOf(t, d, contest)
	category := part.Categories[0]
	for kind, id := range map[string]uuid.UUID{
		"contest": contest, "category": category.ID, "programme": category.Programmes[0].ID, "flight": category.Programmes[0].Flights[0].ID,
	} {
		if of, err := d.ContestOf(t.Context(), kind, id); err != nil || of != contest {
			t.Errorf("a %s is of %v, %v", kind, of, err)
		}
		if _, err := d.ContestOf(t.Context(), kind, uuid.New()); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("no %s is of a contest: %v", kind, err)
		}
	}
	if db.Placed("judge") || !db.Placed("publication") {
		t.Error("a judge is found by the contest, a publication without it")
	}
}

// Whoever sets a contest up makes the ids, and could take those of another.
func TestIDsOfAnotherContestAreRefused(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	first, second, change := emptyContest(t, d), emptyContest(t, d), smallContest()
	if _, err := d.ChangeSetup(t.Context(), first, change, ""); err != nil {
		t.Fatal(err)
	}
	if _, err := d.ChangeSetup(t.Context(), second, change, ""); !errors.Is(err, db.ErrConflict) {
		t.Errorf("%v", err)
	}
	if of, err := d.ContestOf(t.Context(), "programme", change.Programmes[0].Row.ID); err != nil || of != first {
		t.Errorf("the programme is of %v, %v", of, err)
	}
}
