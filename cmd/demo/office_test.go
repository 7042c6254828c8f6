package demo

import (
	"slices"
	"testing"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/figure"
)

// TestTheOfficeLeavesOneSequence: every sequence is followed to its end and
// signed off, but one of a free programme, in which an error stands; the
// unknown ones that nobody has flown are not released.
func TestTheOfficeLeavesOneSequence(t *testing.T) {
	t.Parallel()
	database, contest := imported(t)
	if err := Prepare(t.Context(), database, contest); err != nil {
		t.Fatal(err)
	}
	part, err := database.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	var left []string
	for _, c := range part.Categories {
		for _, p := range c.Programmes {
			registered, err := database.Sequences(t.Context(), p.ID)
			if err != nil {
				t.Fatal(err)
			}
			if registered.Rules.Note != limitsNote || registered.Rules.Numbers == 0 {
				t.Errorf("the rules are %+v", registered.Rules)
			}
			for _, one := range registered.Sequences {
				unseen := registered.Kind == scoring.Unknown && p.Flights[0].State.Status == ""
				if (one.Sequence.Released == nil) != unseen {
					t.Errorf("%s released at %v", registered.Programme.Name, one.Sequence.Released)
				}
				if one.Sequence.SignedOff == nil {
					left = append(left, registered.Kind)
				}
				followed(t, &one)
			}
		}
	}
	if !slices.Equal(left, []string{scoring.Free}) {
		t.Errorf("not signed off are sequences of %v; want one of a free programme", left)
	}
}

// followed holds that every figure of a sequence has moves, a name and an exit.
func followed(t *testing.T, one *db.FlightSequence) {
	t.Helper()
	figures, err := one.Sequence.Figures()
	if err != nil {
		t.Fatal(err)
	}
	for i, item := range figure.Check(figures, nil).Items {
		if !figures.Items[i].Overall && (item.Exit == nil || item.Call == nil || *item.Call == "") {
			t.Errorf("item %d of %s is not followed: %v", item.Item, one.Sequence.Digest, item.Errors)
		}
	}
}
