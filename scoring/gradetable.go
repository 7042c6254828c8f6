package scoring

import "math"

// A GradeTable is what the consensus is sought for: rows of grades, a row being
// an item of a flight.
type GradeTable struct {
	Seats     int
	Flights   int     // scored flights, those without a row here included
	Groups    int     // rows of a group share each seat's shift
	MeanItems float64 // items of a scored flight, on the mean
	Rows      []GradeRow
	Options   Method
}

// A GradeRow is one row of a GradeTable.
type GradeRow struct {
	Flight, Group int // from 0
	K             float64
	Grades        []float64 // points by seat, NaN for a gap; at least one is there
}

// A Fit is what the consensus found.
type Fit struct {
	Values    []float64 // by row: the consensus, not clamped
	Used      []float64 // by row, then seat: the grade without the seat's style and shift; says nothing for a gap
	Trust     []float64 // by row, then seat: the cell's, times that of the seat for the flight; says nothing for a gap
	Weights   []float64 // by seat, not adding up to 1
	Variances []float64 // by seat
	Rounds    int       // until it ended
}

// Converged tells whether the fit ended while the panel was still measured in
// every round, after which the order of seats and flights has no say in it.
func (f *Fit) Converged() bool { return f.Rounds <= settleRounds }

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

func clamp(x, low, high float64) float64 { return min(max(x, low), high) }

// clampedSquare is x² with x clamped at so many deviations.
func clampedSquare(x, deviation float64) float64 {
	x = min(math.Abs(x), clampAt*deviation)
	return x * x
}
