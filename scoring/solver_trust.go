package scoring

import "math"

// trustCells trusts a cell less the farther it is from the consensus, and adds
// up the leans of the seats.
func (s *Solver) trustCells() {
	clear(s.leans)
	outlier := min(s.table.Options.Outlier, mostOutlier)
	for seat, v := range s.variances {
		s.scratch[seat] = 1
		if v > 0 {
			s.scratch[seat] = 1 / (outlier * outlier * v)
		}
	}
	for g := range s.table.Groups {
		first, end := s.starts[g], s.starts[g+1]
		k, flights := s.k[first:end], s.flights[first:end]
		for seat := 0; seat < s.seats; seat += 2 {
			e1, e2 := s.pair(s.residuals, g, seat)
			trusts1, trusts2 := s.pair(s.trusts, g, seat)
			leans1, leans2 := s.leansOf(seat), s.leansOf(seat+1)
			biweight(e1, e2, trusts1, trusts2, k, flights, leans1, leans2, s.scratch[seat], s.scratch[seat+1])
		}
	}
}

func (s *Solver) leansOf(seat int) []lean {
	return s.leans[seat*s.table.Flights : (seat+1)*s.table.Flights]
}

// biweight gives each residual of two seats its trust, (1 - (e/end)²)² inside
// the end and 0 beyond, with scale = 1/end².
func biweight(e1, e2, trusts1, trusts2, k []float64, flights []uint32, leans1, leans2 []lean, scale1, scale2 float64) {
	n := len(e1)
	e2, trusts1, trusts2, k, flights = e2[:n], trusts1[:n], trusts2[:n], k[:n], flights[:n]
	leans2 = leans2[:len(leans1)]
	for i, x1 := range e1 {
		flight := flights[i]
		u1 := 1 - x1*x1*scale1
		if u1 < 0 {
			u1 = 0
		}
		h1 := u1 * u1
		trusts1[i] = h1
		h1 *= k[i]
		leans1[flight].trust += h1
		leans1[flight].sum += h1 * x1
		x2 := e2[i]
		u2 := 1 - x2*x2*scale2
		if u2 < 0 {
			u2 = 0
		}
		h2 := u2 * u2
		trusts2[i] = h2
		h2 *= k[i]
		leans2[flight].trust += h2
		leans2[flight].sum += h2 * x2
	}
}

// trustFlights trusts a seat less for a flight for or against which it leans.
func (s *Solver) trustFlights(renewScale bool) {
	s.leaning.begin()
	for i, n := range s.flightCells {
		if n == 0 {
			continue
		}
		l := &s.leans[i]
		if l.trust > 0 {
			l.sum = math.Abs(l.sum / l.trust)
		}
		s.leaning.add(l.sum)
	}
	if renewScale {
		s.measureLeaning()
	}
	for seat, w := range s.seatWeights {
		trusts := s.flightTrustsOf(seat)
		most := s.table.Options.Lean * s.flightSize
		for i, l := range s.leans[seat*s.table.Flights:][:len(trusts)] {
			trusts[i] = w
			if l.sum > most {
				trusts[i] = w * most / l.sum
			}
		}
	}
}

// flightTrustsOf is a seat's trust for each flight, times the seat's weight.
func (s *Solver) flightTrustsOf(seat int) []float64 {
	return s.flightTrusts[seat*s.table.Flights : (seat+1)*s.table.Flights]
}

func (s *Solver) measureLeaning() {
	m, ok := s.leaning.find()
	if !ok {
		m = s.leanMedian()
	}
	s.leaning.follow(m)
	s.flightSize = max(leastDeviation/math.Sqrt(s.table.MeanItems), m/normalMedian)
}

func (s *Solver) leanMedian() float64 {
	all := s.leaning.inside[:0]
	for i, n := range s.flightCells {
		if n > 0 {
			all = append(all, s.leans[i].sum)
		}
	}
	s.leaning.inside = all
	return medianOf(all)
}

// applyFlightTrust makes the trusts whole ones where no round follows that
// would.
func (s *Solver) applyFlightTrust() {
	for g := range s.table.Groups {
		for seat := range s.seats {
			from, to := s.cells(g, seat)
			trusts := s.flightTrustsOf(seat)
			for i := range s.trusts[from:to] {
				s.trusts[from+i] *= trusts[s.flights[s.starts[g]+i]]
			}
		}
	}
}
