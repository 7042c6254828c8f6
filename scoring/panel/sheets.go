package panel

import (
	"math"

	"halfpoint/scoring"
)

// sheets are the scored flights of a programme, as its panel graded them.
type sheets struct {
	seats    int
	flights  []*scoring.CleanFlight
	evidence []scoring.Evidence // by flight; empty where the consensus cannot be had
	graded   [][]bool           // by flight, then seat
	totals   [][]float64        // by flight, then seat: points, gaps filled
	scores   []float64          // by flight: panel score before penalties
	cells    []cell             // by flight, item and seat
}

// A cell is a grade that counts, held against the panel's value.
type cell struct {
	flight, seat int
	k            float64
	value        float64 // the panel's, 0 to 10
	off          float64 // grade as it counts less the panel's value
	residual     float64 // the same without the seat's style and shift, where the consensus knows them
	trust        float64 // 0 to 1; NaN where the consensus cannot be had
}

func newSheets(t *scoring.Table, result *scoring.ProgrammeResult) *sheets {
	s := &sheets{seats: t.Seats}
	for i := range t.Flights {
		if f := &t.Flights[i]; f.Scored() {
			s.flights = append(s.flights, f)
			s.scores = append(s.scores, result.Flights[i].PanelScore)
		}
	}
	s.evidence, _ = t.Evidence()
	for i, f := range s.flights {
		s.graded = append(s.graded, gradedBy(f))
		s.totals = append(s.totals, totalsOf(f))
		for item := range f.Items {
			s.addCells(i, item)
		}
	}
	return s
}

func gradedBy(f *scoring.CleanFlight) []bool {
	graded := make([]bool, len(f.Absent))
	for seat := range graded {
		graded[seat] = f.Graded(seat)
	}
	return graded
}

// totalsOf adds up K × grade for each seat, a gap being worth the mean of the
// others.
func totalsOf(f *scoring.CleanFlight) []float64 {
	totals := make([]float64, len(f.Absent))
	for item := range f.Items {
		row := f.Row(item)
		mean := rowMean(row)
		for seat, c := range row {
			value := c.Value.Points()
			if c.Gap {
				value = mean
			}
			totals[seat] += kOf(f, item) * value
		}
	}
	return totals
}

func kOf(f *scoring.CleanFlight, item int) float64 { return float64(f.Items[item].K) / 10 }

// rowMean is the mean of a row's cells that are not gaps, in points.
func rowMean(row []scoring.Cell) float64 {
	sum, n := 0.0, 0
	for _, c := range row {
		if !c.Gap {
			sum += c.Value.Points()
			n++
		}
	}
	return sum / float64(n)
}

// addCells holds the grades of an item against the panel's value: the
// consensus, or the mean where that cannot be had. An item that is 0 for every
// seat, or whose grade the chief judge set, says nothing about how exactly they
// grade.
func (s *sheets) addCells(flight, item int) {
	row := s.flights[flight].Row(item)
	mean := rowMean(row)
	if mean == 0 {
		return
	}
	for seat, c := range row {
		if c.Gap || c.Reason == scoring.ReasonGradeSet {
			continue
		}
		grade := c.Value.Points()
		one := cell{
			flight: flight, seat: seat, k: kOf(s.flights[flight], item),
			value: mean, off: grade - mean, residual: grade - mean, trust: math.NaN(),
		}
		if len(s.evidence) > 0 {
			one.weigh(&s.evidence[flight], item*s.seats+seat, grade)
		}
		s.cells = append(s.cells, one)
	}
}

// weigh takes the panel's value and the rest from the consensus.
func (c *cell) weigh(e *scoring.Evidence, at int, grade float64) {
	trust := e.Trust[at]
	c.value = min(max(trust.Fitted, 0), scoring.MaxGrade.Points())
	c.off, c.residual, c.trust = grade-c.value, e.Used[at]-trust.Fitted, trust.Weight
}

// flightsOf counts the flights that a seat graded.
func (s *sheets) flightsOf(seat int) (n int) {
	for _, graded := range s.graded {
		if graded[seat] {
			n++
		}
	}
	return n
}

// againstOthers gives a seat's totals, and the means of the other seats' totals
// of the same flights: those that the seat and some other graded.
func (s *sheets) againstOthers(seat int) (own, others []float64) {
	for f, graded := range s.graded {
		sum, n := 0.0, 0
		for other, total := range s.totals[f] {
			if other != seat && graded[other] {
				sum += total
				n++
			}
		}
		if graded[seat] && n > 0 {
			own = append(own, s.totals[f][seat])
			others = append(others, sum/float64(n))
		}
	}
	return own, others
}

// againstPanel gives a seat's totals and the panel scores of the flights that
// the seat graded.
func (s *sheets) againstPanel(seat int) (own, panel []float64) {
	for f, graded := range s.graded {
		if graded[seat] {
			own = append(own, s.totals[f][seat])
			panel = append(panel, s.scores[f])
		}
	}
	return own, panel
}

// distrusted is the share of a seat's cells that the consensus trusts by less
// than half.
func (s *sheets) distrusted(seat int) float64 {
	below, n := 0.0, 0.0
	for _, c := range s.cells {
		if c.seat != seat {
			continue
		}
		if math.IsNaN(c.trust) {
			return c.trust
		}
		if n++; c.trust < 0.5 {
			below++
		}
	}
	return below / n
}

// weight is a seat's share under the consensus.
func (s *sheets) weight(seat int) float64 {
	if len(s.evidence) == 0 {
		return math.NaN()
	}
	return s.evidence[0].Weights[seat]
}
