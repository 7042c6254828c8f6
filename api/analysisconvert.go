package api

import (
	"slices"

	"halfpoint/scoring"
	"halfpoint/scoring/panel"
)

// panel tells of the panel; with whole, of each judge too and of pilots by name.
func (a *analysis) panel(whole bool) PanelAnalysis {
	r := &a.report
	shown := PanelAnalysis{
		Head: headOf(a.part.Head), Contest: a.contest(), Category: a.categoryName(), Programme: named(a.behind.ID, a.programme.Name),
		Method: r.Method, Flights: r.Flights, Agreement: agreementOf(&r.Agreement), Winners: a.flown(r.Winners, whole),
		Without: make([]WithoutSeat, len(r.Without)), LargestRankChange: r.LargestRankChange, Published: a.state.OpenedAt,
	}
	for seat := range r.Without {
		w := &r.Without[seat]
		shown.Without[seat] = WithoutSeat{
			Seat: seat + 1, Judge: a.judgeNamed(w.Judge), Method: w.Method, LargestRankChange: w.LargestRankChange,
			Winners: a.flown(w.Winners, whole), Flights: a.flown(w.Pilots, whole),
		}
	}
	if whole {
		judges := make([]JudgeAnalysis, len(r.Judges))
		for seat := range judges {
			judges[seat] = a.judge(seat)
		}
		shown.Judges = &judges
	}
	return shown
}

func agreementOf(a *panel.Agreement) PanelAgreement {
	return PanelAgreement{
		Flights: a.Flights, Seats: a.Seats, IccSingle: known(a.ICCSingle), IccPanel: known(a.ICCPanel),
		KendallW: known(a.KendallW), CronbachAlpha: known(a.CronbachAlpha),
	}
}

// known is nil for a number that could not be computed.
func known(n panel.Number) *float64 {
	if !n.Defined() {
		return nil
	}
	value := float64(n)
	return &value
}

// flown are pilots of the bundle by the numbers of their flights.
func (a *analysis) flown(pilots []string, names bool) []AnalysedFlight {
	list := make([]AnalysedFlight, len(pilots))
	for i, code := range pilots {
		at := slices.IndexFunc(a.programme.Flights, func(f scoring.Flight) bool { return f.Pilot == code })
		list[i].Flight = a.behind.Flights[at].Number
		if name := a.pilots[code].Name; names {
			list[i].Pilot = &name
		}
	}
	return list
}

func (a *analysis) judgeNamed(code string) Named {
	for _, j := range a.part.Bundle.Judges {
		if j.ID == code {
			return named(a.part.Judges[code], j.Name)
		}
	}
	return Named{}
}

// judge tells of one seat.
func (a *analysis) judge(seat int) JudgeAnalysis {
	r := &a.report.Judges[seat]
	return JudgeAnalysis{
		Seat: seat + 1, Judge: a.judgeNamed(r.Judge), Flights: r.Flights,
		Grades: r.Grades.Count, Given: r.Grades.Given, Mean: known(r.Grades.Mean), Deviation: known(r.Grades.Deviation),
		Difference: known(r.Grades.Difference), Pearson: known(r.Pearson), Spearman: known(r.Spearman), Kendall: known(r.Kendall),
		OrderDisagreement: known(r.OrderDisagreement), HardZeros: CodesGiven(r.HardZeros), PerceptionZeros: CodesGiven(r.PerceptionZeros),
		NotSeen: CodesGiven(r.NotSeen), Distrusted: known(r.Distrusted), Weight: known(r.Weight), Accuracy: known(r.Accuracy),
		OwnPilots: r.Affiliation.Pilots, OwnDifference: known(r.Affiliation.Difference), OwnP: known(r.Affiliation.P),
		Levels: levelsOf(r.Levels),
	}
}

func levelsOf(levels []panel.Level) []AnalysedLevel {
	return each(levels, func(l *panel.Level) AnalysedLevel {
		return AnalysedLevel{Level: l.Level, Grades: l.Grades, Mean: l.Mean, Distance: l.Distance, Spread: l.Spread}
	})
}

// own tells of one seat beside what the panel is in all, which says of no other
// seat what it gave.
func (a *analysis) own(seat int) OwnAnalysis {
	return OwnAnalysis{
		Head: headOf(a.part.Head), Contest: a.contest(), Category: a.categoryName(), Programme: named(a.behind.ID, a.programme.Name),
		Seats: len(a.report.Judges), Judge: a.judge(seat), Panel: a.given(), Middle: a.middle(), Published: a.state.OpenedAt,
	}
}

// given is how often all seats together gave each grade.
func (a *analysis) given() []int {
	sums := make([]int, int(scoring.MaxGrade)+1)
	for i := range a.report.Judges {
		for grade, count := range a.report.Judges[i].Grades.Given {
			sums[grade] += count
		}
	}
	return sums
}

// middle is the middle value of each number over the seats that have it.
func (a *analysis) middle() MiddleOfPanel {
	of := func(number func(*panel.JudgeReport) panel.Number) *float64 {
		var values []float64
		for i := range a.report.Judges {
			if n := number(&a.report.Judges[i]); n.Defined() {
				values = append(values, float64(n))
			}
		}
		if len(values) == 0 {
			return nil
		}
		slices.Sort(values)
		value := quantile(values, 0.5)
		return &value
	}
	return MiddleOfPanel{
		Difference:        of(func(r *panel.JudgeReport) panel.Number { return r.Grades.Difference }),
		Deviation:         of(func(r *panel.JudgeReport) panel.Number { return r.Grades.Deviation }),
		Pearson:           of(func(r *panel.JudgeReport) panel.Number { return r.Pearson }),
		OrderDisagreement: of(func(r *panel.JudgeReport) panel.Number { return r.OrderDisagreement }),
		Distrusted:        of(func(r *panel.JudgeReport) panel.Number { return r.Distrusted }),
		Weight:            of(func(r *panel.JudgeReport) panel.Number { return r.Weight }),
		Accuracy:          of(func(r *panel.JudgeReport) panel.Number { return r.Accuracy }),
	}
}
