package scoring

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// A methodPage is docs/method.md, whose examples are held to what the methods
// make of them.
type methodPage struct {
	*testing.T
	text string
}

func (p methodPage) says(format string, args ...any) {
	p.Helper()
	if want := fmt.Sprintf(format, args...); !strings.Contains(p.text, want) {
		p.Errorf("the page does not say\n%s", want)
	}
}

// example scores one of the page's contests.
func example(t *testing.T, name, method string) []FlightResult {
	t.Helper()
	b := readCase(t, "../testdata/method/"+name+".bundle.json")
	b.Categories[0].Programmes[0].Method = DefaultMethod(method)
	result := Score(b).Categories[0].Programmes[0]
	if result.Fallback != "" {
		t.Fatalf("%s: %s instead", name, result.Fallback)
	}
	return result.Flights
}

func TestMethodPageIsWhatComesOut(t *testing.T) {
	page := methodPage{t, string(readFile(t, "../docs/method.md"))}

	mean := example(t, "worked", Mean)[0]
	page.says("**%.2f**, less the penalty **%.2f**", mean.PanelScore, mean.Score)
	page.says("**%.2f** percent", mean.Percent)
	page.says("The panel score is **%.2f**", example(t, "worked", TrimmedMean)[0].PanelScore)

	for _, f := range example(t, "totals", Normalised) {
		row := "| " + f.Pilot
		for _, s := range f.Seats {
			row += fmt.Sprintf(" | %v", s.RawTotal)
		}
		for _, s := range f.Seats {
			row += fmt.Sprintf(" | %.2f", s.UsedTotal)
		}
		page.says("%s | **%.2f** |", row, f.Score)
	}

	third := example(t, "consensus", Consensus)[2]
	sum := 0.0
	for i, c := range third.Cells[:5] {
		page.says("| %d | %s | %.3f | %.3f | %.3f |", i+1, c.Grade, c.Used, c.Weight, third.Seats[i].Weight)
		sum += c.Grade.Points()
	}
	page.says("= **%.3f**", third.Cells[0].Fitted)
	page.says("The mean of the grades would be %.3f.", sum/5)
	page.says("**%.2f** here", third.Score)
}

// TestConsensusByCalculator: the value of each line comes from what the results
// say of its cells, as the page promises.
func TestConsensusByCalculator(t *testing.T) {
	for _, f := range example(t, "consensus", Consensus) {
		score := 0.0
		for item, k := range []float64{18, 10} {
			var sum, trust float64
			for seat, c := range f.Cells[5*item : 5*item+5] {
				sum += f.Seats[seat].Weight * c.Weight * c.Used
				trust += f.Seats[seat].Weight * c.Weight
			}
			score += k * sum / trust
		}
		if math.Abs(score-f.PanelScore) > sameScore {
			t.Errorf("%s: %v, want %v", f.Pilot, score, f.PanelScore)
		}
	}
}
