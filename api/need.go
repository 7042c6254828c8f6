package api

import (
	"cmp"
	"context"
	"slices"

	"halfpoint/db"
)

// maxNeeds is how many needs are listed.
const maxNeeds = 200

// A needSource finds what of one kind waits for somebody. A source is a file of
// its own, need_….go, whose init adds it; nothing else has to know it.
type needSource func(ctx context.Context, s *server, in *situation) ([]Need, error)

// needSources are all of them.
var needSources []needSource

// A situation is what most sources look at: what is pending, and each category
// as it stands.
type situation struct {
	*db.Pending
	categories []*scoredCategory
}

// eachProgramme calls f for every programme of the contest, in order.
func (in *situation) eachProgramme(f func(p *programmeParts)) {
	for _, c := range in.categories {
		for i := range c.category.Programmes {
			f(partsOf(c.part, i))
		}
	}
}

// title is what a programme is called in a list.
func (p *programmeParts) title() string { return p.category.Name + " · " + p.programme.Name }

// ListNeeds lists what of a contest waits for somebody.
func (s *server) ListNeeds(ctx context.Context, request ListNeedsRequestObject) (ListNeedsResponseObject, error) {
	in, err := s.situationOf(ctx, request)
	if err != nil {
		return nil, err
	}
	needs := []Need{}
	for _, source := range needSources {
		found, err := source(ctx, s, in)
		if err != nil {
			return nil, err
		}
		needs = append(needs, found...)
	}
	slices.SortStableFunc(needs, func(a, b Need) int { return cmp.Compare(urgencies[a.Urgency], urgencies[b.Urgency]) })
	most := min(len(needs), maxNeeds)
	return ListNeeds200JSONResponse{
		Head: headOf(in.Head), Contest: named(in.Contest.ID, in.Contest.Name), More: len(needs) - most, Needs: needs[:most],
	}, nil
}

var urgencies = map[NeedUrgency]int{Now: 0, Soon: 1, Later: 2}

// situationOf reads what is pending first: what changes while the rest is read
// has a later version, and is read again.
func (s *server) situationOf(ctx context.Context, request ListNeedsRequestObject) (*situation, error) {
	pending, err := s.db.Pending(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	contest, err := s.contests.get(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	in := &situation{Pending: pending}
	for i := range contest.Categories {
		c, err := s.categories.get(ctx, contest.Categories[i].ID)
		if err != nil {
			return nil, err
		}
		in.categories = append(in.categories, c)
	}
	return in, nil
}
