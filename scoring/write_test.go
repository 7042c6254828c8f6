package scoring

import (
	"bytes"
	"encoding/json"
	"reflect"
	"testing"
)

// TestResultsAreEncodedAsByEncodingJSON holds the writer against the one that
// knows the field names from the types, for what it may meet.
func TestResultsAreEncodedAsByEncodingJSON(t *testing.T) {
	rank := 2
	odd := &Results{Format: ResultsFormat, Categories: []CategoryResult{{
		ID: "q\"<&>\\\n\u2028é\xff", Overall: []OverallResult{{Rank: &rank, Certainty: &Certainty{1, 2, 0.5, 1e-7}}, {}},
		Programmes: []ProgrammeResult{{Flights: []FlightResult{{Unresolved: []int{1, 2}}, {Judged: &Judged{1e22, -0.1, 3}}}}},
		Teams:      []TeamResult{},
	}}}
	all := []*Results{odd, {}}
	for _, path := range caseFiles(t) {
		all = append(all, Score(readCase(t, path)))
	}
	for _, r := range all {
		want, err := encode(r)
		if err != nil {
			t.Fatal(err)
		}
		if got := r.Encode(); !bytes.Equal(got, want) {
			t.Errorf("written\n%.3000s\nwant\n%.3000s", got, want)
		}
	}
}

func TestResultsReadBack(t *testing.T) {
	for _, path := range caseFiles(t) {
		want := Score(readCase(t, path))
		var got Results
		if err := json.Unmarshal(want.Encode(), &got); err != nil || !reflect.DeepEqual(&got, want) {
			t.Errorf("%s: results do not read back the same: %v", path, err)
		}
	}
}
