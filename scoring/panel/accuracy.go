package panel

import "math"

// leastSpread is the least spread of a panel at any level, in points: half of a
// grade's step.
const leastSpread = 0.25

// spreads is the panel's own spread at the level of each cell, in points, at
// least leastSpread: judges differ more about middling figures than about the
// best.
//
// Source: S. Mercier and S. Heiniger, Judging the Judges: evaluating the
// performance of international gymnastics judges, arXiv:1807.10055.
func (s *sheets) spreads() []float64 {
	levels, squared := make([]float64, len(s.cells)), make([]float64, len(s.cells))
	for i, c := range s.cells {
		levels[i], squared[i] = c.value, c.off*c.off
	}
	spreads := parabola(levels, squared)
	for i, variance := range spreads {
		spreads[i] = math.Sqrt(max(variance, leastSpread*leastSpread))
	}
	return spreads
}

// accuracies is each seat's: the root mean square of how far its grades are
// from the panel's values, in units of the panel's spread at that level.
func (s *sheets) accuracies(spreads []float64) []float64 {
	sums, counts := make([]float64, s.seats), make([]float64, s.seats)
	for i, c := range s.cells {
		sums[c.seat] += c.off * c.off / (spreads[i] * spreads[i])
		counts[c.seat]++
	}
	for seat := range sums {
		sums[seat] = math.Sqrt(sums[seat] / counts[seat])
	}
	return sums
}

// parabola gives the values of α + βx + γx² at each x, fitted to y by least
// squares; of a lower degree where the x do not tell that many apart.
func parabola(x, y []float64) []float64 {
	fitted := make([]float64, len(x))
	middle := mean(x)
	var basis [][]float64
	for degree := range 3 {
		power := make([]float64, len(x))
		for i := range x {
			power[i] = math.Pow(x[i]-middle, float64(degree))
		}
		size := dot(power, power)
		for _, b := range basis {
			take(power, b, dot(power, b))
		}
		if length := dot(power, power); length > 1e-12*size {
			scale(power, 1/math.Sqrt(length))
			basis = append(basis, power)
		}
	}
	for _, b := range basis {
		take(fitted, b, -dot(y, b))
	}
	return fitted
}

func dot(a, b []float64) (sum float64) {
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// take subtracts a multiple of b from a.
func take(a, b []float64, times float64) {
	for i := range a {
		a[i] -= times * b[i]
	}
}

func scale(a []float64, by float64) {
	for i := range a {
		a[i] *= by
	}
}
