package study

import (
	"math"
	"reflect"
	"slices"
	"testing"
)

// by gives the outcomes their methods' names.
func by(outcomes []Outcome) map[string]Outcome {
	named := map[string]Outcome{}
	for i, name := range Methods() {
		named[name] = outcomes[i]
	}
	return named
}

// TestOrderOfMethods holds what docs/accuracy.md says about the order of the
// methods, with few contests and wide margins. The seeds are fixed.
func TestOrderOfMethods(t *testing.T) {
	scenarios := Scenarios()
	all := by(Run(scenarios[len(scenarios)-1], 20))
	mean, trimmed, consensus, limit := all["mean"], all["trimmed-mean"], all["consensus"], all[Limit]
	if !(limit.RankError < 1.02*consensus.RankError && consensus.RankError < 0.9*mean.RankError) {
		t.Errorf("rank errors: limit %v, consensus %v, mean %v", limit.RankError, consensus.RankError, mean.RankError)
	}
	if !(consensus.RankError < trimmed.RankError && trimmed.RankError < mean.RankError) {
		t.Errorf("rank errors: consensus %v, trimmed %v, mean %v", consensus.RankError, trimmed.RankError, mean.RankError)
	}
	if !(consensus.Tau > mean.Tau && consensus.Tau > all["normalised"].Tau) {
		t.Errorf("tau: consensus %v, mean %v, normalised %v", consensus.Tau, mean.Tau, all["normalised"].Tau)
	}
	if !(consensus.Coverage > 0.88 && consensus.Coverage < 0.999) {
		t.Errorf("the consensus's intervals cover %v of the true ranks", consensus.Coverage)
	}
}

// TestCleanPanel: where nothing is wrong with a panel the consensus costs
// nothing.
func TestCleanPanel(t *testing.T) {
	clean := by(Run(Scenarios()[0], 12))
	if mean, consensus := clean["mean"].RankError, clean["consensus"].RankError; !(consensus < 1.03*mean) {
		t.Errorf("rank errors: consensus %v, mean %v", consensus, mean)
	}
}

func TestSameSeedSameContest(t *testing.T) {
	s := Scenarios()[len(Scenarios())-1]
	if a, b := Simulate(s, 7), Simulate(s, 7); !reflect.DeepEqual(a.Truth, b.Truth) || !reflect.DeepEqual(a.Category, b.Category) {
		t.Error("two contests of one seed differ")
	}
	if a, b := Simulate(s, 7), Simulate(s, 8); reflect.DeepEqual(a.Truth, b.Truth) {
		t.Error("the contests of two seeds are the same")
	}
}

// TestFieldsAndPanels: contests are as large as they are said to be.
func TestFieldsAndPanels(t *testing.T) {
	pilots, seats := map[int]bool{}, map[int]bool{}
	for seed := range uint64(300) {
		c := Simulate(Scenarios()[0], seed)
		pilots[len(c.Truth)], seats[len(c.judges)] = true, true
	}
	for n := range pilots {
		if n < 5 || n > 60 {
			t.Errorf("a field of %d", n)
		}
	}
	if len(pilots) < 40 || len(seats) != 7 || !seats[4] || !seats[10] {
		t.Errorf("%d sizes of fields, panels %v", len(pilots), seats)
	}
}

// Made by hand: the middle two of four change places, then a tie.
func TestMeasures(t *testing.T) {
	truth := []float64{40, 30, 20, 10}
	if got := rankError(ranks([]float64{9, 7, 8, 1}), ranks(truth)); got != 0.5 {
		t.Errorf("rank error %v, want 2 places of 4 pilots", got)
	}
	if got := tau([]float64{9, 7, 8, 1}, truth); math.Abs(got-4.0/6) > 1e-12 {
		t.Errorf("tau %v, want (5 - 1)/6", got)
	}
	if got := tau([]float64{9, 7, 7, 1}, truth); math.Abs(got-5.0/6) > 1e-12 {
		t.Errorf("tau with a tie %v, want 5/6", got)
	}
	if got := ranks([]float64{5, 7, 5}); !slices.Equal(got, []int{2, 1, 2}) {
		t.Errorf("ranks %v", got)
	}
}

// Made by hand: the first pilot is out of reach; of two level pilots each is
// before the other half of the time.
func TestIntervals(t *testing.T) {
	low, high := intervals([]float64{100, 50, 50}, []float64{1, 1, 1}, 1)
	if !slices.Equal(low, []int{1, 2, 2}) || !slices.Equal(high, []int{1, 3, 3}) {
		t.Errorf("from %v to %v", low, high)
	}
}

// Made by hand: precisions of 1 and 4, without the blunder.
func TestBestReading(t *testing.T) {
	exact := func(variance float64) float64 { return math.Sqrt(variance - rounding) }
	c := &Contest{judges: []judge{{spread: 1, deviation: exact(1)}, {spread: 2, deviation: exact(1)}, {spread: 1, deviation: 1}}}
	value, variance := c.bestReading([]float64{5, 10, math.NaN()})
	if math.Abs(value-9) > 1e-12 || math.Abs(variance-0.2) > 1e-12 {
		t.Errorf("%v with variance %v, want 9 with 0.2", value, variance)
	}
}
