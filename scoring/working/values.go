package working

import (
	"math"

	"halfpoint/scoring"
)

// means makes values as the means of the grades that count.
func (m *maker) means() {
	m.w.Factors, m.w.Seats = 1, nil
	values := make([]float64, len(m.w.Rows))
	for i := range m.w.Rows {
		m.trim(i)
		values[i] = meanOf(m.w.Rows[i].Grades)
	}
	m.finish(values)
}

// trim leaves out what the trimmed mean does. Not every such grade says so as
// its reason: it may have another.
func (m *maker) trim(item int) {
	if m.w.Method != scoring.TrimmedMean {
		return
	}
	out := scoring.TrimmedSeats(m.clean.Row(item), m.table.Programme.Method.Trim)
	for seat := range out {
		if out[seat] {
			m.w.Rows[item].Grades[seat].Counts = false
		}
	}
}

func meanOf(grades []Grade) float64 {
	sum, n := 0.0, 0
	for _, g := range grades {
		if g.Counts {
			sum += g.Used
			n++
		}
	}
	return sum / float64(max(n, 1))
}

// consensus takes the values as they were fitted, and shows the factors to as
// many decimals as it takes to come to them by hand.
func (m *maker) consensus() {
	values := make([]float64, len(m.w.Rows))
	for i := range m.w.Rows {
		m.w.Rows[i].How = AllZeros
	}
	m.each(func(cell *scoring.CellResult, g *Grade) {
		g.Used = cell.Used
		if cell.Trust == nil {
			return
		}
		row := &m.w.Rows[cell.Item-1]
		g.Trust, row.How = cell.Weight, ByTrust
		values[cell.Item-1] = min(max(cell.Fitted, 0), scoring.MaxGrade.Points())
	})
	m.finish(values)
	m.factors()
}

// factors finds the fewest decimals of the factors with which every row comes out
// by hand. Rows that do not with three more than the values have are left as they
// were fitted.
func (m *maker) factors() {
	most := min(m.w.Decimals+3, MostDecimals)
	for d := 3; d <= most; d++ {
		m.w.Factors = d
		if len(m.left(d)) == 0 {
			break
		}
	}
	for _, i := range m.left(m.w.Factors) {
		m.w.Rows[i].How = ByFit
	}
	m.show(m.w.Factors)
}

// left are the rows that do not come out by factors of so many decimals.
func (m *maker) left(decimals int) (rows []int) {
	for i := range m.w.Rows {
		if m.w.Rows[i].How == ByTrust && !m.comes(&m.w.Rows[i], decimals) {
			rows = append(rows, i)
		}
	}
	return rows
}

// comes tells whether the weighted mean of a row, by factors of so many
// decimals, is its value to one in the last place.
func (m *maker) comes(row *Row, decimals int) bool {
	sum, all := 0.0, 0.0
	for seat, g := range row.Grades {
		if !g.Counts {
			continue
		}
		weight := round(m.found.Seats[seat].Weight, decimals) * round(g.Trust, decimals)
		sum += weight * round(g.Used, decimals)
		all += weight
	}
	if all == 0 {
		return false
	}
	value := min(max(sum/all, 0), scoring.MaxGrade.Points())
	return math.Abs(value-row.Value) < math.Pow10(-m.w.Decimals)
}

// show rounds the factors.
func (m *maker) show(decimals int) {
	for i := range m.w.Rows {
		for seat := range m.w.Rows[i].Grades {
			g := &m.w.Rows[i].Grades[seat]
			g.Used, g.Trust = round(g.Used, decimals), round(g.Trust, decimals)
		}
	}
	for seat := range m.w.Seats {
		m.w.Seats[seat].Share = round(m.found.Seats[seat].Weight, decimals)
	}
}
