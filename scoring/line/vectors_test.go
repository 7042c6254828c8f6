package line

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

const vectorDir = "../../testdata/line"

// vector is one case of testdata/line; its README says what the fields are.
type vector struct {
	Name    string   `json:"name"`
	Why     string   `json:"why"`
	Setup   Setup    `json:"setup"`
	Records []Stored `json:"records"`
	State   State    `json:"state"`
}

func readStrict(t testing.TB, file string, into any) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(into); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
}

func vectors(t testing.TB) []vector {
	t.Helper()
	var all []vector
	for _, name := range []string{"grades", "signatures", "held", "flights", "officials", "moving"} {
		var file struct {
			Vectors []vector `json:"vectors"`
		}
		readStrict(t, filepath.Join(vectorDir, name+".json"), &file)
		if len(file.Vectors) == 0 {
			t.Fatalf("%s.json has no vectors", name)
		}
		all = append(all, file.Vectors...)
	}
	return all
}

func toJSON(t testing.TB, value any) string {
	t.Helper()
	data, err := json.MarshalIndent(value, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestVectors(t *testing.T) {
	for _, v := range vectors(t) {
		t.Run(v.Name, func(t *testing.T) {
			want := toJSON(t, v.State)
			if got := toJSON(t, Resolve(v.Setup, v.Records)); got != want {
				t.Fatalf("%s\ngot:\n%s\nwant:\n%s", v.Why, got, want)
			}
			random := rand.New(rand.NewPCG(1, 2))
			for range 6 {
				records := slices.Concat(v.Records, v.Records)
				shuffle(random, records)
				if got := toJSON(t, Resolve(v.Setup, records)); got != want {
					t.Fatalf("shuffled and doubled:\n%s\nwant:\n%s", got, want)
				}
			}
		})
	}
}

func shuffle(random *rand.Rand, records []Stored) {
	random.Shuffle(len(records), func(i, j int) { records[i], records[j] = records[j], records[i] })
}

// The vectors must show every standing, every cause, every state of a
// signature and every cause of a block, or another implementation could lack
// one unseen.
func TestVectorsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, v := range vectors(t) {
		for _, s := range v.State.Standings {
			seen[s.Standing], seen["cause "+s.Cause] = true, true
		}
		for _, f := range v.State.Flights {
			seen["status "+f.Status] = true
			for _, b := range f.Blocks {
				seen["block "+b.Cause] = true
			}
			for _, a := range f.Attempts {
				for _, s := range a.Sheets {
					seen["signature "+s.Signature.State] = true
				}
			}
		}
	}
	for _, want := range []string{
		Head, Replaced, Conflict, Waits, Aside, Late, Closed, OtherSequence, Held,
		"cause " + CauseFlight, "cause " + CauseWithdrawn, "cause " + CauseRole, "cause " + CauseSeat, "cause " + CauseItem,
		"cause " + CauseMissing, "cause " + CauseCovers, "cause " + CauseConflict, "cause " + CauseEmpty, "cause " + CauseDigest,
		"signature " + Unsigned, "signature " + Signed, "signature " + SignWait, "signature " + Differ, "signature " + Reopened,
		"status called", "status flying", "status landed", "status interrupted", "status closed", "status not-flown", "status withdrawn", "status disqualified",
		"block status", "block sheet", "block conflict", "block absent", "block ruling", "block penalty", "block record",
	} {
		if !seen[want] {
			t.Errorf("no vector shows %q", want)
		}
	}
}

func TestDigests(t *testing.T) {
	var file struct {
		Sheets []struct {
			Name     string  `json:"name"`
			Contest  string  `json:"contest"`
			Flight   string  `json:"flight"`
			Judge    string  `json:"judge"`
			Sequence string  `json:"sequence"`
			Entries  []Entry `json:"entries"`
			Text     string  `json:"text"`
			Digest   string  `json:"digest"`
		} `json:"sheets"`
		Sequences []struct {
			Name   string         `json:"name"`
			Items  []SequenceItem `json:"items"`
			Text   string         `json:"text"`
			Digest string         `json:"digest"`
		} `json:"sequences"`
	}
	readStrict(t, filepath.Join(vectorDir, "digests.json"), &file)
	for _, v := range file.Sheets {
		if got := string(SheetText(v.Contest, v.Flight, v.Judge, v.Sequence, v.Entries)); got != v.Text {
			t.Errorf("%s: text %q, want %q", v.Name, got, v.Text)
		}
		if got := SheetDigest(v.Contest, v.Flight, v.Judge, v.Sequence, v.Entries); got != v.Digest {
			t.Errorf("%s: digest %s, want %s", v.Name, got, v.Digest)
		}
	}
	for _, v := range file.Sequences {
		if got := SequenceDigest(v.Items); got != v.Digest {
			t.Errorf("sequence %s: digest %s, want %s", v.Name, got, v.Digest)
		}
	}
}
