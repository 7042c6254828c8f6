package study

import (
	"math"
	"math/rand/v2"
	"slices"
)

// limit scores the flights knowing each judge's level, taste, spread, lean and
// exactness, and which grades are blunders: readings weighted by how exact
// they are. The deviations are the scores' standard errors.
func (c *Contest) limit() (scores, deviations []float64) {
	scores, deviations = make([]float64, len(c.readings)), make([]float64, len(c.readings))
	for p, items := range c.readings {
		for i, readings := range items {
			k := float64(c.items[i].K) / 10
			value, variance := c.bestReading(readings)
			scores[p] += k * value
			deviations[p] += k * k * variance
		}
		deviations[p] = math.Sqrt(deviations[p])
	}
	return scores, deviations
}

// bestReading is the readings' mean, each weighted by its precision; middle
// where all are blunders.
func (c *Contest) bestReading(readings []float64) (value, variance float64) {
	sum, precision := 0.0, 0.0
	for j, reading := range readings {
		if math.IsNaN(reading) {
			continue
		}
		one := &c.judges[j]
		p := one.spread * one.spread / (one.deviation*one.deviation + rounding)
		sum += p * reading
		precision += p
	}
	if precision == 0 {
		return middle, form * form
	}
	return sum / precision, 1 / precision
}

// draws is how often scores are drawn for rank intervals.
const draws = 2000

// intervals gives the central 90 % of each pilot's ranks when scores are drawn
// about what they are, the way results do it.
func intervals(scores, deviations []float64, seed uint64) (low, high []int) {
	r := rand.New(rand.NewPCG(seed, 0x5d2))
	drawn := make([][]int, len(scores)) // by pilot
	at := make([]float64, len(scores))
	for range draws {
		for p := range at {
			at[p] = scores[p] + deviations[p]*r.NormFloat64()
		}
		for p, rank := range ranks(at) {
			drawn[p] = append(drawn[p], rank)
		}
	}
	low, high = make([]int, len(scores)), make([]int, len(scores))
	for p := range drawn {
		slices.Sort(drawn[p])
		low[p], high[p] = drawn[p][draws/20], drawn[p][draws-1-draws/20]
	}
	return low, high
}
