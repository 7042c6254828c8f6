package api

import (
	"context"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
)

// A scoredCategory is a category as it stood at a version, with its standing.
type scoredCategory struct {
	part     *db.Part
	category *scoring.Category
	result   scoring.CategoryResult
}

// newCategories keeps categories as they are read and scored; of names them in the
// metrics.
func newCategories(h *heads, m *metrics, of string, read func(context.Context, uuid.UUID) (*db.Part, error)) *cache[*scoredCategory] {
	return newCache(h, func(c *scoredCategory) db.Head { return c.part.Head }, timed(m, of, scoreCategory(read)))
}

// scoreCategory scores a category as it is read.
func scoreCategory(read func(context.Context, uuid.UUID) (*db.Part, error)) func(context.Context, uuid.UUID) (*scoredCategory, error) {
	return func(ctx context.Context, id uuid.UUID) (*scoredCategory, error) {
		part, err := read(ctx, id)
		if err != nil {
			return nil, err
		}
		category := &part.Bundle.Categories[0]
		return &scoredCategory{part: part, category: category, result: scoring.ScoreCategory(category)}, nil
	}
}

// GetCategoryResults tells the standing of a category as it is now.
func (s *server) GetCategoryResults(ctx context.Context, request GetCategoryResultsRequestObject) (GetCategoryResultsResponseObject, error) {
	c, err := s.liveCategory(ctx, request.CategoryID)
	if err != nil {
		return nil, err
	}
	return GetCategoryResults200JSONResponse(c.results()), nil
}

// liveCategory gives the live standing of a category to who may see it, as far as
// they may.
func (s *server) liveCategory(ctx context.Context, id uuid.UUID) (*scoredCategory, error) {
	c, err := s.categoriesFor(ctx).get(ctx, id)
	if err != nil {
		return nil, err
	}
	return c, mayRead(reachOf(ctx), Opened(c.part.Contest.Opened))
}

func (c *scoredCategory) results() CategoryResults {
	pilots := pilotsOf(c.part)
	return CategoryResults{
		Head: headOf(c.part.Head), Contest: named(c.part.Contest.ID, c.part.Contest.Name), Category: c.contract(),
		Overall: c.overall(pilots), Teams: teamsOf(c.result.Teams, pilots),
	}
}

func (c *scoredCategory) contract() Category {
	behind := &c.part.Categories[0]
	programmes := make([]Programme, len(c.category.Programmes))
	for i := range programmes {
		programmes[i] = programmeIn(&c.category.Programmes[i], &behind.Programmes[i])
	}
	return Category{
		ID: behind.ID, Name: c.category.Name, Combine: CategoryCombine(c.category.Combine.By),
		Pilots: len(c.category.Entries), Programmes: programmes,
	}
}

func (c *scoredCategory) overall(pilots map[string]Pilot) []OverallStanding {
	list := make([]OverallStanding, len(c.result.Overall))
	for i := range c.result.Overall {
		r, entry := &c.result.Overall[i], &c.category.Entries[i]
		list[i] = OverallStanding{
			Pilot: pilots[r.Pilot], Ranked: entry.Ranked, Total: r.Total, Rank: r.Rank,
			Certainty: certaintyOf(r.Certainty), ByProgramme: c.byProgramme(r),
		}
		if entry.Team != "" {
			list[i].Team = &entry.Team
		}
	}
	return list
}

// byProgramme names the programmes and flights behind a pilot's scores.
func (c *scoredCategory) byProgramme(r *scoring.OverallResult) []ProgrammeScore {
	list := []ProgrammeScore{}
	for _, one := range r.ByProgramme {
		for i := range c.category.Programmes {
			p := &c.category.Programmes[i]
			if p.ID != one.Programme {
				continue
			}
			for j := range p.Flights {
				if p.Flights[j].Pilot == r.Pilot {
					behind := &c.part.Categories[0].Programmes[i]
					list = append(list, ProgrammeScore{
						Programme: behind.ID, Flight: behind.Flights[j].ID,
						Score: one.Score, Percent: c.result.Programmes[i].Flights[j].Percent,
					})
				}
			}
		}
	}
	return list
}

func teamsOf(teams []scoring.TeamResult, pilots map[string]Pilot) []TeamStanding {
	list := make([]TeamStanding, len(teams))
	for i, t := range teams {
		list[i] = TeamStanding{Team: t.Team, Total: t.Total, Rank: t.Rank, Pilots: []Pilot{}}
		for _, code := range t.Pilots {
			list[i].Pilots = append(list[i].Pilots, pilots[code])
		}
	}
	return list
}
