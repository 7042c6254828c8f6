package db

import (
	"fmt"
	"slices"
	"strings"

	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// flight is a flight as it is scored: what its records come to, in the words of
// a bundle. A seat that has recorded nothing has no sheet.
func (r *partReader) flight(f *Flight, state *line.Flight) scoring.Flight {
	outcome := state.Outcome()
	flight := scoring.Flight{
		Pilot: r.pilots[f.Pilot.ID], Status: outcome.Status,
		Sheets: []scoring.Sheet{}, Rulings: []scoring.Ruling{}, Penalties: []scoring.Penalty{},
	}
	flight.Sequence = r.sequence(sequenceKey{f.Programme, f.Pilot.ID})
	if r.scope.told {
		flight.Description = f.Description
	}
	if r.scope.public && !isClosed(state) {
		if !isOver(state) {
			flight.Status = scoring.Scheduled
		}
		return flight
	}
	inOrderMade(&outcome, state)
	r.fill(&flight, &outcome)
	return flight
}

// fill adds what was graded and decided.
func (r *partReader) fill(flight *scoring.Flight, outcome *line.Outcome) {
	for _, column := range outcome.Sheets {
		if sheet := r.sheet(&column); !isBlank(&sheet) {
			flight.Sheets = append(flight.Sheets, sheet)
		}
	}
	for _, d := range outcome.Rulings {
		flight.Rulings = append(flight.Rulings, ruling(d))
	}
	for _, p := range outcome.Penalties {
		flight.Penalties = append(flight.Penalties, scoring.Penalty{Kind: p.Kind, Count: p.Count, Points: p.Points})
	}
}

func (r *partReader) sheet(c *line.Column) scoring.Sheet {
	s := scoring.Sheet{Judge: r.judges[c.Judge], By: r.judges[c.By], Absent: c.Absent, Remarks: c.Remarks}
	s.Grades = make([]scoring.Grade, len(c.Grades))
	for i, text := range c.Grades {
		s.Grades[i] = grade(text)
	}
	if s.Absent && !hasGrades(&s) {
		s.Grades = []scoring.Grade{}
	}
	return s
}

func hasGrades(s *scoring.Sheet) bool {
	return slices.ContainsFunc(s.Grades, func(g scoring.Grade) bool { return g != scoring.NotEntered })
}

func isBlank(s *scoring.Sheet) bool { return !s.Absent && !hasGrades(s) && s.Remarks == nil }

func ruling(d line.Decision) scoring.Ruling {
	r := scoring.Ruling{Item: d.Item, Ruling: d.Ruling}
	if d.Ruling == scoring.GradeSet {
		set := grade(d.Grade)
		r.Grade = &set
	}
	return r
}

// inOrderMade puts rulings and penalties in the order in which they were made,
// which their ids tell.
func inOrderMade(o *line.Outcome, state *line.Flight) {
	attempt := state.CountingAttempt()
	if attempt == nil {
		return
	}
	made := map[string]string{}
	for _, r := range attempt.Rulings {
		made[rulingKey(r.Item, r.Ruling)] = slices.Min(r.Heads)
	}
	for _, p := range attempt.Penalties {
		made[p.Kind] = slices.Min(p.Heads)
	}
	slices.SortFunc(o.Rulings, func(a, b line.Decision) int {
		return strings.Compare(made[rulingKey(a.Item, a.Ruling)], made[rulingKey(b.Item, b.Ruling)])
	})
	slices.SortFunc(o.Penalties, func(a, b line.Penalty) int { return strings.Compare(made[a.Kind], made[b.Kind]) })
}

func rulingKey(item int, ruling string) string { return fmt.Sprint(item, ruling) }

// grade reads a grade of a record, which was checked when it was stored.
func grade(text string) scoring.Grade {
	g, err := scoring.ParseGrade(text)
	if err != nil {
		return scoring.NotEntered
	}
	return g
}
