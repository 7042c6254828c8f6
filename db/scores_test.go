package db

import (
	"os"
	"sync"
	"testing"

	"halfpoint/scoring/publication"
)

// TestAskedAtOnceIsScoredOnce: whoever asks for the same at the same time, or
// later, has what one of them had computed.
func TestAskedAtOnceIsScoredOnce(t *testing.T) {
	t.Parallel()
	bundle, err := os.ReadFile("../testdata/cases/101.bundle.json")
	if err != nil {
		t.Fatal(err)
	}
	var kept scores
	var asked sync.WaitGroup
	got := make([]*publication.Parsed, 8)
	for i := range got {
		asked.Go(func() {
			var err error
			if _, got[i], err = kept.get(bundle); err != nil {
				t.Error(err)
			}
		})
	}
	asked.Wait()
	for i, one := range got {
		if one == nil || one != got[0] {
			t.Errorf("asker %d has results of its own", i)
		}
	}
}
