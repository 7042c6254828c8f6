// Package study measures how well each method finds a true order. It simulates
// contests whose truth is known, lets panels with known faults grade them, and
// holds what the methods publish against the truth. Everything is seeded: the
// same study gives the same numbers.
//
// Beside the methods stands the limit: what could be had if everything about
// the judges were known, which no method can know.
package study

import (
	"runtime"
	"sync"

	"halfpoint/scoring"
)

// Limit is the name of what could be had if all about the judges were known.
const Limit = "limit"

// Methods lists what is measured, the limit last.
func Methods() []string {
	return []string{scoring.Mean, scoring.TrimmedMean, scoring.Normalised, scoring.Consensus, Limit}
}

// An Outcome is how well a method did, on the mean over contests.
type Outcome struct {
	RankError float64 // places between a pilot's rank and the true one, over the pilots
	Tau       float64 // Kendall's, of the scores and the truth
	Coverage  float64 // share of pilots whose true rank is inside the 90 % interval
}

// Run simulates so many contests and gives the outcome of each of Methods.
func Run(s Scenario, contests int) []Outcome {
	each := make([][]Outcome, contests)
	var workers sync.WaitGroup
	for worker := range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for seed := worker; seed < contests; seed += runtime.GOMAXPROCS(0) {
				each[seed] = measure(Simulate(s, uint64(seed)), uint64(seed))
			}
		})
	}
	workers.Wait()
	return meanOutcomes(each)
}

// measure scores a contest by every method and holds it against the truth.
func measure(c *Contest, seed uint64) []Outcome {
	truth := ranks(c.Truth)
	outcomes := make([]Outcome, 0, len(Methods()))
	for index := range c.Category.Programmes {
		result := scoring.ScoreProgramme(&c.Category, index)
		outcomes = append(outcomes, standingOf(&result).outcome(c.Truth, truth))
	}
	scores, deviations := c.limit()
	limit := standing{scores: scores, ranks: ranks(scores)}
	limit.low, limit.high = intervals(scores, deviations, seed)
	return append(outcomes, limit.outcome(c.Truth, truth))
}

// A standing is what a method makes of a contest, by flight.
type standing struct {
	scores           []float64
	ranks, low, high []int
}

func standingOf(result *scoring.ProgrammeResult) *standing {
	s := &standing{}
	for _, f := range result.Flights {
		s.scores = append(s.scores, f.Score)
		s.ranks = append(s.ranks, *f.Rank)
		s.low, s.high = append(s.low, f.RankLow), append(s.high, f.RankHigh)
	}
	return s
}

// outcome holds a standing against the truth.
func (s *standing) outcome(truth []float64, trueRanks []int) Outcome {
	covered := 0
	for i, rank := range trueRanks {
		if s.low[i] <= rank && rank <= s.high[i] {
			covered++
		}
	}
	return Outcome{
		RankError: rankError(s.ranks, trueRanks), Tau: tau(s.scores, truth),
		Coverage: float64(covered) / float64(len(trueRanks)),
	}
}

func meanOutcomes(each [][]Outcome) []Outcome {
	means := make([]Outcome, len(Methods()))
	n := float64(len(each))
	for _, outcomes := range each {
		for i, o := range outcomes {
			means[i].RankError += o.RankError / n
			means[i].Tau += o.Tau / n
			means[i].Coverage += o.Coverage / n
		}
	}
	return means
}

// ranks counts from 1 for the highest score; equal scores share a rank.
func ranks(scores []float64) []int {
	ranks := make([]int, len(scores))
	for i, x := range scores {
		ranks[i] = 1
		for _, other := range scores {
			if other > x {
				ranks[i]++
			}
		}
	}
	return ranks
}

// rankError is the mean number of places between two rankings of one field.
func rankError(a, b []int) float64 {
	places := 0
	for i := range a {
		places += max(a[i]-b[i], b[i]-a[i])
	}
	return float64(places) / float64(len(a))
}

// tau is Kendall's rank correlation: pairs in the same order less pairs in the
// opposite one, as a share of all. Scores that tie count 0.
func tau(a, b []float64) float64 {
	sum, pairs := 0, 0
	for i := range a {
		for j := range i {
			pairs++
			switch product := (a[i] - a[j]) * (b[i] - b[j]); {
			case product > 0:
				sum++
			case product < 0:
				sum--
			}
		}
	}
	return float64(sum) / float64(pairs)
}
