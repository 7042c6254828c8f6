package api

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"github.com/google/uuid"

	"halfpoint/db"
)

// GetSeasonPeople tells who might be the same person in a season's contests.
func (s *server) GetSeasonPeople(ctx context.Context, request GetSeasonPeopleRequestObject) (GetSeasonPeopleResponseObject, error) {
	people, err := s.seasonPeople(ctx, request.SeasonID)
	if err != nil {
		return nil, err
	}
	return GetSeasonPeople200JSONResponse(people), nil
}

// ConfirmSeasonPeople takes an office's word for who is who.
func (s *server) ConfirmSeasonPeople(ctx context.Context, request ConfirmSeasonPeopleRequestObject) (ConfirmSeasonPeopleResponseObject, error) {
	season, err := s.db.Season(ctx, request.SeasonID)
	if err == nil {
		err = mayDo(ctx, season, "confirmSeasonPeople")
	}
	if err != nil {
		return nil, err
	}
	people := make([]db.SeasonPerson, len(request.Body.People))
	for i, p := range request.Body.People {
		people[i] = db.SeasonPerson{Contest: p.Contest, Pilot: p.Pilot, Person: p.Person}
		if !slices.ContainsFunc(season.Contests(), func(c db.ContestInfo) bool { return c.ID == p.Contest }) {
			return nil, db.ErrNotFound // of a contest that is none of the season's
		}
	}
	if err := s.db.SetSeasonPeople(ctx, request.SeasonID, people, request.Body.Revision); err != nil {
		return nil, err
	}
	shown, err := s.seasonPeople(ctx, request.SeasonID)
	return ConfirmSeasonPeople200JSONResponse(shown), err
}

func (s *server) seasonPeople(ctx context.Context, id uuid.UUID) (SeasonPeople, error) {
	season, err := s.db.Season(ctx, id)
	if err == nil {
		err = mayDo(ctx, season, "getSeasonPeople")
	}
	if err != nil {
		return SeasonPeople{}, err
	}
	flown, err := s.seasonFlown(ctx, season)
	if err != nil {
		return SeasonPeople{}, err
	}
	shown := SeasonPeople{Season: named(season.ID, season.Name), Revision: season.Revision, Pilots: pilotsIn(season, flown)}
	shown.Proposals = proposals(shown.Pilots)
	return shown, nil
}

// pilotsIn are the pilots of what is published, each once a contest.
func pilotsIn(season *db.Season, flown []seasonFlown) []SeasonPilot {
	confirmed := map[seasonPilot]uuid.UUID{}
	for _, p := range season.People {
		confirmed[seasonPilot{p.Contest, p.Pilot}] = p.Person
	}
	list, seen := []SeasonPilot{}, map[seasonPilot]bool{}
	for _, f := range flown {
		for _, p := range f.published.Bundle.Pilots {
			key := seasonPilot{f.part.Contest.ID, p.ID}
			if seen[key] {
				continue
			}
			seen[key] = true
			one := SeasonPilot{Contest: named(f.part.Contest.ID, f.part.Contest.Name), Pilot: p.ID, Name: p.Name, Affiliation: p.Affiliation}
			if person, ok := confirmed[key]; ok {
				one.Person = &person
			}
			list = append(list, one)
		}
	}
	slices.SortStableFunc(list, func(a, b SeasonPilot) int {
		return cmp.Or(strings.Compare(folded(a.Name), folded(b.Name)), strings.Compare(folded(a.Affiliation), folded(b.Affiliation)))
	})
	return list
}

// folded is a text without what people write differently each time.
func folded(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), " ")) }

// proposals are pilots of the same name and affiliation in several contests who
// are not all confirmed to be one person. Two of one contest are not proposed:
// they are two people of one name.
func proposals(pilots []SeasonPilot) []SeasonProposal {
	list := []SeasonProposal{}
	for from := 0; from < len(pilots); {
		to := from + 1
		for to < len(pilots) && isNamesake(&pilots[from], &pilots[to]) {
			to++
		}
		if p, ok := proposal(pilots[from:to]); ok {
			list = append(list, p)
		}
		from = to
	}
	return list
}

func isNamesake(a, b *SeasonPilot) bool {
	return folded(a.Name) == folded(b.Name) && folded(a.Affiliation) == folded(b.Affiliation)
}

func proposal(namesakes []SeasonPilot) (p SeasonProposal, ok bool) {
	contests, persons, open := map[uuid.UUID]bool{}, map[uuid.UUID]bool{}, false
	for _, one := range namesakes {
		contests[one.Contest.ID] = true
		if one.Person == nil {
			open = true
		} else {
			persons[*one.Person] = true
		}
	}
	if !open || len(namesakes) < 2 || len(contests) < len(namesakes) || len(persons) > 1 {
		return p, false
	}
	p = SeasonProposal{Person: uuid.New(), Pilots: namesakes}
	for person := range persons {
		p.Person = person
	}
	return p, true
}
