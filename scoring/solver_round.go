package scoring

import "math"

// agree finds how far each seat is above the consensus in each group, then the
// consensus of each row, and moves the residuals along. It says how far the
// consensus moved at most, and gauges the residuals on the way.
func (s *Solver) agree() (moved float64) {
	s.apart.begin()
	s.far = s.far[:0]
	clear(s.squares)
	for g := range s.table.Groups {
		if s.starts[g] == s.starts[g+1] {
			continue
		}
		s.shiftSeats(g)
		moved = max(moved, s.moveValues(g))
		s.moveResiduals(g)
	}
	return moved
}

// shiftSeats finds the shifts in a group, less the panel's mean shift, and what
// pulls at each row.
func (s *Solver) shiftSeats(g int) {
	first, end, seats := s.starts[g], s.starts[g+1], s.seats
	pulls, weights, flights := s.moves[first:end], s.weights[first:end], s.flights[first:end]
	clear(pulls)
	clear(weights)
	shifts := s.shifts[g*seats : (g+1)*seats]
	for seat := 0; seat < seats; seat += 2 {
		e1, e2 := s.pair(s.residuals, g, seat)
		trusts1, trusts2 := s.pair(s.trusts, g, seat)
		one, two := pull(e1, e2, trusts1, trusts2, s.flightTrustsOf(seat), s.flightTrustsOf(seat+1), flights, pulls, weights)
		s.seatShifts[seat] = one.shift(shifts[seat])
		s.seatShifts[seat+1] = two.shift(shifts[seat+1])
	}
	mean, weight := 0.0, 0.0
	for seat, n := range s.groupCells[g*seats : (g+1)*seats] {
		if n > 0 {
			mean += s.seatWeights[seat] * (shifts[seat] + s.seatShifts[seat])
			weight += s.seatWeights[seat]
		}
	}
	for seat := range shifts {
		s.seatShifts[seat] -= mean / weight
		shifts[seat] += s.seatShifts[seat]
	}
}

// shift is how far the seat's residuals move its shift; to none, where nothing
// is trusted.
func (l lean) shift(shift float64) float64 {
	if l.trust > 0 {
		return l.sum / l.trust
	}
	return -shift
}

// pull adds two seats' residuals in a group to the pulls at its rows, and their
// trusts to the weights. The cells' trusts become their whole trusts.
func pull(e1, e2, trusts1, trusts2, flights1, flights2 []float64, flights []uint32, pulls, weights []float64) (one, two lean) {
	n := len(e1)
	e2, trusts1, trusts2 = e2[:n], trusts1[:n], trusts2[:n]
	flights, pulls, weights = flights[:n], pulls[:n], weights[:n]
	flights2 = flights2[:len(flights1)]
	for i, x := range e1 {
		flight := flights[i]
		t1 := trusts1[i] * flights1[flight]
		t2 := trusts2[i] * flights2[flight]
		trusts1[i] = t1
		trusts2[i] = t2
		one.trust += t1
		two.trust += t2
		weights[i] += t1 + t2
		t1 *= x
		t2 *= e2[i]
		one.sum += t1
		two.sum += t2
		pulls[i] += t1 + t2
	}
	return one, two
}

// moveValues finds how far each row's consensus moves, given the shifts, and
// the farthest. A row where nothing is trusted stays.
func (s *Solver) moveValues(g int) (moved float64) {
	first, end := s.starts[g], s.starts[g+1]
	moves, weights := s.moves[first:end], s.weights[first:end]
	for seat := 0; seat < s.seats; seat += 2 {
		trusts1, trusts2 := s.pair(s.trusts, g, seat)
		subtract(moves, trusts1, trusts2, s.seatShifts[seat], s.seatShifts[seat+1])
	}
	for i, weight := range weights {
		if weight > 0 {
			moves[i] /= weight
		} else {
			moves[i] = 0
		}
		moved = max(moved, math.Abs(moves[i]))
		s.values[first+i] += moves[i]
	}
	return moved
}

// subtract takes x × each y off, for two seats.
func subtract(from, y1, y2 []float64, x1, x2 float64) {
	y1, y2 = y1[:len(from)], y2[:len(from)]
	for i := range from {
		from[i] -= x1*y1[i] + x2*y2[i]
	}
}

// A farCell is a residual that may have to be clamped.
type farCell struct {
	seat int
	size float64
}

// moveResiduals follows the shifts and the consensus of a group, and gauges
// what remains.
func (s *Solver) moveResiduals(g int) {
	first, end := s.starts[g], s.starts[g+1]
	far := s.clampedFrom()
	for seat := range s.seats {
		if s.groupCells[g*s.seats+seat] == 0 {
			continue
		}
		from, to := s.cells(g, seat)
		e := s.residuals[from:to]
		squares, below, inside, beyond := gauge(e, s.moves[first:end], s.seatShifts[seat],
			s.apart.low, s.apart.width, far, s.apart.room(len(e)), s.beyond)
		s.squares[seat] += squares
		s.apart.count(below, inside)
		for _, i := range s.beyond[:beyond] {
			if e[i] < gapFrom {
				s.far = append(s.far, farCell{seat, math.Abs(e[i])})
			}
		}
	}
}

// clampedFrom is the least square that may have to be clamped, while the median
// is somewhere in its bracket.
func (s *Solver) clampedFrom() float64 {
	return clampAt * clampAt * max(leastDeviation*leastDeviation, s.apart.low/(normalMedian*normalMedian)*(1-1e-9))
}

// gauge moves a seat's residuals in a group. It counts those below the median's
// bracket, keeps those inside as a runningMedian does, adds up the squares
// below far, and lists where those beyond stand.
func gauge(e, moves []float64, shift, low float64, width uint64, far float64, kept []float64, beyond []int32) (squares float64, below, inside, nBeyond int) {
	moves = moves[:len(e)]
	for i, x := range e {
		x -= shift + moves[i]
		e[i] = x
		square := x * x
		above := math.Float64bits(square - low)
		below += int(above >> 63)
		if above <= width {
			kept[inside] = math.Abs(x)
			inside++
		}
		if square < far {
			squares += square
		} else {
			beyond[nBeyond] = int32(i)
			nBeyond++
		}
	}
	return squares, below, inside, nBeyond
}

// measureDeviation finds the deviation of the residuals and completes the sums
// of their clamped squares.
func (s *Solver) measureDeviation() {
	m, ok := s.apart.find()
	if !ok {
		m = s.residualMedian()
		s.deviation = max(leastDeviation, m/normalMedian)
		s.squareAll()
	} else {
		s.deviation = max(leastDeviation, m/normalMedian)
		for _, cell := range s.far {
			s.squares[cell.seat] += clampedSquare(cell.size, s.deviation)
		}
	}
	s.apart.follow(m)
}

// residualMedian finds the median of all residuals by itself.
func (s *Solver) residualMedian() float64 {
	s.apart.guess(s.sampleResiduals())
	s.apart.begin()
	for _, x := range s.residuals {
		if x < gapFrom {
			s.apart.add(x)
		}
	}
	if m, ok := s.apart.find(); ok {
		return m
	}
	return medianOf(s.collectResiduals(s.apart.inside[:0], 1))
}

// sampleResiduals lists the sizes of some of the residuals.
func (s *Solver) sampleResiduals() []float64 {
	return s.collectResiduals(s.apart.inside[:0], sampleEvery)
}

func (s *Solver) collectResiduals(into []float64, every int) []float64 {
	for i := 0; i < len(s.residuals); i += every {
		if x := s.residuals[i]; x < gapFrom {
			into = append(into, math.Abs(x))
		}
	}
	s.apart.inside = into
	return into
}

// squareAll adds up the clamped squares of all residuals.
func (s *Solver) squareAll() {
	clear(s.squares)
	most := clampedSquare(gapFrom, s.deviation)
	for g := range s.table.Groups {
		for seat := range s.table.Seats {
			from, to := s.cells(g, seat)
			s.squares[seat] += sumOfSquares(s.residuals[from:to], most)
		}
	}
}

// sumOfSquares adds up the squares of residuals, none of them above most.
func sumOfSquares(e []float64, most float64) (sum float64) {
	for _, x := range e {
		if square := x * x; square <= most {
			sum += square
		} else if x < gapFrom {
			sum += most
		}
	}
	return sum
}
