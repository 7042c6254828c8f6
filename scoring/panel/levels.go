package panel

import (
	"math"

	"halfpoint/scoring"
)

// levels tells how a seat graded at each level at which it did, the levels
// being the panel's values to the point.
func (s *sheets) levels(seat int, spreads []float64) []Level {
	at := make([]Level, int(scoring.MaxGrade.Points())+1)
	for i, c := range s.cells {
		if c.seat != seat {
			continue
		}
		l := &at[int(math.Round(c.value))]
		l.Grades++
		l.Mean += c.off
		l.Distance += c.off * c.off
		l.Spread += spreads[i] * spreads[i]
	}
	levels := []Level{}
	for value, l := range at {
		if l.Grades > 0 {
			n := float64(l.Grades)
			levels = append(levels, Level{value, l.Grades, l.Mean / n, math.Sqrt(l.Distance / n), math.Sqrt(l.Spread / n)})
		}
	}
	return levels
}
