package kind

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"halfpoint/scoring"
)

// TestByNumbers: catalogue numbers are from memory, as in scoring's own test of
// classes.
func TestByNumbers(t *testing.T) {
	t.Parallel()
	for numbers, want := range map[string]Kind{
		"1.1.1.1": Line, "1.1.1.1 9.1.3.4": Roll, "3.3.1.1": Line, "2.1.1.1": Turn, "2.3.1.2 9.1.3.4": RollingTurn,
		"5.2.1.1": StallTurn, "5.2.1.1 9.1.1.1": StallTurn, "6.2.1.1": Slide, "7.4.1.1": Loop, "7.4.1.1 9.1.3.4": Loop,
		"8.5.6.1 9.1.4.2": Combination, "7.4.1.1 9.9.3.4": Flick, "9.11.1.4 1.1.7.1": Spin, "": Other, "4.1": Other,
	} {
		if got := Of(&scoring.Item{Kind: scoring.Figure, Elements: strings.Fields(numbers)}); got != want {
			t.Errorf("%s: %s, want %s", numbers, got, want)
		}
	}
}

func TestByMoves(t *testing.T) {
	t.Parallel()
	for moves, want := range map[string]Kind{
		`[{"line":[]}]`: Line, `[{"line":[{"kind":"roll","turns":1}]}]`: Roll,
		`[{"turn":90}]`: Turn, `[{"turn":90,"rolls":1}]`: RollingTurn,
		`[{"arc":90},{"pivot":true},{"arc":90}]`:        StallTurn,
		`[{"arc":90},{"slide":"canopy-up"},{"arc":90}]`: Slide,
		`[{"arc":360}]`: Loop, `[{"arc":90},{"arc":90},{"arc":90},{"arc":90}]`: Loop,
		`[{"arc":225},{"line":[{"kind":"roll","turns":0.5}]},{"arc":45}]`: Combination,
		`[{"arc":90},{"line":[]},{"arc":90,"push":true}]`:                 Line,
		`[{"arc":180,"apex":[{"kind":"flick","turns":1}]}]`:               Flick,
		`[{"spin":1},{"line":[]},{"arc":90}]`:                             Spin,
		`[{"fly":true}]`:                                                  Other,
		`"`:                                                               Other,
	} {
		if got := Of(&scoring.Item{Kind: scoring.Figure, Moves: json.RawMessage(moves)}); got != want {
			t.Errorf("%s: %s, want %s", moves, got, want)
		}
	}
}

// TestClassGoesFirst: what the organiser says of a figure goes before its
// numbers, and a mark is no figure.
func TestClassGoesFirst(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		item scoring.Item
		want Kind
	}{
		{scoring.Item{Kind: scoring.Figure, Elements: []string{"7.4.1.1"}, Class: scoring.Flick}, Flick},
		{scoring.Item{Kind: scoring.Figure, Elements: []string{"9.11.1.4", "1.1.7.1"}, Class: scoring.General}, Roll},
		{scoring.Item{Kind: scoring.Overall, Elements: []string{"7.4.1.1"}}, Mark},
	} {
		if got := Of(&c.item); got != c.want {
			t.Errorf("%+v: %s, want %s", c.item, got, c.want)
		}
	}
}

// figures are items "number K".
func figures(texts ...string) []scoring.Item {
	list := make([]scoring.Item, len(texts))
	for i, text := range texts {
		var k int
		list[i] = scoring.Item{Kind: scoring.Figure, Elements: make([]string, 1)}
		if _, err := fmt.Sscan(text, &list[i].Elements[0], &k); err != nil {
			panic(err)
		}
		list[i].K = scoring.K(10 * k)
	}
	return list
}

// TestSums, on paper. In the known a loop of K 10 and a turn of K 4, three
// flights with 8, 7, 6 and 5, 6, 7: means 7 and 6. The first pilot has 80 points
// of the loop, lost 20, gained 10 × (8 − 7) = 10; of the turn 20, 20 and −4. In
// the free the pilot's loops of K 10 and 20 with 9 and 6 stand beside one of K
// 10 with 5 and one of K 20 with 8: the mean is (90 + 120 + 50 + 160) / 60 = 7; the
// gain is 10 × 2 + 20 × −1 = 0. Together: loops 3, K 40, 290 points, lost 110,
// gain 10. The slide of K 5 with 4 has no field: 20 points, lost 30.
func TestSums(t *testing.T) {
	t.Parallel()
	known := figures("7.4.1.1 10", "2.1.1.1 4")
	programmes := []Programme{
		{Flights: []Flight{{known, []float64{8, 5}}, {known, []float64{7, 6}}, {known, []float64{6, 7}}}},
		{Own: true, Pilot: 1, Flights: []Flight{
			{figures("7.4.1.1 10"), []float64{5}},
			{figures("7.4.1.1 10", "7.4.1.1 20", "6.2.1.1 5"), []float64{9, 6, 4}},
			{figures("7.4.2.1 20"), []float64{8}},
		}},
		{Pilot: -1, Flights: []Flight{{known, []float64{1, 1}}}},
	}
	want := []Sum{
		{Kind: Turn, Items: 1, K: 4, Points: 20, Lost: 20, Gain: -4, Compared: 1},
		{Kind: Slide, Items: 1, K: 5, Points: 20, Lost: 30},
		{Kind: Loop, Items: 3, K: 40, Points: 290, Lost: 110, Gain: 10, Compared: 3},
	}
	if got := fmt.Sprint(Sums(programmes)); got != fmt.Sprint(want) {
		t.Errorf("%s, want %v", got, want)
	}
}

// TestTwoMakeNoField: with two flights there is nothing to compare with.
func TestTwoMakeNoField(t *testing.T) {
	t.Parallel()
	loop := figures("7.4.1.1 10")
	for _, own := range []bool{false, true} {
		got := Sums([]Programme{{Own: own, Flights: []Flight{{loop, []float64{8}}, {loop, []float64{7}}}}})
		if len(got) != 1 || got[0].Compared != 0 || got[0].Gain != 0 {
			t.Errorf("%+v", got)
		}
	}
}
