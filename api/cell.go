package api

import (
	"halfpoint/scoring"
)

// A cell is a grade with what the method made of it.
type cell struct {
	grade  scoring.Grade
	used   float64
	reason scoring.Reason
	out    bool           // trimmed, whatever its reason says
	trust  *scoring.Trust // the consensus's alone, and not of every cell
}

// cells are those of a flight, by item, each by seat. Results tell only of the
// cells that there is something to say about; the others count as graded.
func (p *programmeParts) cells(flight int, result *scoring.FlightResult) [][]cell {
	clean := &p.table.Flights[flight]
	rows := make([][]cell, len(clean.Items))
	for item := range rows {
		if clean.Cells == nil {
			continue
		}
		for _, c := range clean.Row(item) {
			rows[item] = append(rows[item], cell{grade: c.Grade, used: c.Grade.Points()})
		}
	}
	for i := range result.Cells {
		told := &result.Cells[i]
		rows[told.Item-1][p.seats[told.Judge]] = cell{grade: told.Grade, used: told.Used, reason: told.Reason, trust: told.Trust}
	}
	if p.used == scoring.TrimmedMean && result.Judged != nil {
		p.trim(clean, rows)
	}
	return rows
}

// trim marks the cells that the trimmed mean leaves out.
func (p *programmeParts) trim(clean *scoring.CleanFlight, rows [][]cell) {
	for item := range rows {
		for seat, out := range scoring.TrimmedSeats(clean.Row(item), p.programme.Method.Trim) {
			rows[item][seat].out = out
		}
	}
}

// panelValues are the panel's values of a flight's items, 0 to 10; nil where
// the flight was not judged.
func panelValues(f *scoring.FlightResult, rows [][]cell) []float64 {
	if f.Judged == nil {
		return nil
	}
	values := make([]float64, len(rows))
	for i, row := range rows {
		values[i] = panelValue(f, row)
	}
	return values
}

// panelValue is the panel's value of an item. The consensus says it; under the
// other methods it is the mean over the seats and grades that count.
func panelValue(f *scoring.FlightResult, row []cell) float64 {
	sum, weights := 0.0, 0.0
	for seat, c := range row {
		if c.trust != nil {
			return min(max(c.trust.Fitted, 0), scoring.MaxGrade.Points())
		}
		if f.Seats[seat].Discarded || c.out {
			continue
		}
		sum += f.Seats[seat].Weight * c.used
		weights += f.Seats[seat].Weight
	}
	if weights == 0 {
		return 0
	}
	return sum / weights
}
