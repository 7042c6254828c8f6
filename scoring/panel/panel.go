// Package panel says how good a panel of judges is: how each judge's grades,
// order and exactness compare with those of the others, how far the panel
// agrees with itself, and how much the result hangs on one seat.
//
// It works on the flights that are complete and resolved. A gap (a grade that
// does not count) is filled with the mean of the others; a flight that a seat
// did not grade at all (absent, or "not seen" throughout) says nothing about
// that seat and is left out of its numbers.
package panel

import "halfpoint/scoring"

// Analyse looks at every programme of a bundle.
func Analyse(b *scoring.Bundle) *Report {
	affiliations := affiliationsOf(b)
	report := &Report{Format: Format, Categories: make([]CategoryReport, len(b.Categories))}
	for i := range b.Categories {
		c := &b.Categories[i]
		programmes := make([]ProgrammeReport, len(c.Programmes))
		for index := range c.Programmes {
			programmes[index] = analyse(c, index, affiliations)
		}
		report.Categories[i] = CategoryReport{ID: c.ID, Programmes: programmes}
	}
	return report
}

// Programme looks at one programme of a bundle, by the places of its category
// and of itself in that.
func Programme(b *scoring.Bundle, category, index int) ProgrammeReport {
	return analyse(&b.Categories[category], index, affiliationsOf(b))
}

// analyse looks at one programme of a category.
func analyse(c *scoring.Category, index int, affiliations affiliations) ProgrammeReport {
	result := scoring.ScoreProgramme(c, index)
	s := newSheets(scoring.Clean(&c.Programmes[index]), &result)
	report := ProgrammeReport{
		ID: result.ID, Method: result.UsedMethod(), Flights: len(s.flights),
		Judges: make([]JudgeReport, s.seats), Agreement: s.agreement(),
	}
	spreads := s.spreads()
	accuracies := s.accuracies(spreads)
	for seat, judge := range c.Programmes[index].Panel {
		report.Judges[seat] = s.judge(seat, judge)
		report.Judges[seat].Accuracy = Number(accuracies[seat])
		report.Judges[seat].Levels = s.levels(seat, spreads)
		report.Judges[seat].Affiliation = s.affiliation(seat, judge, affiliations)
	}
	report.Winners = winners(ranksOf(&result))
	report.Without = leaveOut(c, index, &result)
	for _, without := range report.Without {
		report.LargestRankChange = max(report.LargestRankChange, without.LargestRankChange)
	}
	return report
}

// judge is what the seat's grades and totals tell; the rest is added later.
func (s *sheets) judge(seat int, judge string) JudgeReport {
	own, others := s.againstOthers(seat)
	report := JudgeReport{
		Judge: judge, Seat: seat + 1, Flights: s.flightsOf(seat), Grades: s.grades(seat),
		Pearson: Number(pearson(own, others)), Spearman: Number(spearman(own, others)), Kendall: Number(kendall(own, others)),
		OrderDisagreement: Number(orderDisagreement(s.againstPanel(seat))),
		Distrusted:        Number(s.distrusted(seat)), Weight: Number(s.weight(seat)),
	}
	s.countCodes(seat, &report)
	return report
}
