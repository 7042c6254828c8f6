package scoring

// A Solver finds the consensus of tables of grades. What it computes is easier
// to read in solvePlain (consensus_plain_test.go), which the tests hold it
// against and which takes thirty times as long. It keeps its memory from one
// table to the next; the zero Solver is ready for use. It must not be used by
// two goroutines at once.
//
// The whole trust of a cell is its own, times its seat's for the flight, times
// the seat's weight.
//
// What makes it fast: rows of a group stand together and each seat's cells of
// a group in one run of memory, worked through two seats at once; only residuals
// are kept and moved by what changes; a gap is a residual so great that it never
// has any trust, so that no loop asks for gaps; medians are followed
// (runningMedian) rather than found.
type Solver struct {
	table *GradeTable
	fit   Fit
	seats int // an even number: with an odd one, a seat more that grades nothing

	// Places number the rows so that those of a group stand together.
	rows    []int     // the table's row at each place
	starts  []int     // by group: its first place; and the end
	flights []uint32  // by place
	k       []float64 // by place
	values  []float64 // by place: the consensus
	moves   []float64 // by place: how far it moves in this round
	weights []float64 // by place: sum of weights × trust

	// Cells stand by group, then seat, then place: see cells.
	residuals []float64
	trusts    []float64 // the cell's own; its whole trust once shifts were found

	shifts     []float64 // by group, then seat
	levels     []float64 // by group, then seat: the mean grade
	groupCells []int     // by group, then seat
	seatShifts []float64 // by seat: how far it moves in the group at hand

	// By seat, then flight.
	flightTrusts []float64 // times the seat's weight
	leans        []lean
	flightCells  []int

	// By seat.
	seatWeights []float64
	variances   []float64
	squares     []float64
	cellCount   []int
	freedom     []float64
	scratch     []float64
	below       []int

	apart      runningMedian // of the residuals
	leaning    runningMedian // of the leans
	deviation  float64       // of the residuals
	flightSize float64       // typical lean of a seat for or against a flight
	far        []farCell     // residuals that may have to be clamped
	beyond     []int32       // those of the seat and group at hand
}

// gapResidual stands for a gap: beyond anything that has trust, and small
// enough to be squared.
const (
	gapResidual = 1e100
	gapFrom     = 1e99 // no other residual is that great
)

// mostOutlier bounds the outlier option, so that a gap is beyond it. Every
// grade has full trust long before.
const mostOutlier = 1e9

// A lean is what a seat's residuals in a flight add up to.
type lean struct{ sum, trust float64 }

// Solve finds the consensus from the beginning. The fit is the solver's own and
// stands until it is used again.
func (s *Solver) Solve(t *GradeTable) *Fit {
	s.lay(t)
	s.enter()
	s.matchStyle()
	s.startFromMedians()
	return s.run(1)
}

// Resume finds the consensus of a table that differs in a few grades from the
// one before, starting from what was found for that. It is quicker, and agrees
// with Solve only to within the tolerance of its end: for live display, never
// for what is published.
func (s *Solver) Resume(t *GradeTable) *Fit {
	if !s.sameShape(t) {
		return s.Solve(t)
	}
	s.table = t
	s.enter()
	s.matchStyle()
	s.startFromLast()
	return s.run(2)
}

// run repeats the rounds until the consensus stands still.
func (s *Solver) run(first int) *Fit {
	for round := first; round <= mostRounds; round++ {
		s.fit.Rounds = round
		if moved := s.agree(); round > 1 && moved < tolerance {
			return s.report()
		}
		if round <= settleRounds {
			s.weighSeats()
		}
		s.trustCells()
		s.trustFlights(round <= settleRounds)
	}
	s.applyFlightTrust()
	return s.report()
}

// cells is where a seat's cells in a group stand, by place.
func (s *Solver) cells(group, seat int) (from, to int) {
	n := s.starts[group+1] - s.starts[group]
	from = s.starts[group]*s.seats + seat*n
	return from, from + n
}

// pair is the cells of a seat and of the next one.
func (s *Solver) pair(of []float64, group, seat int) (one, two []float64) {
	from, to := s.cells(group, seat)
	return of[from:to], of[to : to+to-from]
}

// report writes the fit in the order of the table.
func (s *Solver) report() *Fit {
	for seat, n := range s.cellCount {
		s.scratch[seat] = 0
		if n > 0 {
			s.scratch[seat] = 1 / s.seatWeights[seat]
		}
	}
	for g := range s.table.Groups {
		n := s.starts[g+1] - s.starts[g]
		for i := range n {
			s.reportRow(s.starts[g]+i, s.starts[g]*s.seats+i, n)
		}
	}
	copy(s.fit.Weights, s.seatWeights)
	copy(s.fit.Variances, s.variances)
	return &s.fit
}

// reportRow reports one row, whose cells stand at first and then every so many.
// The scratch holds what the seats' weights are divided by.
func (s *Solver) reportRow(place, first, every int) {
	row, value, seats := s.rows[place], s.values[place], s.table.Seats
	s.fit.Values[row] = value
	used, trusts := s.fit.Used[row*seats:(row+1)*seats], s.fit.Trust[row*seats:(row+1)*seats]
	for seat := range used {
		used[seat] = s.residuals[first+seat*every] + value
		trusts[seat] = s.trusts[first+seat*every] * s.scratch[seat]
	}
}

// weighSeats measures how exact each seat is and weighs it accordingly.
func (s *Solver) weighSeats() {
	s.measureDeviation()
	s.measureVariances()
	if s.table.Options.SeatWeights == Equal {
		return
	}
	precision := moments{}
	for j, n := range s.cellCount {
		if n > 0 {
			precision.add(1 / s.variances[j])
		}
	}
	for j, n := range s.cellCount {
		if n > 0 {
			measured := clamp(1/s.variances[j]/precision.mean(), leastSeatWeight, mostSeatWeight)
			s.seatWeights[j] = (s.seatWeights[j] + measured) / 2
		}
	}
}

// measureVariances estimates each seat's without a true value, none far below
// the others'.
func (s *Solver) measureVariances() {
	all := 0.0
	for _, w := range s.seatWeights {
		all += w
	}
	there := s.scratch[:0]
	for j, square := range s.squares {
		if s.cellCount[j] > 0 {
			s.variances[j] = square / (s.freedom[j] * (1 - s.seatWeights[j]/all))
			there = append(there, s.variances[j])
		}
	}
	least := max(leastDeviation*leastDeviation, leastVariance*medianOf(there))
	for j, n := range s.cellCount {
		if n > 0 {
			s.variances[j] = max(s.variances[j], least)
		}
	}
}
