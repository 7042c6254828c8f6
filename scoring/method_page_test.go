package scoring

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// TestMethodPageIsWhatComesOut holds the worked example of docs/method.md, which
// was worked by hand there, to what the methods make of it.
func TestMethodPageIsWhatComesOut(t *testing.T) {
	t.Parallel()
	page, err := os.ReadFile("../docs/method.md")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile("../testdata/method/worked.bundle.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, method := range []string{Mean, TrimmedMean} {
		b, err := DecodeBundle([]byte(strings.Replace(string(text), `"mean"`, `"`+method+`"`, 1)))
		if err != nil {
			t.Fatal(err)
		}
		flight := Score(b).Categories[0].Programmes[0].Flights[0]
		numbers := []float64{flight.PanelScore}
		if method == Mean {
			numbers = append(numbers, flight.Score, flight.Percent)
		}
		for _, n := range numbers {
			if want := fmt.Sprintf("**%.2f**", n); !strings.Contains(string(page), want) {
				t.Errorf("%s makes %s, which the page does not say", method, want)
			}
		}
	}
}
