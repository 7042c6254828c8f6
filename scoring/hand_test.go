package scoring

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
)

// byHand is a known programme of so many items of K 10, made of sheets by
// flight, then seat.
func byHand(t *testing.T, method Method, items int, flights ...[]string) *Programme {
	t.Helper()
	p := &Programme{ID: "known", Kind: Known, Counts: true, Method: method, Sequence: &Sequence{}}
	for range items {
		p.Sequence.Items = append(p.Sequence.Items, Item{Kind: Figure, K: 100})
	}
	for seat := range flights[0] {
		p.Panel = append(p.Panel, fmt.Sprint("j", seat+1))
	}
	for i, sheets := range flights {
		f := Flight{Pilot: fmt.Sprint("p", i+1), Status: Flown}
		for seat, text := range sheets {
			f.Sheets = append(f.Sheets, sheetOf(t, p.Panel[seat], text))
		}
		p.Flights = append(p.Flights, f)
	}
	return p
}

// oneItem is a programme of one item: the grades of a flight in one text.
func oneItem(t *testing.T, method Method, flights ...string) *Programme {
	t.Helper()
	sheets := make([][]string, len(flights))
	for i, text := range flights {
		sheets[i] = strings.Fields(text)
	}
	return byHand(t, method, 1, sheets...)
}

func scored(p *Programme) ProgrammeResult {
	return ScoreProgramme(&Category{Programmes: []Programme{*p}}, 0)
}

func equal(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// reasonsOf lists the cells of a flight: item, judge, used value and reason.
func reasonsOf(f *FlightResult) string {
	var cells []string
	for _, c := range f.Cells {
		cells = append(cells, fmt.Sprintf("%d %s %.3f %s", c.Item, c.Judge, c.Used, c.Reason))
	}
	return strings.Join(cells, "; ")
}

// TestTradeArithmetic: common practice, no source. 8.0 on a K of 10 is 80
// points, and a level roll's K of 10 is 2 for the line and 8 for the roll: the
// same figure as two items would be worth as much.
func TestTradeArithmetic(t *testing.T) {
	roll := scored(oneItem(t, DefaultMethod(Mean), "8.0")).Flights[0]
	equal(t, "a level roll", roll.Score, 80)
	equal(t, "in percent", roll.Percent, 80)
	parts := byHand(t, DefaultMethod(Mean), 2, []string{"8.0 8.0"})
	parts.Sequence.Items[0].K, parts.Sequence.Items[1].K = 20, 80
	equal(t, "line and roll", scored(parts).Flights[0].Score, 80)
}

// By hand: item 1 is (8 + 7) / 2 = 7.5, the gap filled with it, item 2 is
// (6 + 7 + 6.5) / 3 = 6.5, so that K 10 each make 140. The seats have 145 (75
// filled in), 140 and 135. With no other flight their levels are these totals,
// and nothing is left of them to differ by.
func TestMeanByHand(t *testing.T) {
	f := scored(byHand(t, DefaultMethod(Mean), 2, []string{"8 6", "7 7", "A 6.5"})).Flights[0]
	equal(t, "score", f.PanelScore, 140)
	equal(t, "raw total with a gap", f.Seats[2].RawTotal, 65)
	equal(t, "used total with a gap", f.Seats[2].UsedTotal, 140)
	equal(t, "share", f.Seats[0].Weight, 1.0/3)
	equal(t, "standard error", f.StandardError, 0)
	if got := reasonsOf(&f); got != "1 j3 7.500 not seen" {
		t.Errorf("cells: %s", got)
	}
}

// By hand: the seats' totals are 80, 60 and 70, 80; their levels 75 and 70. What
// they differ by beyond these is 5, -10 in the first flight: a sample standard
// deviation of 15/√2, by √2 for two seats: 7.5. Likewise -5, 10.
func TestStandardErrorByHand(t *testing.T) {
	r := scored(oneItem(t, DefaultMethod(Mean), "8 6", "7 8"))
	equal(t, "first", r.Flights[0].StandardError, 7.5)
	equal(t, "second", r.Flights[1].StandardError, 7.5)
}

// By hand, of five seats: the lowest and the highest go. Equal grades go by
// seat: the first of them is the lowest. Of four grades none can go, since three
// have to remain.
func TestTrimmedMeanByHand(t *testing.T) {
	r := scored(oneItem(t, DefaultMethod(TrimmedMean), "5 7 8 8 9.5", "8 8 8 8 8", "5 7 A 8 9", "PZ PZ PZ 8 7"))
	for i, want := range []struct {
		score float64
		cells string
	}{
		{10 * 23.0 / 3, "1 j1 5.000 trimmed; 1 j5 9.500 trimmed"},
		{80, "1 j1 8.000 trimmed; 1 j5 8.000 trimmed"},
		{72.5, "1 j3 7.250 not seen"},
		{10 * 7.0 / 3, "1 j1 0.000 trimmed; 1 j4 8.000 trimmed"},
	} {
		f := &r.Flights[i]
		equal(t, f.Pilot, f.PanelScore, want.score)
		if got := reasonsOf(f); got != want.cells {
			t.Errorf("%s: cells %q, want %q", f.Pilot, got, want.cells)
		}
	}
}

// By hand, with trim 2 of seven seats: 6, 7 and 7 remain.
func TestTrimOfTwo(t *testing.T) {
	m := DefaultMethod(TrimmedMean)
	m.Trim = 2
	equal(t, "score", scored(oneItem(t, m, "0 10 6 7 7 2 9")).Flights[0].PanelScore, 10*20.0/3)
}

// By hand: the seats' means are 70, 75, 70 and 70, the mean of these 71.25.
// Their deviations are d, d, d/2 and 0 with d² = 250, so that S = 0.75 d: the
// first two are stretched by 0.75, the third by 1.5, the fourth, which has no
// spread, is only moved. All three then have -15, -7.5, 0, 7.5 and 15 about
// the mean, the fourth 0: three quarters of these are the scores.
func TestNormalisedByHand(t *testing.T) {
	r := scored(oneItem(t, DefaultMethod(Normalised), "5 5.5 6 7", "6 6.5 6.5 7", "7 7.5 7 7", "8 8.5 7.5 7", "9 9.5 8 7"))
	for i, want := range []float64{60, 65.625, 71.25, 76.875, 82.5} {
		f := &r.Flights[i]
		equal(t, f.Pilot, f.PanelScore, want)
		equal(t, f.Pilot+": third seat", f.Seats[2].UsedTotal, 71.25+7.5*float64(i-2))
		equal(t, f.Pilot+": fourth seat", f.Seats[3].UsedTotal, 71.25)
	}
	if r.Fallback != "" {
		t.Errorf("instead: %s", r.Fallback)
	}
}

// Four seats give the same, the fifth another grade once. Matched to the
// others' mean and deviation it is off everywhere, by 1.789 deviations of five
// values, (5-1)/√5, and may lose half of its six flights: the first three.
func TestNormalisedKeepsHalfOfASeat(t *testing.T) {
	r := scored(oneItem(t, DefaultMethod(Normalised), "5 5 5 5 5", "6 6 6 6 6", "7 7 7 7 7", "8 8 8 8 8", "9 9 9 9 9", "6 6 6 6 3"))
	for i := range r.Flights {
		if discarded := r.Flights[i].Seats[4].Discarded; discarded != (i < 3) {
			t.Errorf("%s: discarded %v", r.Flights[i].Pilot, discarded)
		}
	}
}

// The fourth seat gives everybody 7, and is only moved: seven times 7.7 by seven
// is not 7.7 in doubles, and no spread. By hand: all means are 7.7; the first
// three seats have the deviation s, S = s·√(3/4), so that 3.3 below is 3.3·√(3/4).
func TestNormalisedWithoutASpread(t *testing.T) {
	p := oneItem(t, DefaultMethod(Normalised), "4 4 4 7", "5 5 5 7", "6 6 6 7", "7 7 7 7", "8 8 8 7", "9 9 9 7", "10 10 10 7")
	p.Sequence.Items[0].K = 11
	r := scored(p)
	for _, f := range r.Flights {
		equal(t, f.Pilot+": fourth seat", f.Seats[3].UsedTotal, 7.7)
	}
	equal(t, "first flight", r.Flights[0].PanelScore, 7.7-3.3*math.Sqrt(0.75)*3/4)
}

// Where all seats agree none is farther than the others, whatever doubles make
// of their mean.
func TestNormalisedDiscardsNoneOfEqualTotals(t *testing.T) {
	method := DefaultMethod(Normalised)
	method.Discard = 0.5
	p := oneItem(t, method, "6 6 6 6 6 6 6", "6.5 6.5 6.5 6.5 6.5 6.5 6.5", "7 7 7 7 7 7 7", "8 8 8 8 8 8 8", "9 9 9 9 9 9 9")
	p.Sequence.Items[0].K = 11
	r := scored(p)
	for _, f := range r.Flights {
		for _, seat := range f.Seats {
			if seat.Discarded {
				t.Errorf("%s: %s is discarded", f.Pilot, seat.Judge)
			}
		}
	}
}

// A seat that is absent, or saw nothing, has no total: 0, and discarded.
func TestNormalisedWithoutATotal(t *testing.T) {
	r := scored(oneItem(t, DefaultMethod(Normalised), "5 5 5 6 absent", "6 6 6 7 A", "7 7 7 8 7", "8 8 8 9 8", "9 9 9 10 9"))
	for _, f := range r.Flights[:2] {
		if seat := f.Seats[4]; !seat.Discarded || seat.UsedTotal != 0 {
			t.Errorf("%s: %+v", f.Pilot, seat)
		}
	}
}

// unanimous is five flights that four seats agree on but for their levels.
var unanimous = []string{"5 5.5 6 5.5", "6 6.5 7 6.5", "7 7.5 8 7.5", "8 8.5 9 8.5", "9 9.5 10 9.5"}

// By hand: only levels differ, so that each row's consensus is its mean, every
// grade has all trust and all seats weigh the same. Each seat's variance is the
// least, 0.25²; the standard error is 10 × √(4 × (1/4)² × 0.25²) = 1.25.
func TestConsensusByHand(t *testing.T) {
	r := scored(oneItem(t, DefaultMethod(Consensus), unanimous...))
	for i, f := range r.Flights {
		equal(t, f.Pilot, f.PanelScore, 55+10*float64(i))
		equal(t, f.Pilot+": standard error", f.StandardError, 1.25)
		for _, seat := range f.Seats {
			equal(t, f.Pilot+": share", seat.Weight, 0.25)
		}
		for _, c := range f.Cells {
			equal(t, f.Pilot+": trust", c.Weight, 1)
			equal(t, f.Pilot+": used", c.Used, c.Fitted)
		}
	}
}

// By hand: of five seats that agree the last is three points off in the third
// flight. It has no trust, and as if it were not there all others do; its own
// grade still counts for how exact its seat is: 3 × 0.25 points squared, of 5
// cells less 1 group, by 1 - 1/5.
func TestConsensusWithoutABlunder(t *testing.T) {
	m := DefaultMethod(Consensus)
	m.Style, m.SeatWeights = false, Equal
	r := scored(oneItem(t, m, "5 5 5 5 5", "6 6 6 6 6", "7 7 7 7 4", "8 8 8 8 8", "9 9 9 9 9"))
	for i, f := range r.Flights {
		equal(t, f.Pilot, f.PanelScore, 50+10*float64(i))
	}
	blunder := cellWith(r.Flights[2].Cells, ReasonOutlier)
	if blunder.Judge != "j5" || blunder.Weight != 0 {
		t.Errorf("the outlier is %+v", blunder)
	}
	equal(t, "used", blunder.Used, 4)
	equal(t, "fitted", blunder.Fitted, 7)
	least, last := 0.25*0.25, 0.75*0.75/4/(1-1.0/5)
	equal(t, "standard error of four", r.Flights[2].StandardError, 10*math.Sqrt(4*least/16))
	equal(t, "standard error of five", r.Flights[0].StandardError, 10*math.Sqrt((4*least+last)/25))
}

// By hand: a gap has the consensus of its row, and stays out of it; a row of
// zeros counts 0 and is not fitted.
func TestConsensusAroundGapsAndZeros(t *testing.T) {
	flights := make([][]string, len(unanimous))
	for i, text := range unanimous {
		for _, grade := range strings.Fields(text) {
			flights[i] = append(flights[i], grade+" "+grade)
		}
	}
	flights[0] = []string{"5 HZ", "5.5 HZ", "6 HZ", "A 7"}
	flights[1] = []string{"6 0", "6.5 0", "7 0", "6.5 PZ"}
	m := DefaultMethod(Consensus)
	m.Style = false
	r := scored(byHand(t, m, 2, flights...))
	equal(t, "a confirmed hard zero", r.Flights[0].PanelScore, 55)
	equal(t, "zeros only", r.Flights[1].PanelScore, 65)
	equal(t, "neither", r.Flights[2].PanelScore, 150)
	gap := cellWith(r.Flights[0].Cells, ReasonNotSeen)
	equal(t, "gap", gap.Used, 5.5)
	equal(t, "trust of a gap", gap.Weight, 0)
	for _, c := range append(r.Flights[0].Cells, r.Flights[1].Cells...) {
		if c.Item == 2 && (c.Trust != nil || c.Used != 0) {
			t.Errorf("a row of zeros: %+v", c)
		}
	}
}

func cellWith(cells []CellResult, reason Reason) CellResult {
	i := slices.IndexFunc(cells, func(c CellResult) bool { return c.Reason == reason })
	return cells[i]
}

// TestTooFew: with too few seats or flights the mean is taken, and that is said.
func TestTooFew(t *testing.T) {
	five := []string{"8 7 6 7", "8 7 6 7", "8 7 6 7", "8 7 6 7", "8 7 6 7"}
	var three []string
	for _, text := range five {
		three = append(three, text[:len("8 7 6")])
	}
	for _, c := range []struct {
		method   string
		flights  []string
		fallback string
	}{
		{Consensus, five, ""},
		{Consensus, five[:4], Mean},
		{Consensus, three, Mean},
		{Normalised, five, ""},
		{Normalised, five[:4], Mean},
		{Normalised, three, Mean},
		{TrimmedMean, five, Mean},
		{TrimmedMean, []string{"8 7 6 7 7"}, ""},
		{Mean, three[:1], ""},
		{Consensus, []string{"8 7 6 A", "8 7 6 A", "8 7 6 A", "8 7 6 A", "8 7 6 absent"}, Mean},
	} {
		r := scored(oneItem(t, DefaultMethod(c.method), c.flights...))
		if r.Fallback != c.fallback || r.Method != c.method {
			t.Errorf("%s for %q: %q instead", r.Method, c.flights, r.Fallback)
		}
		if want := 70.0; c.fallback == Mean {
			equal(t, c.method, r.Flights[0].PanelScore, want)
		}
	}
}
