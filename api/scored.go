package api

import (
	"context"
	"slices"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
	figurekind "halfpoint/scoring/kind"
	"halfpoint/scoring/line"
)

// A scoredProgramme is a programme as it stood at a version, with its results.
// It is shared by requests and never changed.
type scoredProgramme struct {
	*programmeParts
	result    scoring.ProgrammeResult
	values    [][]float64 // by flight, then item: the panel's values; nil where not judged
	quartiles []Quartiles // by item, of the values; none where each pilot has the own sequence
	ranks     int
}

// newProgrammes keeps programmes as they are read and scored; of names them in the
// metrics.
func newProgrammes(h *heads, m *metrics, of string, read func(context.Context, uuid.UUID) (*db.Part, error)) *cache[*scoredProgramme] {
	return newCache(h, func(p *scoredProgramme) db.Head { return p.part.Head }, timed(m, of, scoreProgramme(read)))
}

// scoreProgramme scores a programme as it is read.
func scoreProgramme(read func(context.Context, uuid.UUID) (*db.Part, error)) func(context.Context, uuid.UUID) (*scoredProgramme, error) {
	return func(ctx context.Context, id uuid.UUID) (*scoredProgramme, error) {
		part, err := read(ctx, id)
		if err != nil {
			return nil, err
		}
		p := partsOf(part, part.Index)
		result := scoring.ScoreProgramme(p.category, part.Index)
		return scored(p, &result), nil
	}
}

// scored puts a programme together with its results.
func scored(p *programmeParts, result *scoring.ProgrammeResult) *scoredProgramme {
	s := &scoredProgramme{programmeParts: p, result: *result}
	p.used = result.UsedMethod()
	for i := range s.result.Flights {
		f := &s.result.Flights[i]
		s.values = append(s.values, panelValues(f, p.cells(i, f)))
		if f.Placing != nil && f.Rank != nil {
			s.ranks++
		}
	}
	if !p.programme.OwnSequences() {
		s.quartiles = fieldOf(s.values)
	}
	return s
}

// programmeParts are what a programme's results are told with.
type programmeParts struct {
	part      *db.Part
	category  *scoring.Category
	programme *scoring.Programme
	behind    *db.ProgrammePart
	used      string // the method that made the scores
	table     *scoring.Table
	seats     map[string]int  // by the judge's code, from 0
	ranked    map[string]bool // by the pilot's code
	pilots    map[string]Pilot
}

// partsOf looks up the programme at an index of a part's only category.
func partsOf(part *db.Part, index int) *programmeParts {
	category := &part.Bundle.Categories[0]
	p := tableOf(category, &category.Programmes[index])
	p.part, p.behind, p.pilots = part, &part.Categories[0].Programmes[index], pilotsOf(part)
	return p
}

// tableOf is what can be told of a programme by a bundle alone.
func tableOf(category *scoring.Category, programme *scoring.Programme) *programmeParts {
	p := &programmeParts{
		category: category, programme: programme, table: scoring.Clean(programme),
		seats: map[string]int{}, ranked: map[string]bool{},
	}
	for seat, judge := range programme.Panel {
		p.seats[judge] = seat
	}
	for _, e := range category.Entries {
		p.ranked[e.Pilot] = e.Ranked
	}
	return p
}

// pilotsOf are the pilots of a part by their codes.
func pilotsOf(part *db.Part) map[string]Pilot {
	pilots := make(map[string]Pilot, len(part.Bundle.Pilots))
	for _, p := range part.Bundle.Pilots {
		pilots[p.ID] = Pilot{ID: part.Pilots[p.ID], Name: p.Name, Affiliation: p.Affiliation, Aircraft: p.Aircraft}
	}
	return pilots
}

// contract tells of the programme what lists tell.
func (p *programmeParts) contract() Programme { return programmeIn(p.programme, p.behind) }

func programmeIn(programme *scoring.Programme, behind *db.ProgrammePart) Programme {
	flown := 0
	for _, f := range behind.Flights {
		if f.State.Status == line.StatusLanded || f.State.Status == line.StatusClosed {
			flown++
		}
	}
	return Programme{
		ID: behind.ID, Name: programme.Name, Kind: ProgrammeKind(programme.Kind), Cut: programme.Cut, Counts: programme.Counts,
		Method: ProgrammeMethod(programme.Method.Name), Seats: len(programme.Panel), Flights: len(behind.Flights), Flown: flown,
	}
}

func (p *programmeParts) contest() Named { return named(p.part.Contest.ID, p.part.Contest.Name) }

func (p *programmeParts) categoryName() Named {
	return named(p.part.Categories[0].ID, p.category.Name)
}

func (s *scoredProgramme) method() MethodUsed {
	return MethodUsed{Name: s.result.Method, Fallback: s.result.Fallback, Seats: len(s.programme.Panel)}
}

// fieldOf gives the quartiles of each item over the flights that were judged;
// none for fewer than figurekind.LeastField.
func fieldOf(values [][]float64) []Quartiles {
	judged := slices.DeleteFunc(slices.Clone(values), func(v []float64) bool { return v == nil })
	if len(judged) < figurekind.LeastField {
		return nil
	}
	field := make([]Quartiles, len(judged[0]))
	for item := range field {
		of := make([]float64, len(judged))
		for i, v := range judged {
			of[i] = v[item]
		}
		slices.Sort(of)
		field[item] = Quartiles{Low: quantile(of, 0.25), Middle: quantile(of, 0.5), High: quantile(of, 0.75)}
	}
	return field
}

// quantile interpolates between the sorted values, so that 0 is the first and
// 1 the last: definition 7 of Hyndman and Fan, The American Statistician 50
// (1996), 361-365.
func quantile(sorted []float64, p float64) float64 {
	at := p * float64(len(sorted)-1)
	low := int(at)
	high := min(low+1, len(sorted)-1)
	return sorted[low] + (at-float64(low))*(sorted[high]-sorted[low])
}
