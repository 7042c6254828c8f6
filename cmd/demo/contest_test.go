package demo

import (
	"testing"

	"halfpoint/scoring"
)

// TestContestIsOneThatCanBeScored: the size is the one the README promises;
// the decoder accepts it and every flown flight has a score.
func TestContestIsOneThatCanBeScored(t *testing.T) {
	b, err := Contest()
	if err != nil {
		t.Fatal(err)
	}
	text, err := b.Encode()
	if err != nil {
		t.Fatal(err)
	}
	b, err = scoring.DecodeBundle(text)
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Judges) != 7 || len(b.Pilots) != 28 || len(b.Categories) != 3 {
		t.Errorf("%d judges, %d pilots, %d categories", len(b.Judges), len(b.Pilots), len(b.Categories))
	}
	for _, c := range scoring.Score(b).Categories {
		for _, p := range c.Programmes {
			if p.Fallback != "" && p.ID == scoring.Known {
				t.Errorf("%s %s fell back to %s", c.ID, p.ID, p.Fallback)
			}
			for _, f := range p.Flights {
				if f.Status == scoring.Flown && (f.Placing == nil || f.Score <= 0) {
					t.Errorf("%s %s %s has no score", c.ID, p.ID, f.Pilot)
				}
			}
		}
	}
}
