package line

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

var update = flag.Bool("update", false, "write the contests played at random anew")

// Contests played at random hold every other implementation of Resolve to this
// one where nobody thought of a vector. They are this package's own output, and
// prove nothing about it but that it did not change.
func TestPlayed(t *testing.T) {
	file := filepath.Join(vectorDir, "played.json")
	want := slices.Concat([]byte(`{"vectors": [`+"\n"), slices.Concat(playedLines(t)...), []byte("]}\n"))
	if *update {
		if err := os.WriteFile(file, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(got, want) {
		t.Fatalf("%s is not what is resolved now; if that is meant, run the test with -update", file)
	}
}

func playedLines(t *testing.T) (lines [][]byte) {
	const fields = 12
	for seed := range uint64(fields) {
		f := newField(1000 + seed)
		f.play(60)
		text, err := json.Marshal(vector{
			Name: fmt.Sprint("played ", seed), Why: "Played at random.",
			Setup: f.setup, Records: f.all, State: Resolve(f.setup, f.all),
		})
		if err != nil {
			t.Fatal(err)
		}
		if seed < fields-1 {
			text = append(text, ',')
		}
		lines = append(lines, append(text, '\n'))
	}
	return lines
}
