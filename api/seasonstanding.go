package api

import (
	"context"
	"slices"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/publication"
	"halfpoint/scoring/season"
)

// A seasonFlown is a part of a season whose standing is published.
type seasonFlown struct {
	part      *db.SeasonPart
	published *publication.Parsed
}

// seasonFlown reads what is published of a season's parts, in their order.
func (s *server) seasonFlown(ctx context.Context, read *db.Season) (flown []seasonFlown, err error) {
	for i := range read.Parts {
		if read.Parts[i].Latest == nil {
			continue
		}
		published, err := s.published.get(ctx, *read.Parts[i].Latest)
		if err != nil {
			return nil, err
		}
		flown = append(flown, seasonFlown{&read.Parts[i], published.Parsed})
	}
	return flown, nil
}

// reckon makes a season's standings of what is published now.
func (s *server) reckon(ctx context.Context, read *db.Season) (Season, error) {
	flown, err := s.seasonFlown(ctx, read)
	if err != nil {
		return Season{}, err
	}
	people := whoIsWho(read)
	shown := Season{
		ID: read.ID, Name: read.Name, Revision: read.Revision, Rules: seasonRules(&read.Rules),
		Parts: seasonParts(read.Parts), Standings: []SeasonStanding{},
	}
	for _, class := range classesOf(read.Parts) {
		shown.Standings = append(shown.Standings, people.standing(class, &read.Rules, flown))
	}
	return shown, nil
}

// classesOf are the names of a season's standings, in the order in which they
// first stand.
func classesOf(parts []db.SeasonPart) (classes []string) {
	for i := range parts {
		if !slices.Contains(classes, parts[i].Class) {
			classes = append(classes, parts[i].Class)
		}
	}
	return classes
}

// whoIs says which person a pilot of a contest is.
type whoIs map[seasonPilot]string

type seasonPilot struct {
	contest uuid.UUID
	code    string
}

func whoIsWho(read *db.Season) whoIs {
	people := whoIs{}
	for _, p := range read.People {
		people[seasonPilot{p.Contest, p.Pilot}] = p.Person.String()
	}
	return people
}

// of is the person that a pilot is confirmed to be, or a person alone.
func (w whoIs) of(pilot seasonPilot) string {
	if person, ok := w[pilot]; ok {
		return person
	}
	return pilot.contest.String() + " " + pilot.code
}

// standing reckons one class.
func (w whoIs) standing(class string, rules *season.Rules, flown []seasonFlown) SeasonStanding {
	var contests []season.Contest
	known := map[string]scoring.Pilot{} // as in the latest contest
	for _, f := range flown {
		if f.part.Class != class {
			continue
		}
		contests = append(contests, w.contest(f))
		for _, p := range f.published.Bundle.Pilots {
			known[w.of(seasonPilot{f.part.Contest.ID, p.ID})] = p
		}
	}
	shown := SeasonStanding{Class: class, Rows: []SeasonRow{}}
	for _, row := range season.Standing(*rules, contests) {
		shown.Rows = append(shown.Rows, seasonRow(&row, known[row.Person]))
	}
	return shown
}

// contest is a published standing as a season takes it.
func (w whoIs) contest(f seasonFlown) season.Contest {
	pilots := publishedPilots(f.published)
	category, result := f.published.Category()
	c := season.Contest{ID: f.part.Category.ID.String(), Provisional: f.part.State != publication.Official}
	for i := range result.Overall {
		o := &result.Overall[i]
		c.Places = append(c.Places, season.Place{
			Person: w.of(seasonPilot{f.part.Contest.ID, o.Pilot}), Affiliation: pilots[o.Pilot].Affiliation,
			Rank: o.Rank, Score: o.Total, Maximum: bestPossible(category, o.Pilot),
		})
	}
	return c
}

// bestPossible is the most that a pilot could have in a category. Of a programme
// with sequences of the pilots' own in which the pilot has none, it is the most
// that any pilot could have had.
func bestPossible(c *scoring.Category, pilot string) (sum float64) {
	for i := range c.Programmes {
		p := &c.Programmes[i]
		switch {
		case !p.Counts:
		case c.Combine.By == scoring.BySumPercent:
			sum += 100
		case c.Combine.By == scoring.BySum:
			sum += bestOfProgramme(p, pilot)
		}
	}
	if c.Combine.By == scoring.ByWeightedPercent {
		return 100
	}
	return sum
}

func bestOfProgramme(p *scoring.Programme, pilot string) (most float64) {
	if !p.OwnSequences() {
		return bestOfSequence(p.Sequence)
	}
	for i := range p.Flights {
		best := bestOfSequence(p.Flights[i].Sequence)
		if p.Flights[i].Pilot == pilot && best > 0 {
			return best
		}
		most = max(most, best)
	}
	return most
}

// bestOfSequence is ten points for every K, which is held in tenths.
func bestOfSequence(s *scoring.Sequence) (sum float64) {
	if s == nil {
		return 0
	}
	for _, item := range s.Items {
		sum += float64(item.K)
	}
	return sum
}

func seasonRow(row *season.Row, pilot scoring.Pilot) SeasonRow {
	shown := SeasonRow{
		Person: row.Person, Name: pilot.Name, Affiliation: pilot.Affiliation, Total: row.Total, Rank: row.Rank,
		Results: make([]SeasonResult, len(row.Results)),
	}
	for i, r := range row.Results {
		shown.Results[i] = SeasonResult{
			Category: uuid.MustParse(r.Contest), Rank: r.Rank, Points: r.Points, Counts: r.Counts, Provisional: r.Provisional,
		}
	}
	return shown
}

func seasonParts(parts []db.SeasonPart) []SeasonPart {
	list := make([]SeasonPart, len(parts))
	for i := range parts {
		p := &parts[i]
		list[i] = SeasonPart{
			Contest: named(p.Contest.ID, p.Contest.Name), Category: named(p.Category.ID, p.Category.Name), Class: p.Class,
			Publication: p.Latest, PublishedAt: p.At,
		}
		if state := PublicationState(p.State); p.Latest != nil {
			list[i].State = &state
		}
	}
	return list
}

func seasonRules(r *season.Rules) SeasonRules {
	rules := SeasonRules{
		Points: SeasonRulesPoints(r.Points), Table: r.Table, Ties: SeasonRulesTies(r.Ties), Best: r.Best, Drop: r.Drop, Least: r.Least,
		TieBreak: make([]SeasonRulesTieBreak, len(r.TieBreak)), Affiliations: r.Affiliations,
	}
	for i, one := range r.TieBreak {
		rules.TieBreak[i] = SeasonRulesTieBreak(one)
	}
	return rules
}

func seasonChange(body *SeasonChange) db.SeasonChange {
	r := &body.Rules
	change := db.SeasonChange{Name: clean(body.Name), Revision: body.Revision, Rules: season.Rules{
		Points: string(r.Points), Table: r.Table, Ties: string(r.Ties), Best: r.Best, Drop: r.Drop, Least: r.Least,
		TieBreak: make([]string, len(r.TieBreak)), Affiliations: r.Affiliations,
	}}
	for i, one := range r.TieBreak {
		change.Rules.TieBreak[i] = string(one)
	}
	for _, p := range body.Parts {
		change.Parts = append(change.Parts, db.SeasonSource{Category: p.Category, Class: clean(p.Class)})
	}
	return change
}
