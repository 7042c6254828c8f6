package scoring

import "math"

const (
	leastSeats      = 4    // for the normalised method and the consensus
	leastFlights    = 5    // likewise
	leastRetained   = 3    // totals that a flight keeps under the normalised method
	normalisePasses = 100  // at most
	equallyFar      = 1e-9 // the share of a distance by which doubles may make equal ones differ
)

// scoreNormalised moves the seats' totals to a common mean and standard
// deviation and discards those that are too far from the others of a flight.
func scoreNormalised(t *Table) ([]flightFit, bool) {
	flights := t.Scored()
	if t.Seats < leastSeats || len(flights) < leastFlights {
		return nil, false
	}
	fits := make([]flightFit, len(flights))
	for i, f := range flights {
		fits[i] = fitByMeans(f, func([]Cell) []bool { return nil })
	}
	n := newNormaliser(flights, fits, t.Seats)
	n.run(t.Programme.Method.Discard)
	for i := range fits {
		n.report(i, &fits[i])
	}
	addStandardErrors(flights, fits)
	return fits, true
}

// A normaliser holds the totals by flight, then seat.
type normaliser struct {
	totals   [][]float64
	z        [][]float64 // moved totals
	graded   [][]bool    // there is a total
	retained [][]bool    // the total is not discarded
	grades   []int       // by seat: flights graded
	keeps    []int       // by seat: flights retained
}

func newNormaliser(flights []*CleanFlight, fits []flightFit, seats int) *normaliser {
	n := &normaliser{grades: make([]int, seats), keeps: make([]int, seats)}
	for i, f := range flights {
		graded, retained := make([]bool, seats), make([]bool, seats)
		for seat := range seats {
			if f.Graded(seat) {
				graded[seat], retained[seat] = true, true
				n.grades[seat]++
				n.keeps[seat]++
			}
		}
		n.totals = append(n.totals, fits[i].totals)
		n.z = append(n.z, make([]float64, seats))
		n.graded = append(n.graded, graded)
		n.retained = append(n.retained, retained)
	}
	return n
}

// run moves and discards until nothing is discarded any more.
func (n *normaliser) run(limit float64) {
	for range normalisePasses {
		n.move()
		discarded := false
		for flight := range n.z {
			if seat := n.farthest(flight, limit); seat >= 0 {
				n.retained[flight][seat] = false
				n.keeps[seat]--
				discarded = true
			}
		}
		if !discarded {
			return
		}
	}
	n.move()
}

// move brings each seat's retained totals to the mean of the seats' means and
// to the root mean square of their standard deviations.
func (n *normaliser) move() {
	seats := len(n.grades)
	means, deviations := make([]float64, seats), make([]float64, seats)
	var mean, square moments
	for seat := range seats {
		if kept := n.column(seat); len(kept) > 0 {
			means[seat], deviations[seat] = MeanAndDeviation(kept)
			mean.add(means[seat])
			square.add(deviations[seat] * deviations[seat])
		}
	}
	spread := math.Sqrt(square.mean())
	for flight := range n.z {
		for seat, t := range n.totals[flight] {
			stretch := 1.0
			if deviations[seat] > 0 {
				stretch = spread / deviations[seat]
			}
			n.z[flight][seat] = mean.mean() + (t-means[seat])*stretch
		}
	}
}

// column lists a seat's retained totals.
func (n *normaliser) column(seat int) []float64 {
	var kept []float64
	for flight, totals := range n.totals {
		if n.retained[flight][seat] {
			kept = append(kept, totals[seat])
		}
	}
	return kept
}

// farthest finds the seat whose total of a flight is to be discarded, the
// lower one of two, or -1: the farthest from the mean of those that may be
// discarded, if it is farther than limit standard deviations. Where all are the
// same nobody is far.
func (n *normaliser) farthest(flight int, limit float64) int {
	kept := n.row(flight)
	if len(kept) <= leastRetained {
		return -1
	}
	mean, deviation := MeanAndDeviation(kept)
	if deviation == 0 {
		return -1
	}
	found, most := -1, limit*deviation
	for seat, z := range n.z[flight] {
		mayGo := n.retained[flight][seat] && 2*(n.keeps[seat]-1) >= n.grades[seat]
		if distance := math.Abs(z - mean); mayGo && distance > most*(1+equallyFar) {
			found, most = seat, distance
		}
	}
	return found
}

// row lists a flight's retained moved totals.
func (n *normaliser) row(flight int) []float64 {
	var kept []float64
	for seat, z := range n.z[flight] {
		if n.retained[flight][seat] {
			kept = append(kept, z)
		}
	}
	return kept
}

// report writes a flight's moved totals into its fit. A flight that no seat
// graded keeps its mean score.
func (n *normaliser) report(flight int, fit *flightFit) {
	if kept := n.row(flight); len(kept) > 0 {
		fit.panelScore, _ = MeanAndDeviation(kept)
	}
	fit.totals = n.z[flight]
	for seat, graded := range n.graded[flight] {
		fit.discarded[seat] = !n.retained[flight][seat]
		if !graded {
			fit.totals[seat] = 0
		}
	}
}
