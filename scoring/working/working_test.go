package working_test

import (
	"fmt"
	"math"
	"math/big"
	"os"
	"path/filepath"
	"testing"

	"halfpoint/scoring"
	"halfpoint/scoring/working"
)

// TestWorkingsAddUp goes through every flight of the invented contests with
// nothing but what is shown, in exact decimal arithmetic as on paper: the end is
// the published score and percentage to the last digit, and each value of an item
// and each moved total comes out to one in its last place.
func TestWorkingsAddUp(t *testing.T) {
	t.Parallel()
	seen := map[string]int{}
	for _, path := range bundles(t) {
		bundle := read(t, path)
		results := scoring.Score(bundle)
		for i := range bundle.Categories {
			for j := range bundle.Categories[i].Programmes {
				programme, result := &bundle.Categories[i].Programmes[j], &results.Categories[i].Programmes[j]
				for flight := range result.Flights {
					w, ok := working.Of(programme, result, flight)
					if ok != (result.Flights[flight].Judged != nil) {
						t.Errorf("%s: flight %d has a working: %v", path, flight, ok)
					}
					if ok {
						place := fmt.Sprintf("%s %s flight %d by %s", filepath.Base(path), programme.ID, flight, w.Method)
						check(t, place, w)
						seen[w.Method]++
					}
				}
			}
		}
	}
	for _, method := range []string{scoring.Mean, scoring.TrimmedMean, scoring.Normalised, scoring.Consensus} {
		if seen[method] < 10 {
			t.Errorf("%d flights by %s", seen[method], method)
		}
	}
}

func bundles(t *testing.T) []string {
	t.Helper()
	var all []string
	for _, folder := range []string{"cases", "method"} {
		found, err := filepath.Glob("../../testdata/" + folder + "/*.bundle.json")
		if err != nil || len(found) == 0 {
			t.Fatalf("no bundles in %s: %v", folder, err)
		}
		all = append(all, found...)
	}
	return all
}

func read(t *testing.T, path string) *scoring.Bundle {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	bundle, err := scoring.ReadBundle(file)
	if err != nil {
		t.Fatal(err)
	}
	return bundle
}

// shown is a number as the page writes it, with so many decimals.
func shown(x float64, decimals int) *big.Rat {
	r, ok := new(big.Rat).SetString(fmt.Sprintf("%.*f", decimals, x))
	if !ok {
		panic(x)
	}
	return r
}

// check does the arithmetic of a page.
func check(t *testing.T, place string, w *working.Working) {
	t.Helper()
	sum := new(big.Rat)
	for i := range w.Rows {
		checkRow(t, fmt.Sprintf("%s, item %d", place, i+1), w, &w.Rows[i])
		sum.Add(sum, shown(w.Rows[i].Points, w.Decimals))
	}
	if w.Method == scoring.Normalised && w.Rows[0].How == working.Apart {
		sum = checkTotals(t, place, w)
	}
	score := sum.Sub(sum, shown(w.Penalties, 4))
	if score.Sign() < 0 {
		score = new(big.Rat)
	}
	if score.FloatString(2) != fmt.Sprintf("%.2f", w.Score) {
		t.Errorf("%s: %s by hand, published %.2f", place, score.FloatString(4), w.Score)
	}
	percent := new(big.Rat).Quo(shown(100*w.Score, 2), shown(w.Best, 1))
	if percent.FloatString(2) != fmt.Sprintf("%.2f", w.Percent) {
		t.Errorf("%s: %s percent by hand, published %.2f", place, percent.FloatString(2), w.Percent)
	}
}

func checkRow(t *testing.T, place string, w *working.Working, row *working.Row) {
	t.Helper()
	up, down := new(big.Rat), new(big.Rat)
	for seat, g := range row.Grades {
		if !g.Counts {
			continue
		}
		weight := big.NewRat(1, 1)
		if row.How == working.ByTrust {
			weight.Mul(shown(w.Seats[seat].Share, w.Factors), shown(g.Trust, w.Factors))
		}
		down.Add(down, weight)
		up.Add(up, weight.Mul(weight, shown(g.Used, w.Factors)))
	}
	if row.How == working.ByMean || row.How == working.ByTrust {
		near(t, place, held(up.Quo(up, down)), shown(row.Value, w.Decimals), w.Decimals)
	}
	if row.How != working.Apart {
		points := new(big.Rat).Mul(shown(row.K, 1), shown(row.Value, w.Decimals))
		near(t, place+", points", points, shown(row.Points, w.Decimals), w.Decimals)
	}
}

// held is a value between 0 and 10.
func held(value *big.Rat) *big.Rat {
	if ten := big.NewRat(10, 1); value.Cmp(ten) > 0 {
		return ten
	}
	if value.Sign() < 0 {
		return new(big.Rat)
	}
	return value
}

// near holds a value by hand to the one shown, to one in its last place.
func near(t *testing.T, place string, byHand, want *big.Rat, decimals int) {
	t.Helper()
	got, _ := byHand.Float64()
	to, _ := want.Float64()
	if !(math.Abs(got-to) <= math.Pow10(-decimals)*1.0001) {
		t.Errorf("%s: %v by hand, shown %.*f", place, got, decimals, to)
	}
}

// checkTotals moves the totals, and gives the mean of those that count.
func checkTotals(t *testing.T, place string, w *working.Working) *big.Rat {
	t.Helper()
	sum, n := new(big.Rat), int64(0)
	for seat, s := range w.Seats {
		if !s.Graded {
			continue
		}
		place := fmt.Sprintf("%s, seat %d", place, seat+1)
		total := new(big.Rat)
		for i := range w.Rows {
			used := shown(w.Rows[i].Grades[seat].Used, w.Factors)
			total.Add(total, used.Mul(used, shown(w.Rows[i].K, 1)))
		}
		near(t, place+", total", total, shown(s.Total, w.Factors), w.Decimals)
		z := new(big.Rat).Sub(shown(s.Total, w.Factors), shown(s.Mean, w.Factors))
		if s.Deviation != 0 {
			z.Mul(z, shown(w.Level.Spread, w.Factors)).Quo(z, shown(s.Deviation, w.Factors))
		}
		near(t, place+", moved", z.Add(z, shown(w.Level.Mean, w.Factors)), shown(s.Moved, w.Decimals), w.Decimals)
		if !s.Discarded {
			sum.Add(sum, shown(s.Moved, w.Decimals))
			n++
		}
	}
	return sum.Quo(sum, big.NewRat(n, 1))
}

// TestWorkingOfTheExample holds the numbers of the first table in
// docs/method.md: 7.40, 7.00 and 8.00 make 133.20, 70.00 and 48.00; less 20 these
// are 231.20 of 340, which is 68.00 percent.
func TestWorkingOfTheExample(t *testing.T) {
	t.Parallel()
	bundle := read(t, "../../testdata/method/worked.bundle.json")
	results := scoring.Score(bundle)
	w, ok := working.Of(&bundle.Categories[0].Programmes[0], &results.Categories[0].Programmes[0], 0)
	if !ok {
		t.Fatal("no working")
	}
	got := fmt.Sprint(w.Decimals, w.Sum, w.Penalties, w.Score, w.Best, w.Percent)
	for _, row := range w.Rows {
		got += fmt.Sprint(" ", row.Value, "x", row.K, "=", row.Points)
	}
	if want := "2 251.2 20 231.2 340 68 7.4x18=133.2 7x10=70 8x6=48"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestTrimmedHasAnotherReason: a zero by majority that is trimmed as well does
// not count, though its reason says something else. By hand: of 0, 0, 0, 5.0, 6.0
// the first 0 and the 6.0 go, which leaves 5/3 = 1.67; the hard zeros are two of
// five, no majority, and with the 0.0 most of the panel.
func TestTrimmedHasAnotherReason(t *testing.T) {
	t.Parallel()
	item := scoring.Item{Kind: scoring.Figure, K: 100}
	programme := scoring.Programme{
		ID: "p", Kind: scoring.Known, Method: scoring.DefaultMethod(scoring.TrimmedMean), Panel: []string{"a", "b", "c", "d", "e"},
		Sequence: &scoring.Sequence{Items: []scoring.Item{item}}, Flights: []scoring.Flight{{Pilot: "x", Status: scoring.Flown}},
	}
	for i, g := range []scoring.Grade{scoring.HardZero, scoring.HardZero, 0, 10, 12} {
		programme.Flights[0].Sheets = append(programme.Flights[0].Sheets, scoring.Sheet{Judge: programme.Panel[i], Grades: []scoring.Grade{g}})
	}
	category := scoring.Category{ID: "c", Entries: []scoring.Entry{{Pilot: "x", Ranked: true}}, Programmes: []scoring.Programme{programme}}
	result := scoring.ScoreProgramme(&category, 0)
	w, ok := working.Of(&category.Programmes[0], &result, 0)
	if !ok || w.Score != 16.67 {
		t.Fatalf("a score of %v", w)
	}
	check(t, "a trimmed zero", w)
}
