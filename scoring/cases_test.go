package scoring

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"
)

// What the cases' results were computed to: numbers to within 1e-6, and what is
// drawn at random to within its sampling error.
const (
	numberTolerance = 1e-6
	chanceTolerance = 0.02
)

// TestCasesAgree holds the results of invented contests against those of an
// independent implementation of the method: see testdata/cases/README.md.
func TestCasesAgree(t *testing.T) {
	for _, path := range caseFiles(t) {
		t.Run(path, func(t *testing.T) {
			got := Score(readCase(t, path)).Encode()
			want := readFile(t, strings.Replace(path, ".bundle.", ".results.", 1))
			compare(t, "", parse(t, got), parse(t, want))
		})
	}
}

func parse(t *testing.T, text []byte) (v any) {
	t.Helper()
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// compare holds one JSON value against another. The other implementation drew
// no ranks at random, so those fields of ours have nothing beside them.
func compare(t *testing.T, place string, got, want any) {
	t.Helper()
	switch want := want.(type) {
	case map[string]any:
		compareObjects(t, place, got, want)
	case []any:
		got, _ := got.([]any)
		if len(got) != len(want) {
			t.Errorf("%s: %d entries, want %d", place, len(got), len(want))
			return
		}
		for i := range want {
			compare(t, fmt.Sprintf("%s[%d]", place, i), got[i], want[i])
		}
	case float64:
		got, ok := got.(float64)
		tolerance := numberTolerance
		if strings.Contains(place, ".p_") {
			tolerance = chanceTolerance
		}
		if !ok || !(math.Abs(got-want) <= tolerance) {
			t.Errorf("%s: %v, want %v", place, got, want)
		}
	default:
		if got != want {
			t.Errorf("%s: %v, want %v", place, got, want)
		}
	}
}

var drawnFields = map[string]bool{"rank_low": true, "rank_high": true, "p_first": true, "p_podium": true}

func compareObjects(t *testing.T, place string, value any, want map[string]any) {
	t.Helper()
	got, _ := value.(map[string]any)
	for name := range got {
		if _, there := want[name]; !there && !drawnFields[name] {
			t.Errorf("%s.%s: there, and was not expected", place, name)
		}
	}
	for name := range want {
		one, there := got[name]
		if !there {
			t.Errorf("%s.%s: missing", place, name)
			continue
		}
		compare(t, place+"."+name, one, want[name])
	}
}
