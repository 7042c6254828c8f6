package line

import (
	"slices"
	"testing"
)

// A seat sees nothing of another one, whatever was recorded.
func TestVisible(t *testing.T) {
	for seed := range uint64(20) {
		f := newField(seed)
		f.play(80)
		all := map[string]bool{}
		for _, r := range Visible(f.all, "J1") {
			all[r.ID] = true
			if r.Judge == "J2" && r.Kind != KindStatus && r.Kind != KindAside && r.Kind != KindRuling && r.Kind != KindPenalty {
				t.Fatalf("seed %d: J1 sees %+v", seed, r)
			}
			if r.Kind == KindRuling || r.Kind == KindPenalty {
				t.Fatalf("seed %d: J1 sees %+v", seed, r)
			}
		}
		for _, r := range f.all {
			own := (r.Kind == KindGrade || r.Kind == KindSign || r.Kind == KindReopen) && r.Judge == "J1"
			if (own || r.Kind == KindStatus) && !all[r.ID] {
				t.Fatalf("seed %d: J1 does not see %+v", seed, r)
			}
		}
		if slices.ContainsFunc(Visible(f.all, ""), func(r Stored) bool { return r.Kind != KindStatus && r.Kind != KindAside }) {
			t.Fatalf("seed %d: a device without a seat sees a sheet", seed)
		}
	}
}
