package scoring

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// hundredths is a published score, percentage or total: two decimals, exactly.
type hundredths int64

func (h hundredths) float() float64 { return float64(h) / 100 }

// published rounds to two decimals, half away from zero, on the shortest
// decimal text that reads back as the same double: 1.005 becomes 1.01.
func published(x float64) hundredths {
	text := strconv.AppendFloat(nil, math.Abs(x), 'f', -1, 64)
	dot := slices.Index(text, '.')
	if dot < 0 {
		text, dot = append(text, '.'), len(text)
	}
	text = append(text, "000"...)
	whole, _ := strconv.ParseInt(string(text[:dot])+string(text[dot+1:dot+3]), 10, 64)
	if text[dot+3] >= '5' {
		whole++
	}
	if x < 0 {
		whole = -whole
	}
	return hundredths(whole)
}

// sumOfK adds up the K of all items, in tenths: also 10 × ΣK in points, the
// best possible score.
func sumOfK(items []Item) (tenths K) {
	for i := range items {
		tenths += items[i].K
	}
	return tenths
}

// percentOf is how much of the best possible score a published score is, from
// the exact fraction, rounded half away from zero.
func percentOf(score hundredths, k K) hundredths {
	if k == 0 {
		return 0
	}
	whole := hundredths(k)
	return (2*100*score + whole) / (2 * whole)
}

// A round is the published side of one programme.
type round struct {
	programme *Programme
	flights   []roundFlight // as the programme's
}

type roundFlight struct {
	pilot     string
	published bool // it has a score
	judged    bool // the panel gave it
	score     hundredths
	percent   hundredths
	deviation float64 // standard error of the score
	best      float64 // the best possible score, 10 × ΣK
}

// publish takes penalties off a panel score and rounds it.
func (r *round) publish(f *CleanFlight, fit *flightFit) {
	score := published(max(0, fit.panelScore-penalties(f.Flight)))
	k := sumOfK(f.Items)
	r.flights = append(r.flights, roundFlight{
		pilot: f.Flight.Pilot, published: true, judged: true,
		score: score, percent: percentOf(score, k), deviation: fit.standardError, best: float64(k),
	})
}

// publishZero is the score of a flight that was not flown.
func (r *round) publishZero(f *CleanFlight) {
	r.flights = append(r.flights, roundFlight{pilot: f.Flight.Pilot, published: true})
}

// publishNothing is a flight that waits for grades or for a decision.
func (r *round) publishNothing(f *CleanFlight) {
	r.flights = append(r.flights, roundFlight{pilot: f.Flight.Pilot})
}

// of is a pilot's flight; one that has none has no score.
func (r *round) of(pilot string) roundFlight {
	for _, f := range r.flights {
		if f.pilot == pilot {
			return f
		}
	}
	return roundFlight{}
}

// ranksOf ranks indices by an order, equal ones sharing a rank and the next
// rank skipped. Ranks count from 1.
func ranksOf(indices []int, order func(a, b int) int) map[int]int {
	sorted := slices.SortedStableFunc(slices.Values(indices), order)
	ranks := make(map[int]int, len(sorted))
	for i, index := range sorted {
		if i > 0 && order(sorted[i-1], index) == 0 {
			ranks[index] = ranks[sorted[i-1]]
		} else {
			ranks[index] = i + 1
		}
	}
	return ranks
}

// best orders higher values first.
func best[T cmp.Ordered](a, b T) int { return cmp.Compare(b, a) }
