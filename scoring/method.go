package scoring

import "math"

// A scorer is a method: it makes a fit of each scored flight. It says false
// where the programme has too few seats or flights for it, after which the
// mean is taken instead.
type scorer func(*Table) ([]flightFit, bool)

// scorers holds the methods by their names.
var scorers = map[string]scorer{
	Mean:        scoreMean,
	TrimmedMean: scoreTrimmedMean,
	Normalised:  scoreNormalised,
	Consensus:   scoreConsensus,
}

// A flightFit is what a method makes of one flight.
type flightFit struct {
	panelScore    float64
	standardError float64
	used          []float64 // by item, then seat, as the cells
	reasons       []Reason  // by item, then seat
	trust         []*Trust  // by item, then seat; nil but under the consensus
	totals        []float64 // by seat
	weights       []float64 // by seat, adding up to 1
	discarded     []bool    // by seat
}

// newFlightFit has the values of a flight's cells as used values, gaps 0, and
// all seats weighing the same.
func newFlightFit(f *CleanFlight) flightFit {
	seats := len(f.Absent)
	fit := flightFit{
		used: make([]float64, len(f.Cells)), reasons: make([]Reason, len(f.Cells)),
		totals: make([]float64, seats), weights: make([]float64, seats), discarded: make([]bool, seats),
	}
	for i, c := range f.Cells {
		fit.used[i], fit.reasons[i] = c.Value.Points(), c.Reason
	}
	for seat := range fit.weights {
		fit.weights[seat] = 1 / float64(seats)
	}
	return fit
}

// addTotals adds up K × used value for each seat.
func (fit *flightFit) addTotals(f *CleanFlight) {
	seats := len(f.Absent)
	for i, item := range f.Items {
		for seat := range seats {
			fit.totals[seat] += float64(item.K) * fit.used[i*seats+seat]
		}
	}
	for seat := range fit.totals {
		fit.totals[seat] /= 10 // K is in tenths
	}
}

// addStandardErrors takes the standard error of each flight from how its seats'
// totals differ after each seat's mean level is taken off: the standard
// deviation over the seats that count, by the root of their number.
func addStandardErrors(flights []*CleanFlight, fits []flightFit) {
	if len(flights) == 0 {
		return
	}
	levels := make([]moments, len(flights[0].Absent))
	graded := make([][]bool, len(flights))
	for i, f := range flights {
		graded[i] = make([]bool, len(levels))
		for seat := range levels {
			if graded[i][seat] = f.Graded(seat); graded[i][seat] {
				levels[seat].add(fits[i].totals[seat])
			}
		}
	}
	for i := range fits {
		var spread []float64
		for seat, total := range fits[i].totals {
			if graded[i][seat] && !fits[i].discarded[seat] {
				spread = append(spread, total-levels[seat].mean())
			}
		}
		if len(spread) >= 2 {
			_, sd := MeanAndDeviation(spread)
			fits[i].standardError = sd / math.Sqrt(float64(len(spread)))
		}
	}
}

// moments adds up values for their mean.
type moments struct {
	n   int
	sum float64
}

func (m *moments) add(x float64) { m.n++; m.sum += x }

func (m *moments) mean() float64 { return m.sum / float64(m.n) }

// roundingShare is the share of a mean below which a deviation is only that of
// doubles. Totals that differ do so by more: a half point of a K of 0.1, even
// shared among all seats, is more of the greatest total.
const roundingShare = 1e-12

// MeanAndDeviation gives the mean of at least one value and their sample
// standard deviation, 0 for one value and for equal ones, in the values' unit.
func MeanAndDeviation(values []float64) (mean, deviation float64) {
	for _, x := range values {
		mean += x
	}
	mean /= float64(len(values))
	if len(values) < 2 {
		return mean, 0
	}
	squares := 0.0
	for _, x := range values {
		squares += (x - mean) * (x - mean)
	}
	deviation = math.Sqrt(squares / float64(len(values)-1))
	if deviation <= roundingShare*math.Abs(mean) {
		return mean, 0
	}
	return mean, deviation
}
