package scoring

import (
	"math"
	"slices"
)

// solvePlain finds the consensus step by step as the method is written down,
// for reading and for holding Solver against.
func solvePlain(p *GradeTable) *Fit {
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
	*GradeTable
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

func newPlain(p *GradeTable) *plain {
	s := &plain{
		GradeTable: p,
		z:          grid[float64](len(p.Rows), p.Seats), e: grid[float64](len(p.Rows), p.Seats), h: grid[float64](len(p.Rows), p.Seats),
		a: make([]float64, len(p.Rows)), b: grid[float64](p.Groups, p.Seats), f: grid[float64](p.Flights, p.Seats),
		w: make([]float64, p.Seats), v: make([]float64, p.Seats), cells: make([]int, p.Seats),
		inGroup: grid[int](p.Groups, p.Seats), inFlight: grid[int](p.Flights, p.Seats), freedom: make([]float64, p.Seats),
	}
	for r, row := range p.Rows {
		for j, y := range row.Grades {
			s.z[r][j] = y
			if !math.IsNaN(y) {
				s.cells[j]++
				s.inGroup[row.Group][j]++
				s.inFlight[row.Flight][j]++
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
	for r, row := range s.Rows {
		for j, y := range row.Grades {
			if !math.IsNaN(y) {
				use(r, j)
			}
		}
	}
}

// matchStyle brings the seats' spreads within the groups together.
func (s *plain) matchStyle() {
	if !s.Options.Style {
		return
	}
	level := grid[float64](s.Groups, s.Seats)
	s.each(func(r, j int) { level[s.Rows[r].Group][j] += s.z[r][j] })
	groupLevel := make([]float64, s.Groups)
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
		s.e[r][j] = s.z[r][j] - level[s.Rows[r].Group][j]
		apart = append(apart, math.Abs(s.e[r][j]))
	})
	stretch := s.stretches(max(leastDeviation, median(apart)/normalMedian))
	s.each(func(r, j int) { s.z[r][j] = groupLevel[s.Rows[r].Group] + s.e[r][j]*stretch[j] })
}

// stretches is how each seat's differences from its level are multiplied.
func (s *plain) stretches(deviation float64) []float64 {
	squares := make([]float64, s.Seats)
	s.each(func(r, j int) { squares[j] += clampedSquare(s.e[r][j], deviation) })
	freedom := make([]float64, s.Seats)
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
	stretch := make([]float64, s.Seats)
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
	for r := range s.Rows {
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
func (s *plain) trust(r, j int) float64 { return s.h[r][j] * s.f[s.Rows[r].Flight][j] }

// shiftSeats finds how far each seat is above the consensus in each group, less
// the panel's mean shift.
func (s *plain) shiftSeats() {
	trusts := grid[float64](s.Groups, s.Seats)
	sums := grid[float64](s.Groups, s.Seats)
	s.each(func(r, j int) {
		trusts[s.Rows[r].Group][j] += s.trust(r, j)
		sums[s.Rows[r].Group][j] += s.trust(r, j) * (s.z[r][j] - s.a[r])
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
	for r := range s.Rows {
		sum, trust := 0.0, 0.0
		for j, z := range s.z[r] {
			if !math.IsNaN(z) {
				sum += s.w[j] * s.trust(r, j) * (z - s.b[s.Rows[r].Group][j])
				trust += s.w[j] * s.trust(r, j)
			}
		}
		if trust > 0 {
			moved = max(moved, math.Abs(sum/trust-s.a[r]))
			s.a[r] = sum / trust
		}
	}
	s.each(func(r, j int) { s.e[r][j] = s.z[r][j] - s.b[s.Rows[r].Group][j] - s.a[r] })
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
		if s.cells[j] > 0 && s.Options.SeatWeights != Equal {
			s.w[j] = (s.w[j] + clamp(1/s.v[j]/precision.mean(), leastSeatWeight, mostSeatWeight)) / 2
		}
	}
}

// trustCells trusts a cell less the farther it is from the consensus, in the
// seat's own deviations.
func (s *plain) trustCells() {
	s.each(func(r, j int) {
		s.h[r][j] = 0
		if end := s.Options.Outlier * math.Sqrt(s.v[j]); math.Abs(s.e[r][j]) < end {
			u := s.e[r][j] / end
			s.h[r][j] = (1 - u*u) * (1 - u*u)
		}
	})
}

// trustFlights trusts a seat less for a flight for or against which it leans.
func (s *plain) trustFlights(renewScale bool) {
	lean, trust := grid[float64](s.Flights, s.Seats), grid[float64](s.Flights, s.Seats)
	s.each(func(r, j int) {
		lean[s.Rows[r].Flight][j] += s.Rows[r].K * s.h[r][j] * s.e[r][j]
		trust[s.Rows[r].Flight][j] += s.Rows[r].K * s.h[r][j]
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
		s.flightDev = max(leastDeviation/math.Sqrt(s.MeanItems), median(leans)/normalMedian)
	}
	for p := range lean {
		for j, r := range lean[p] {
			s.f[p][j] = min(1, s.Options.Lean*s.flightDev/r)
		}
	}
}

func (s *plain) solution() *Fit {
	found := &Fit{
		Values: s.a, Used: make([]float64, len(s.Rows)*s.Seats), Trust: make([]float64, len(s.Rows)*s.Seats),
		Weights: s.w, Variances: s.v, Rounds: min(s.rounds, mostRounds),
	}
	s.each(func(r, j int) {
		found.Used[r*s.Seats+j] = s.z[r][j] - s.b[s.Rows[r].Group][j]
		found.Trust[r*s.Seats+j] = s.trust(r, j)
	})
	return found
}

// median sorts the values and gives the middle one, or the mean of the two in
// the middle.
func median(values []float64) float64 {
	slices.Sort(values)
	n := len(values)
	return (values[(n-1)/2] + values[n/2]) / 2
}
