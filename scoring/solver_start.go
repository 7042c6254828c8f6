package scoring

import "math"

// lay lays the table out in the solver's memory.
func (s *Solver) lay(t *GradeTable) {
	s.table, s.seats = t, t.Seats+t.Seats%2
	rows, cells := len(t.Rows), len(t.Rows)*s.seats
	s.placeRows()
	s.values, s.moves, s.weights = sized(s.values, rows), sized(s.moves, rows), sized(s.weights, rows)
	s.residuals, s.trusts = sized(s.residuals, cells), sized(s.trusts, cells)
	s.beyond = sized(s.beyond, rows)
	s.layByGroup(t.Groups * s.seats)
	s.layByFlight(t.Flights * s.seats)
	s.layBySeat(s.seats)
	s.fit = Fit{
		Values: sized(s.fit.Values, rows), Used: sized(s.fit.Used, rows*t.Seats), Trust: sized(s.fit.Trust, rows*t.Seats),
		Weights: sized(s.fit.Weights, t.Seats), Variances: sized(s.fit.Variances, t.Seats),
	}
}

func (s *Solver) layByGroup(n int) {
	s.groupCells, s.levels, s.shifts = sized(s.groupCells, n), sized(s.levels, n), sized(s.shifts, n)
	clear(s.shifts)
}

func (s *Solver) layByFlight(n int) {
	s.flightCells, s.leans, s.flightTrusts = sized(s.flightCells, n), sized(s.leans, n), sized(s.flightTrusts, n)
}

func (s *Solver) layBySeat(n int) {
	s.seatShifts, s.seatWeights = sized(s.seatShifts, n), sized(s.seatWeights, n)
	s.variances, s.squares = sized(s.variances, n), sized(s.squares, n)
	s.cellCount, s.freedom, s.scratch = sized(s.cellCount, n), sized(s.freedom, n), sized(s.scratch, n)
	s.below = sized(s.below, n)
	clear(s.variances)
}

// sized gives a slice of n values, in the same memory where it is enough, with
// whatever stood there.
func sized[T any](slice []T, n int) []T {
	if cap(slice) < n {
		return make([]T, n)
	}
	return slice[:n]
}

// placeRows numbers the rows so that those of a group stand together, in the
// table's order.
func (s *Solver) placeRows() {
	t := s.table
	s.starts = sized(s.starts, t.Groups+1)
	clear(s.starts)
	for i := range t.Rows {
		s.starts[t.Rows[i].Group+1]++
	}
	for g := range t.Groups {
		s.starts[g+1] += s.starts[g]
	}
	s.rows, s.flights, s.k = sized(s.rows, len(t.Rows)), sized(s.flights, len(t.Rows)), sized(s.k, len(t.Rows))
	for r := range t.Rows {
		row := &t.Rows[r]
		place := s.starts[row.Group]
		s.starts[row.Group]++
		s.rows[place], s.flights[place], s.k[place] = r, uint32(row.Flight), row.K
	}
	copy(s.starts[1:], s.starts)
	s.starts[0] = 0
}

// sameShape tells whether a table has the rows of the one before, whatever its
// grades.
func (s *Solver) sameShape(t *GradeTable) bool {
	old := s.table
	if old == nil || old.Seats != t.Seats || old.Flights != t.Flights || old.Groups != t.Groups ||
		old.MeanItems != t.MeanItems || old.Options != t.Options || len(s.rows) != len(t.Rows) {
		return false
	}
	for g := range t.Groups {
		for place := s.starts[g]; place < s.starts[g+1]; place++ {
			row := &t.Rows[s.rows[place]]
			if row.Group != g || uint32(row.Flight) != s.flights[place] || row.K != s.k[place] {
				return false
			}
		}
	}
	return true
}

// enter copies the grades into the residuals, gaps becoming gapResidual, and
// counts each seat's cells, by group and by flight.
func (s *Solver) enter() {
	clear(s.groupCells)
	clear(s.flightCells)
	for g := range s.table.Groups {
		n := s.starts[g+1] - s.starts[g]
		from, to := s.cells(g, s.seats-1)
		for i := from; i < to; i++ {
			s.residuals[i] = gapResidual // where nobody sits
		}
		for i, row := range s.rows[s.starts[g]:s.starts[g+1]] {
			s.enterRow(&s.table.Rows[row], s.starts[g]*s.seats+i, n)
		}
	}
	s.countCells()
}

// enterRow enters one row, whose cells stand at first and then every so many.
func (s *Solver) enterRow(row *GradeRow, first, every int) {
	counts := s.groupCells[row.Group*s.seats:]
	for seat, y := range row.Grades {
		at := first + seat*every
		if math.IsNaN(y) {
			s.residuals[at] = gapResidual
			continue
		}
		s.residuals[at] = y
		counts[seat]++
		s.flightCells[seat*s.table.Flights+row.Flight]++
	}
}

// countCells adds up each seat's cells, and the groups that it has cells in.
func (s *Solver) countCells() {
	clear(s.cellCount)
	clear(s.freedom)
	for i, n := range s.groupCells {
		s.cellCount[i%s.seats] += n
		s.freedom[i%s.seats] += float64(max(n-1, 0))
	}
	s.apart.n, s.leaning.n = 0, 0
	for seat, n := range s.cellCount {
		s.apart.n += n
		s.freedom[seat] = max(1, s.freedom[seat])
	}
	for _, n := range s.flightCells {
		s.leaning.n += min(n, 1)
	}
}

// startFromMedians takes each row's median and trusts everyone.
func (s *Solver) startFromMedians() {
	for g := range s.table.Groups {
		n := s.starts[g+1] - s.starts[g]
		for i := range n {
			s.startRow(s.starts[g]+i, s.starts[g]*s.seats+i, n)
		}
	}
	for seat, n := range s.cellCount {
		s.seatWeights[seat] = float64(min(n, 1))
	}
	for i := range s.flightTrusts {
		s.flightTrusts[i] = 1
	}
	s.apart.forget()
	s.leaning.forget()
}

// startRow starts one row, whose cells stand at first and then every so many.
func (s *Solver) startRow(place, first, every int) {
	n, z := 0, s.scratch
	for seat := range z {
		z[seat] = s.residuals[first+seat*every]
		trust := 0.0
		if z[seat] < gapFrom {
			trust = 1
			n++
		}
		s.trusts[first+seat*every] = trust
	}
	s.values[place] = s.medianOfRow(z, n)
	for seat, z := range z {
		s.residuals[first+seat*every] = z - s.values[place]
	}
}

// medianOfRow gives the median of the n least of a few values. It counts for
// each how many are below it, which for a few is quicker than to sort them.
func (s *Solver) medianOfRow(values []float64, n int) float64 {
	below := s.below[:len(values)]
	for i, x := range values {
		mine := i
		for j, y := range values[:i] {
			less := int(math.Float64bits(x-y) >> 63)
			below[j] += less
			mine -= less
		}
		below[i] = mine
	}
	first, second := 0.0, 0.0
	for i, b := range below {
		if b == (n-1)/2 {
			first = values[i]
		}
		if b == n/2 {
			second = values[i]
		}
	}
	return (first + second) / 2
}

// startFromLast takes what was found for the table before.
func (s *Solver) startFromLast() {
	for g := range s.table.Groups {
		values := s.values[s.starts[g]:s.starts[g+1]]
		for seat := range s.table.Seats {
			from, to := s.cells(g, seat)
			e, trusts, shift := s.residuals[from:to], s.trusts[from:to], s.shifts[g*s.seats+seat]
			for i, value := range values {
				if e[i] >= gapFrom {
					trusts[i] = 0
				}
				e[i] -= shift + value
			}
		}
	}
	for i := range s.flightTrusts {
		s.flightTrusts[i] = 1 // the trusts are whole ones
	}
	for seat, n := range s.cellCount {
		if n == 0 || s.seatWeights[seat] == 0 {
			s.seatWeights[seat] = float64(min(n, 1))
		}
	}
}
