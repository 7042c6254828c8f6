package panel

import (
	"math"
	"reflect"
	"testing"
)

func TestOrderDisagreement(t *testing.T) {
	// 10, 20 and 30 points between the pairs, 60 in all.
	panel := []float64{100, 90, 70}
	for _, test := range []struct {
		name string
		own  []float64
		want float64
	}{
		{"the panel's own order", []float64{3, 2, 1}, 0},
		{"its reverse", []float64{1, 2, 3}, 100},
		{"the first two changed: 10 of 60", []float64{2, 3, 1}, 100.0 / 6},
		{"the first two tied: half of 10 of 60", []float64{2, 2, 1}, 100.0 / 12},
		{"all tied", []float64{1, 1, 1}, 50},
		{"tied but for rounding", []float64{1.1 + 2.2, 3.3, 1}, 100.0 / 12},
	} {
		if got := orderDisagreement(test.own, panel); math.Abs(got-test.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", test.name, got, test.want)
		}
	}
}

// TestUndefined lists what cannot be computed, which is NaN and never a number
// made of rounding errors.
func TestUndefined(t *testing.T) {
	flat := []float64{0.1 + 0.2, 0.3, 0.3}
	rising := []float64{1, 2, 3}
	for name, got := range map[string]float64{
		"mean of none":                    mean(nil),
		"deviation of none":               deviation(nil),
		"deviation of one":                deviation([]float64{1}),
		"pearson, all tied":               pearson(rising, flat),
		"pearson of none":                 pearson(nil, nil),
		"spearman, all tied":              spearman(flat, rising),
		"kendall, all tied":               kendall(rising, flat),
		"kendall of one":                  kendall(rising[:1], rising[:1]),
		"order of a panel that ties":      orderDisagreement(rising, flat),
		"alpha of one judge":              cronbach([][]float64{{1}, {2}}),
		"alpha without variation":         cronbach([][]float64{{0.3, 1}, {0.1 + 0.2, 1}}),
		"alpha of nothing":                cronbach(nil),
		"W of one judge":                  concordance([][]float64{{1}, {2}}),
		"W of one object":                 concordance([][]float64{{1, 2}}),
		"W of nothing":                    concordance(nil),
		"W, all tied":                     concordance([][]float64{{1, 2}, {1, 2}}),
		"permutation without own pilots":  second(permute(nil, rising, 1)),
		"permutation with own ones alone": second(permute(rising, nil, 1)),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s: %v", name, got)
		}
	}
	for _, table := range [][][]float64{nil, {{1, 2, 3}}, {{1}, {2}}, {{0.3, 0.3}, {0.1 + 0.2, 0.3}}} {
		if single, panel := intraclass(table); Number(single).Defined() || Number(panel).Defined() {
			t.Errorf("ICC of %v: %v and %v", table, single, panel)
		}
	}
}

func second(_, b float64) float64 { return b }

func TestAgreementOfOneMind(t *testing.T) {
	table := [][]float64{{1, 1, 1}, {5, 5, 5}, {2, 2, 2}, {2.5, 2.5, 2.5}}
	single, panel := intraclass(table)
	for name, got := range map[string]float64{
		"ICC(2,1)": single, "ICC(2,k)": panel, "W": concordance(table), "alpha": cronbach(table),
	} {
		if math.Abs(got-1) > 1e-12 {
			t.Errorf("%s: %v, want 1", name, got)
		}
	}
}

// TestAccuracyOfTwo: one judge is always 2 off and the other 1, at every level,
// so that the panel's own spread is √((4+1)/2) throughout.
func TestAccuracyOfTwo(t *testing.T) {
	s := &sheets{seats: 3}
	for i := range 10 {
		level := float64(i)
		s.cells = append(s.cells, cell{seat: 0, value: level, off: 2}, cell{seat: 1, value: level, off: -1})
	}
	got := s.accuracies(s.spreads())
	near(t, "accuracy", got[:2], []float64{2 / math.Sqrt(2.5), 1 / math.Sqrt(2.5)})
	if !math.IsNaN(got[2]) {
		t.Errorf("a judge without a grade: %v", got[2])
	}
}

func TestAccuracyHasALeastSpread(t *testing.T) {
	s := &sheets{seats: 1, cells: []cell{{value: 7, off: 0.125}, {value: 8, off: -0.125}}}
	near(t, "accuracy", s.accuracies(s.spreads()), []float64{0.5}) // 0.125 of 0.25
}

// TestParabolaOfFewLevels: with less than three levels the fit is the mean of
// each.
func TestParabolaOfFewLevels(t *testing.T) {
	near(t, "one level", parabola([]float64{7, 7, 7}, []float64{1, 2, 6}), []float64{3, 3, 3})
	near(t, "two levels", parabola([]float64{7, 8, 7, 8}, []float64{1, 2, 3, 6}), []float64{2, 4, 2, 4})
}

// TestLevels: of a level at which nobody graded nothing is said; the level of a
// value is the nearest whole point.
func TestLevels(t *testing.T) {
	s := &sheets{seats: 2, cells: []cell{
		{seat: 0, value: 7.4, off: 1}, {seat: 0, value: 6.6, off: -0.5}, {seat: 0, value: 8.2, off: 0.5}, {seat: 1, value: 3, off: 2},
	}}
	got := s.levels(0, []float64{1, 2, 0.5, 4})
	want := []Level{
		{Level: 7, Grades: 2, Mean: 0.25, Distance: math.Sqrt(1.25 / 2), Spread: math.Sqrt(5.0 / 2)}, // 1 - 0.5; 1 + 0.25; 1 + 4
		{Level: 8, Grades: 1, Mean: 0.5, Distance: 0.5, Spread: 0.5},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}
