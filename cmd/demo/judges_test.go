package demo

import (
	"testing"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
)

// TestTheLineGradesWhatIsLeft: at no pace at all the judges fly the contest to
// its end, and what they recorded is what can be scored: every flight closed,
// complete and without anything that waits for a decision.
func TestTheLineGradesWhatIsLeft(t *testing.T) {
	t.Parallel()
	database := dbtest.New(t)
	bundle, err := Contest()
	if err != nil {
		t.Fatal(err)
	}
	contest, err := database.Import(t.Context(), bundle, db.ImportOptions{Opened: db.Live})
	if err != nil {
		t.Fatal(err)
	}
	line := &Line{DB: database, Contest: contest}
	if err := line.Run(t.Context()); err != nil {
		t.Fatal(err)
	}
	part, err := database.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range part.Categories {
		for _, p := range c.Programmes {
			for _, f := range p.Flights {
				if len(f.State.Blocks) > 0 {
					t.Errorf("flight %d waits: %v", f.Number, f.State.Blocks)
				}
			}
		}
	}
	for _, c := range scoring.Score(part.Bundle).Categories {
		for _, p := range c.Programmes {
			if p.State != scoring.Complete {
				t.Errorf("%s %s is %s", c.ID, p.ID, p.State)
			}
		}
	}
}
