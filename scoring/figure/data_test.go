package figure

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

// A dataCase is one invented figure of testdata/figures, with how it ends and
// how it is called, reasoned by hand from the motion (why).
type dataCase struct {
	Why      string          `json:"why"`
	Inverted bool            `json:"inverted"`
	Moves    json.RawMessage `json:"moves"`
	Exit     Attitude        `json:"exit"`
	Name     string          `json:"name"`
	Call     string          `json:"call"`
}

// inventedFigures reads all of them.
func inventedFigures(t *testing.T) (all []dataCase) {
	t.Helper()
	files, err := filepath.Glob("../../testdata/figures/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no figures: %v", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var cases []dataCase
		if err := json.Unmarshal(text, &cases); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		all = append(all, cases...)
	}
	return all
}

func TestInventedFigures(t *testing.T) {
	all := inventedFigures(t)
	kinds, rotations := map[Kind]bool{}, map[RotationKind]bool{}
	for _, c := range all {
		for _, m := range checkCase(t, c) {
			kinds[m.Kind] = true
			for _, r := range m.Rotations {
				rotations[r.Kind] = true
			}
		}
	}
	if len(all) < 60 || len(kinds) != 6 || len(rotations) != 3 {
		t.Errorf("%d figures with %d kinds of moves and %d of rotations", len(all), len(kinds), len(rotations))
	}
}

func checkCase(t *testing.T, c dataCase) []Move {
	t.Helper()
	moves, wrong := parseMoves(string(c.Moves))
	trace := Follow(moves, Attitude{Inverted: c.Inverted}, 0)
	exit, ok := trace.Exit()
	words := English().Describe(moves, trace)
	if wrong != nil || !ok || exit != c.Exit {
		t.Errorf("%s\n%s ends %+v with faults %v and complaints at %v, want %+v", c.Why, c.Moves, exit, trace.Faults, wrong, c.Exit)
	}
	if words.Name != c.Name || words.Call != c.Call {
		t.Errorf("%s\nis named %q and called\n%s\nwant %q and\n%s", c.Moves, words.Name, words.Call, c.Name, c.Call)
	}
	return moves
}
