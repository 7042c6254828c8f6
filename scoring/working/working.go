// Package working writes down how the score of a flight came about, in numbers
// that add up by hand: each is rounded to as many decimals as it takes for a
// pocket calculator to come to the published score from them.
//
// [Of] makes the working of one flight. Of every method the last steps are the
// same: points add up, penalties come off, and the rest is rounded to two
// decimals. What goes before differs: see [Row] and [Seat].
package working

import (
	"math"

	"halfpoint/scoring"
)

// How the panel's value of an item came about.
const (
	ByMean   = "mean"     // of the grades that count
	ByTrust  = "weighted" // the mean of what the grades are used as, weighed by share times trust
	ByFit    = "fit"      // as the consensus found it: too little is trusted for a sum by hand
	AllZeros = "zeros"    // it counts 0
	Apart    = "apart"    // each seat's total is made by itself
)

// A Working is how a flight's score came about. Of a number "shown" the value is
// rounded to the decimals named.
type Working struct {
	Method   string // that made the score
	Decimals int    // of values, points and moved totals: 2 to 8
	Factors  int    // of what they are made of: 1 to 11
	Rows     []Row  // one for each item
	Seats    []Seat // of the normalised method alone
	Level    Level  // likewise
	// Sum is what the rows' points add up to, or the mean of the seats' moved
	// totals: the panel score, to so many decimals.
	Sum       float64
	Penalties float64 // points taken off, all together
	Score     float64 // as published
	Best      float64 // 10 × ΣK
	Percent   float64 // as published
}

// A Row is one item: K × value = points. Under the normalised method there is
// no value, and each seat's used grades count towards its total.
type Row struct {
	K      float64
	How    string
	Grades []Grade // one for each seat
	Value  float64 // shown
	Points float64 // shown
}

// A Grade is what one seat's grade counted as.
type Grade struct {
	Grade  scoring.Grade
	Used   float64 // shown to Factors decimals
	Counts bool    // it goes into the value, or into the seat's total
	Trust  float64 // the consensus's alone, shown to Factors decimals
}

// A Seat is what one seat made of the whole flight, under the normalised
// method: moved = mean of all + (total − own mean) × spread / own spread. Under
// the consensus only its share is set.
type Seat struct {
	Share     float64 // of the panel, shown to Factors decimals: the consensus's
	Total     float64 // Σ K × used, shown to Factors decimals
	Mean      float64 // of its retained totals, likewise
	Deviation float64 // of these, likewise; 0: its totals are only moved
	Moved     float64 // shown to Decimals
	Graded    bool    // it has a total
	Discarded bool    // the total is left out
}

// A Level is what the normalised method moves the seats' totals to.
type Level struct {
	Mean   float64 // of the seats' means, shown to Factors decimals
	Spread float64 // the root mean square of their standard deviations, likewise
}

// Of is the working of a flight, by its place in the programme; false where it
// was not judged. The result is the programme's.
func Of(programme *scoring.Programme, result *scoring.ProgrammeResult, flight int) (*Working, bool) {
	found := &result.Flights[flight]
	if found.Judged == nil || found.Placing == nil {
		return nil, false
	}
	m := &maker{
		table: scoring.Clean(programme), result: result, found: found, flight: flight,
		w: &Working{Method: result.UsedMethod(), Penalties: found.Penalties, Score: found.Score, Percent: found.Percent},
	}
	m.clean = &m.table.Flights[flight]
	m.items()
	switch {
	case m.w.Method == scoring.Normalised && m.retained() > 0:
		m.totals()
	case m.w.Method == scoring.Consensus:
		m.consensus()
	default:
		m.means()
	}
	return m.w, true
}

// maker makes a working.
type maker struct {
	table  *scoring.Table
	result *scoring.ProgrammeResult
	found  *scoring.FlightResult
	flight int
	clean  *scoring.CleanFlight
	w      *Working
}

// items sets out the rows with what each grade counts as.
func (m *maker) items() {
	seats := len(m.clean.Absent)
	m.w.Rows, m.w.Seats = make([]Row, len(m.clean.Items)), make([]Seat, seats)
	for i := range m.w.Rows {
		k := float64(m.clean.Items[i].K) / 10
		m.w.Best += 10 * k
		m.w.Rows[i] = Row{K: k, How: ByMean, Grades: make([]Grade, seats)}
		for seat, c := range m.clean.Row(i) {
			m.w.Rows[i].Grades[seat] = Grade{Grade: c.Grade, Used: c.Value.Points(), Counts: !c.Gap}
		}
	}
}

// each calls use for every cell that the results tell something of.
func (m *maker) each(use func(cell *scoring.CellResult, g *Grade)) {
	seats := map[string]int{}
	for seat := range m.found.Seats {
		seats[m.found.Seats[seat].Judge] = seat
	}
	for i := range m.found.Cells {
		c := &m.found.Cells[i]
		use(c, &m.w.Rows[c.Item-1].Grades[seats[c.Judge]])
	}
}

// MostDecimals is how many decimals a number shown has at most.
const MostDecimals = 11

// mostOfValues is how many decimals values and points have at most.
const mostOfValues = 8

// finish rounds values, points and sum to the fewest decimals, two at least,
// with which the sum by hand is the published score.
func (m *maker) finish(values []float64) {
	for d := 2; ; d++ {
		m.w.Decimals, m.w.Sum = d, 0
		sum := int64(0)
		for i := range m.w.Rows {
			row := &m.w.Rows[i]
			row.Value = round(values[i], d)
			row.Points = round(row.K*row.Value, d)
			sum += units(row.Points, d)
		}
		m.w.Sum = float64(sum) / math.Pow10(d)
		if d == mostOfValues || m.w.adds() {
			return
		}
	}
}

// adds tells whether sum less penalties, not below 0 and rounded by hand, is the
// score.
func (w *Working) adds() bool {
	d := max(w.Decimals, 4)
	left := max(0, units(w.Sum, d)-units(w.Penalties, d))
	step := int64(math.Pow10(d - 2))
	return (left+step/2)/step == units(w.Score, 2)
}

// units is a number in units of its last decimal.
func units(x float64, decimals int) int64 { return int64(math.Round(x * math.Pow10(decimals))) }

func round(x float64, decimals int) float64 {
	return float64(units(x, decimals)) / math.Pow10(decimals)
}
