package panel

import (
	"math"
	"math/rand/v2"

	"halfpoint/scoring"
)

// The permutations of the affiliation test, and where their generator starts.
const (
	permutations    = 10_000
	permutationSeed = 0x68616c66706f696e
)

// affiliations are those of the judges and pilots of a bundle, by id.
type affiliations struct{ judges, pilots map[string]string }

func affiliationsOf(b *scoring.Bundle) affiliations {
	all := affiliations{judges: map[string]string{}, pilots: map[string]string{}}
	for _, j := range b.Judges {
		all.judges[j.ID] = j.Affiliation
	}
	for _, p := range b.Pilots {
		all.pilots[p.ID] = p.Affiliation
	}
	return all
}

// affiliation compares a seat's residuals for the pilots of the judge's own
// affiliation with those for the others. Flights for which another person sat
// in the seat say nothing about the judge.
func (s *sheets) affiliation(seat int, judge string, known affiliations) Affiliation {
	home := known.judges[judge]
	residuals := s.flightResiduals(seat)
	var own, others []float64
	for f, residual := range residuals {
		flight := s.flights[f].Flight
		switch {
		case math.IsNaN(residual) || home == "" || satBy(flight, judge) != judge:
		case known.pilots[flight.Pilot] == home:
			own = append(own, residual)
		default:
			others = append(others, residual)
		}
	}
	difference, p := permute(own, others, uint64(seat))
	return Affiliation{Pilots: len(own), Difference: Number(difference), P: Number(p)}
}

// satBy is who graded the flight from a judge's seat.
func satBy(f *scoring.Flight, judge string) string {
	for _, sheet := range f.Sheets {
		if sheet.Judge == judge && sheet.By != "" {
			return sheet.By
		}
	}
	return judge
}

// flightResiduals is the mean residual of a seat's grades of each flight, by K;
// NaN where it has none.
func (s *sheets) flightResiduals(seat int) []float64 {
	sums, weights := make([]float64, len(s.flights)), make([]float64, len(s.flights))
	for _, c := range s.cells {
		if c.seat == seat {
			sums[c.flight] += c.k * c.residual
			weights[c.flight] += c.k
		}
	}
	for f := range sums {
		sums[f] /= weights[f]
	}
	return sums
}

// permute gives the difference of two means, and the share of the ways of
// dealing the values to the two at random, the way at hand included, that make
// a difference at least as great. Both are NaN where either has no value.
func permute(own, others []float64, stream uint64) (difference, p float64) {
	difference = mean(own) - mean(others)
	if math.IsNaN(difference) {
		return difference, difference
	}
	values := append(append([]float64{}, own...), others...)
	generator := rand.New(rand.NewPCG(permutationSeed, stream))
	as := 1
	for range permutations {
		generator.Shuffle(len(values), func(a, b int) { values[a], values[b] = values[b], values[a] })
		dealt := mean(values[:len(own)]) - mean(values[len(own):])
		if math.Abs(dealt) >= math.Abs(difference)-1e-12 {
			as++
		}
	}
	return difference, float64(as) / (permutations + 1)
}
