package scoring

import (
	"fmt"
	"slices"
)

// programmeOf makes a known programme of a table, scored by a method with all
// its defaults.
func programmeOf(t *GradeTable, method string) *Programme {
	p := &Programme{ID: "p", Kind: Known, Counts: true, Method: DefaultMethod(method)}
	for seat := range t.Seats {
		p.Panel = append(p.Panel, fmt.Sprintf("j%d", seat+1))
	}
	var pilots []Pilot
	for flight := range t.Flights {
		pilots = append(pilots, Pilot{ID: fmt.Sprintf("p%d", flight+1)})
	}
	fillProgramme(p, t, pilots)
	return p
}

// makeFree gives each flight of a known programme a sequence of its own.
func makeFree(p *Programme) {
	p.Kind = Free
	for i := range p.Flights {
		p.Flights[i].Sequence = copyOf(p.Sequence)
	}
	p.Sequence = nil
}

func noCodes(p *Programme) {
	grades(p, func(_, _ int, g Grade) Grade { return max(g, 1) })
}

// changed is a copy of a programme with something else in it.
func changed(p *Programme, change func(*Programme)) *Programme {
	other := *p
	other.Panel, other.Flights = slices.Clone(p.Panel), slices.Clone(p.Flights)
	for i := range other.Flights {
		f := &other.Flights[i]
		f.Sheets = slices.Clone(f.Sheets)
		for j := range f.Sheets {
			f.Sheets[j].Grades = slices.Clone(f.Sheets[j].Grades)
		}
		f.Sequence = copyOf(f.Sequence)
	}
	other.Sequence = copyOf(p.Sequence)
	change(&other)
	return &other
}

func copyOf(s *Sequence) *Sequence {
	if s == nil {
		return nil
	}
	return &Sequence{Items: slices.Clone(s.Items)}
}

// grades changes every grade of a programme, given where it stands.
func grades(p *Programme, change func(seat, item int, g Grade) Grade) {
	for i := range p.Flights {
		for seat, sheet := range p.Flights[i].Sheets {
			for item, g := range sheet.Grades {
				sheet.Grades[item] = change(seat, item, g)
			}
		}
	}
}

// ks changes every K of a programme.
func ks(p *Programme, change func(K) K) {
	changeAll := func(s *Sequence) {
		for i := range s.Items {
			s.Items[i].K = change(s.Items[i].K)
		}
	}
	if !p.OwnSequences() {
		changeAll(p.Sequence)
		return
	}
	for i := range p.Flights {
		changeAll(p.Flights[i].Sequence)
	}
}

// panelScores gives the scores of the scored flights by pilot.
func panelScores(p *Programme) map[string]float64 {
	table := Clean(p)
	fits, _ := fit(table)
	byPilot := map[string]float64{}
	for i, f := range table.Scored() {
		byPilot[f.Flight.Pilot] = fits[i].panelScore
	}
	return byPilot
}
