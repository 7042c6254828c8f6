package working

import (
	"math"

	"halfpoint/scoring"
)

// retained counts the totals of the flight that count.
func (m *maker) retained() (n int) {
	for _, s := range m.found.Seats {
		if !s.Discarded {
			n++
		}
	}
	return n
}

// totals shows how each seat's total was moved, and their mean.
func (m *maker) totals() {
	m.fillGaps()
	m.spreads()
	for d := 2; ; d++ {
		m.w.Decimals = d
		sum := 0.0
		for seat := range m.w.Seats {
			s := &m.w.Seats[seat]
			s.Moved = round(m.found.Seats[seat].UsedTotal, d)
			if s.Graded && !s.Discarded {
				sum += s.Moved
			}
		}
		m.w.Sum = round(sum/float64(m.retained()), max(d, 4))
		if d == mostOfValues || m.w.adds() {
			break
		}
	}
	m.shownTotals()
}

// fillGaps gives each gap the mean of its row, as the seats' totals have it.
func (m *maker) fillGaps() {
	for i := range m.w.Rows {
		row := &m.w.Rows[i]
		row.How = Apart
		mean := meanOf(row.Grades)
		for seat := range row.Grades {
			if g := &row.Grades[seat]; !g.Counts {
				g.Used, g.Counts = mean, true
			}
		}
	}
}

// spreads finds the mean and the standard deviation of each seat's retained
// totals over the flights, and what they are all moved to.
func (m *maker) spreads() {
	means, squares, n := 0.0, 0.0, 0
	for seat := range m.w.Seats {
		s := &m.w.Seats[seat]
		total, _ := m.total(m.flight, seat)
		s.Total, s.Graded, s.Discarded = total, m.clean.Graded(seat), m.found.Seats[seat].Discarded
		kept := m.column(seat)
		if len(kept) == 0 {
			continue
		}
		s.Mean, s.Deviation = scoring.MeanAndDeviation(kept)
		means += s.Mean
		squares += s.Deviation * s.Deviation
		n++
	}
	m.w.Level = Level{Mean: means / float64(n), Spread: math.Sqrt(squares / float64(n))}
}

// column lists a seat's totals that were retained, over all flights.
func (m *maker) column(seat int) (kept []float64) {
	for flight := range m.result.Flights {
		if total, counts := m.total(flight, seat); counts {
			kept = append(kept, total)
		}
	}
	return kept
}

// total is a seat's of a flight, gaps filled, and whether it was retained.
func (m *maker) total(flight, seat int) (total float64, counts bool) {
	clean, found := &m.table.Flights[flight], &m.result.Flights[flight]
	if !clean.Scored() {
		return 0, false
	}
	for i := range clean.Items {
		total += float64(clean.Items[i].K) / 10 * usedOf(clean.Row(i), seat)
	}
	return total, clean.Graded(seat) && !found.Seats[seat].Discarded
}

// usedOf is a seat's value of a row, the mean of the others where it is a gap.
func usedOf(row []scoring.Cell, seat int) float64 {
	if !row[seat].Gap {
		return row[seat].Value.Points()
	}
	sum, n := 0.0, 0
	for _, c := range row {
		if !c.Gap {
			sum += c.Value.Points()
			n++
		}
	}
	return sum / float64(max(n, 1))
}

// shownTotals rounds what the moved totals are made of to the fewest decimals
// with which a pocket calculator comes to each of them.
func (m *maker) shownTotals() {
	exact := *m.w
	for d := exact.Decimals; ; d++ {
		m.w.Factors, m.w.Rows, m.w.Seats = d, roundRows(exact.Rows, d), roundSeats(exact.Seats, d)
		m.w.Level = Level{Mean: round(exact.Level.Mean, d), Spread: round(exact.Level.Spread, d)}
		if d == MostDecimals || m.w.moves() {
			return
		}
	}
}

func roundSeats(exact []Seat, decimals int) []Seat {
	seats := make([]Seat, len(exact))
	for i, s := range exact {
		s.Total, s.Mean, s.Deviation = round(s.Total, decimals), round(s.Mean, decimals), round(s.Deviation, decimals)
		seats[i] = s
	}
	return seats
}

func roundRows(exact []Row, decimals int) []Row {
	rows := make([]Row, len(exact))
	for i, row := range exact {
		grades := make([]Grade, len(row.Grades))
		for seat, g := range row.Grades {
			g.Used = round(g.Used, decimals)
			grades[seat] = g
		}
		row.Grades = grades
		rows[i] = row
	}
	return rows
}

// moves tells whether each total and each moved total follows from what is shown,
// to one in the last place of what is moved.
func (w *Working) moves() bool {
	off := func(byHand, shown float64) bool { return math.Abs(byHand-shown) >= math.Pow10(-w.Decimals) }
	for seat, s := range w.Seats {
		total := 0.0
		for i := range w.Rows {
			total += w.Rows[i].K * w.Rows[i].Grades[seat].Used
		}
		if s.Graded && (off(total, s.Total) || off(s.moved(w.Level), s.Moved)) {
			return false
		}
	}
	return true
}

// moved is where a seat's total comes to stand, by what is shown.
func (s *Seat) moved(to Level) float64 {
	stretch := 1.0
	if s.Deviation > 0 {
		stretch = to.Spread / s.Deviation
	}
	return to.Mean + (s.Total-s.Mean)*stretch
}
