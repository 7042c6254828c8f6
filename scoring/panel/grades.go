package panel

import "halfpoint/scoring"

// grades describes the numeric grades that a seat gave, and how far they are
// above the other seats' numeric grades for the same items.
func (s *sheets) grades(seat int) Grades {
	var given, above []float64
	counts := make([]int, scoring.MaxGrade+1)
	for _, f := range s.flights {
		for item := range f.Items {
			grade, others := numericGrades(f, item, seat)
			if grade == nil {
				continue
			}
			given = append(given, *grade)
			counts[f.Row(item)[seat].Grade]++
			if len(others) > 0 {
				above = append(above, *grade-mean(others))
			}
		}
	}
	return Grades{
		Count: len(given), Mean: Number(mean(given)),
		Deviation: Number(deviation(given)), Difference: Number(mean(above)),
		Given: counts,
	}
}

// numericGrades gives the seat's grade of an item, nil where that is not a
// number, and those of the other seats.
func numericGrades(f *scoring.CleanFlight, item, seat int) (own *float64, others []float64) {
	for other, c := range f.Row(item) {
		if !c.Grade.Numeric() || f.Absent[other] {
			continue
		}
		points := c.Grade.Points()
		if other == seat {
			own = &points
		} else {
			others = append(others, points)
		}
	}
	return own, others
}

// countCodes counts the codes that a seat gave.
func (s *sheets) countCodes(seat int, report *JudgeReport) {
	for _, f := range s.flights {
		if f.Absent[seat] {
			continue
		}
		for item := range f.Items {
			c := f.Row(item)[seat]
			zero := !c.Gap && c.Value == 0 && c.Reason != scoring.ReasonGradeSet
			switch c.Grade {
			case scoring.HardZero:
				report.HardZeros.count(zero)
			case scoring.PerceptionZero:
				report.PerceptionZeros.count(zero)
			case scoring.NotSeen:
				report.NotSeen.count(c.Gap)
			}
		}
	}
}

func (c *CodeCount) count(upheld bool) {
	c.Given++
	if upheld {
		c.Upheld++
	}
}
