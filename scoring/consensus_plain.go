package scoring

import (
	"math"
	"slices"
)

// A problem is what the consensus is sought for: a table of grades by row (an
// item of a flight), then seat.
type problem struct {
	seats   int
	flights int     // scored flights, those without a row here included
	groups  int     // rows of a group share each seat's shift
	items   float64 // mean number of items of a scored flight
	rows    []problemRow
	options Method
}

type problemRow struct {
	flight, group int
	k             float64
	grades        []float64 // points by seat, NaN for a gap; at least one is there
}

// A solution is what the consensus found.
type solution struct {
	value     []float64   // by row: the consensus
	used      [][]float64 // by row, then seat: the grade without the seat's style and shift, NaN for a gap
	trust     [][]float64 // by row, then seat: of the cell, times the flight's
	weights   []float64   // by seat, not yet adding up to 1
	variances []float64   // by seat
	rounds    int         // until it ended
}

// The constants of the consensus.
const (
	leastDeviation  = 0.25   // half of a grade's step
	normalMedian    = 0.6745 // median |x| of a standard normal x
	clampAt         = 3      // deviations at which squares are clamped
	leastVariance   = 0.15   // of the median variance of the seats
	settleRounds    = 100    // in which variances, weights and scales are renewed
	mostRounds      = 500
	tolerance       = 1e-9
	leastStretch    = 0.5
	mostStretch     = 2
	leastSeatWeight = 0.25
	mostSeatWeight  = 2
)

// solvePlain finds the consensus step by step as the method is written down,
// for reading and for holding Solver against.
func solvePlain(p *problem) *solution {
	s := newPlain(p)
	s.matchStyle()
	s.start()
	for s.rounds = 1; s.rounds <= mostRounds; s.rounds++ {
		s.shiftSeats()
		moved := s.agree()
		if s.rounds > 1 && moved < tolerance {
			break
		}
		if s.rounds <= settleRounds {
			s.weighSeats()
		}
		s.trustCells()
		s.trustFlights(s.rounds <= settleRounds)
	}
	return s.solution()
}

// plain is the state of solvePlain. All by row, then seat where there are two.
type plain struct {
	*problem
	z, e, h   [][]float64 // grade in the panel's style, residual, cell trust
	a         []float64   // consensus by row
	b         [][]float64 // shift by group, then seat
	f         [][]float64 // flight trust by flight, then seat
	w, v      []float64   // weight and variance by seat
	cells     []int       // by seat
	inGroup   [][]int     // cells by group, then seat
	inFlight  [][]int     // cells by flight, then seat
	freedom   []float64   // cells less groups by seat
	flightDev float64     // typical lean of a seat for or against a flight
	rounds    int
}

func grid[T any](rows, columns int) [][]T {
	g := make([][]T, rows)
	for i := range g {
		g[i] = make([]T, columns)
	}
	return g
}

func newPlain(p *problem) *plain {
	s := &plain{
		problem: p,
		z:       grid[float64](len(p.rows), p.seats), e: grid[float64](len(p.rows), p.seats), h: grid[float64](len(p.rows), p.seats),
		a: make([]float64, len(p.rows)), b: grid[float64](p.groups, p.seats), f: grid[float64](p.flights, p.seats),
		w: make([]float64, p.seats), v: make([]float64, p.seats), cells: make([]int, p.seats),
		inGroup: grid[int](p.groups, p.seats), inFlight: grid[int](p.flights, p.seats), freedom: make([]float64, p.seats),
	}
	for r, row := range p.rows {
		for j, y := range row.grades {
			s.z[r][j] = y
			if !math.IsNaN(y) {
				s.cells[j]++
				s.inGroup[row.group][j]++
				s.inFlight[row.flight][j]++
			}
		}
	}
	for j, n := range s.cells {
		groups := 0
		for g := range s.inGroup {
			groups += min(s.inGroup[g][j], 1)
		}
		s.freedom[j] = max(1, float64(n-groups))
	}
	return s
}

// each goes through the cells.
func (s *plain) each(use func(r, j int)) {
	for r, row := range s.rows {
		for j, y := range row.grades {
			if !math.IsNaN(y) {
				use(r, j)
			}
		}
	}
}

// matchStyle brings the seats' spreads within the groups together.
func (s *plain) matchStyle() {
	if !s.options.Style {
		return
	}
	level := grid[float64](s.groups, s.seats)
	s.each(func(r, j int) { level[s.rows[r].group][j] += s.z[r][j] })
	groupLevel := make([]float64, s.groups)
	for g := range level {
		var m moments
		for j, n := range s.inGroup[g] {
			if n > 0 {
				level[g][j] /= float64(n)
				m.add(level[g][j])
			}
		}
		groupLevel[g] = m.mean()
	}
	var apart []float64
	s.each(func(r, j int) {
		s.e[r][j] = s.z[r][j] - level[s.rows[r].group][j]
		apart = append(apart, math.Abs(s.e[r][j]))
	})
	stretch := s.stretches(max(leastDeviation, median(apart)/normalMedian))
	s.each(func(r, j int) { s.z[r][j] = groupLevel[s.rows[r].group] + s.e[r][j]*stretch[j] })
}

// stretches is how each seat's differences from its level are multiplied.
func (s *plain) stretches(deviation float64) []float64 {
	squares := make([]float64, s.seats)
	s.each(func(r, j int) { squares[j] += clampedSquare(s.e[r][j], deviation) })
	freedom := make([]float64, s.seats)
	for _, counts := range s.inGroup {
		for j, n := range counts {
			freedom[j] += float64(max(n-1, 0))
		}
	}
	var all moments
	for j := range squares {
		if freedom[j] > 0 && squares[j] > 0 {
			squares[j] /= freedom[j]
			all.add(squares[j])
		} else {
			squares[j] = 0
		}
	}
	stretch := make([]float64, s.seats)
	for j, square := range squares {
		stretch[j] = 1
		if square > 0 {
			stretch[j] = clamp(math.Sqrt(all.mean()/square), leastStretch, mostStretch)
		}
	}
	return stretch
}

// start takes each row's median and trusts everyone.
func (s *plain) start() {
	for r := range s.rows {
		var there []float64
		for _, z := range s.z[r] {
			if !math.IsNaN(z) {
				there = append(there, z)
			}
		}
		s.a[r] = median(there)
	}
	for j := range s.w {
		s.w[j] = float64(min(s.cells[j], 1))
		for r := range s.h {
			s.h[r][j] = 1
		}
		for p := range s.f {
			s.f[p][j] = 1
		}
	}
}

// trust is that of a cell and of its seat for the whole flight.
func (s *plain) trust(r, j int) float64 { return s.h[r][j] * s.f[s.rows[r].flight][j] }

// shiftSeats finds how far each seat is above the consensus in each group, less
// the panel's mean shift.
func (s *plain) shiftSeats() {
	trusts := grid[float64](s.groups, s.seats)
	sums := grid[float64](s.groups, s.seats)
	s.each(func(r, j int) {
		trusts[s.rows[r].group][j] += s.trust(r, j)
		sums[s.rows[r].group][j] += s.trust(r, j) * (s.z[r][j] - s.a[r])
	})
	for g := range s.b {
		mean, weight := 0.0, 0.0
		for j := range s.b[g] {
			s.b[g][j] = 0
			if trusts[g][j] > 0 {
				s.b[g][j] = sums[g][j] / trusts[g][j]
			}
			if s.inGroup[g][j] > 0 {
				mean += s.w[j] * s.b[g][j]
				weight += s.w[j]
			}
		}
		for j := range s.b[g] {
			s.b[g][j] -= mean / weight
		}
	}
}

// agree finds the consensus of each row and the residuals, and says how far the
// consensus moved at most.
func (s *plain) agree() (moved float64) {
	for r := range s.rows {
		sum, trust := 0.0, 0.0
		for j, z := range s.z[r] {
			if !math.IsNaN(z) {
				sum += s.w[j] * s.trust(r, j) * (z - s.b[s.rows[r].group][j])
				trust += s.w[j] * s.trust(r, j)
			}
		}
		if trust > 0 {
			moved = max(moved, math.Abs(sum/trust-s.a[r]))
			s.a[r] = sum / trust
		}
	}
	s.each(func(r, j int) { s.e[r][j] = s.z[r][j] - s.b[s.rows[r].group][j] - s.a[r] })
	return moved
}

// weighSeats measures how exact each seat is and weighs it accordingly.
func (s *plain) weighSeats() {
	var apart []float64
	s.each(func(r, j int) { apart = append(apart, math.Abs(s.e[r][j])) })
	deviation := max(leastDeviation, median(apart)/normalMedian)
	clear(s.v)
	s.each(func(r, j int) { s.v[j] += clampedSquare(s.e[r][j], deviation) })
	all := 0.0
	for _, w := range s.w {
		all += w
	}
	var there []float64
	for j := range s.v {
		if s.cells[j] > 0 {
			s.v[j] /= s.freedom[j] * (1 - s.w[j]/all)
			there = append(there, s.v[j])
		}
	}
	least := max(leastDeviation*leastDeviation, leastVariance*median(there))
	var precision moments
	for j := range s.v {
		if s.cells[j] > 0 {
			s.v[j] = max(s.v[j], least)
			precision.add(1 / s.v[j])
		}
	}
	for j := range s.w {
		if s.cells[j] > 0 && s.options.SeatWeights != Equal {
			s.w[j] = (s.w[j] + clamp(1/s.v[j]/precision.mean(), leastSeatWeight, mostSeatWeight)) / 2
		}
	}
}

// trustCells trusts a cell less the farther it is from the consensus, in the
// seat's own deviations.
func (s *plain) trustCells() {
	s.each(func(r, j int) {
		s.h[r][j] = 0
		if end := s.options.Outlier * math.Sqrt(s.v[j]); math.Abs(s.e[r][j]) < end {
			u := s.e[r][j] / end
			s.h[r][j] = (1 - u*u) * (1 - u*u)
		}
	})
}

// trustFlights trusts a seat less for a flight for or against which it leans.
func (s *plain) trustFlights(renewScale bool) {
	lean, trust := grid[float64](s.flights, s.seats), grid[float64](s.flights, s.seats)
	s.each(func(r, j int) {
		lean[s.rows[r].flight][j] += s.rows[r].k * s.h[r][j] * s.e[r][j]
		trust[s.rows[r].flight][j] += s.rows[r].k * s.h[r][j]
	})
	var leans []float64
	for p := range lean {
		for j := range lean[p] {
			if s.inFlight[p][j] > 0 {
				if trust[p][j] > 0 {
					lean[p][j] = math.Abs(lean[p][j] / trust[p][j])
				}
				leans = append(leans, lean[p][j])
			}
		}
	}
	if renewScale {
		s.flightDev = max(leastDeviation/math.Sqrt(s.items), median(leans)/normalMedian)
	}
	for p := range lean {
		for j, r := range lean[p] {
			s.f[p][j] = min(1, s.options.Lean*s.flightDev/r)
		}
	}
}

func (s *plain) solution() *solution {
	found := &solution{
		value: s.a, used: grid[float64](len(s.rows), s.seats), trust: grid[float64](len(s.rows), s.seats),
		weights: s.w, variances: s.v, rounds: min(s.rounds, mostRounds),
	}
	for r := range s.rows {
		for j, z := range s.z[r] {
			found.used[r][j] = z - s.b[s.rows[r].group][j]
			found.trust[r][j] = s.trust(r, j)
		}
	}
	return found
}

func clamp(x, low, high float64) float64 { return min(max(x, low), high) }

// clampedSquare is x² with x clamped at so many deviations.
func clampedSquare(x, deviation float64) float64 {
	x = min(math.Abs(x), clampAt*deviation)
	return x * x
}

// median sorts the values and gives the middle one, or the mean of the two in
// the middle.
func median(values []float64) float64 {
	slices.Sort(values)
	n := len(values)
	return (values[(n-1)/2] + values[n/2]) / 2
}
