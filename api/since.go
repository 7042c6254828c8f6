package api

import (
	"context"
	"slices"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/publication"
)

// GetProgrammeChanges tells what the standing of a programme says otherwise than
// what is published last.
func (s *server) GetProgrammeChanges(ctx context.Context, request GetProgrammeChangesRequestObject) (GetProgrammeChangesResponseObject, error) {
	p, err := s.liveProgramme(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	answer, err := s.since(ctx, db.Scope{Programme: request.ProgrammeID}, p.parsed())
	if err != nil {
		return nil, err
	}
	answer.Head, answer.Contest = headOf(p.part.Head), p.contest()
	return GetProgrammeChanges200JSONResponse(answer), nil
}

// GetCategoryChanges tells what the standing of a category says otherwise than
// what is published last.
func (s *server) GetCategoryChanges(ctx context.Context, request GetCategoryChangesRequestObject) (GetCategoryChangesResponseObject, error) {
	c, err := s.liveCategory(ctx, request.CategoryID)
	if err != nil {
		return nil, err
	}
	now := &publication.Parsed{Bundle: c.part.Bundle, Results: &scoring.Results{Categories: []scoring.CategoryResult{c.result}}}
	answer, err := s.since(ctx, db.Scope{Category: request.CategoryID}, now)
	if err != nil {
		return nil, err
	}
	answer.Head, answer.Contest = headOf(c.part.Head), named(c.part.Contest.ID, c.part.Contest.Name)
	return GetCategoryChanges200JSONResponse(answer), nil
}

// parsed is the programme as the bytes of a publication would say it.
func (s *scoredProgramme) parsed() *publication.Parsed {
	bundle, category := *s.part.Bundle, *s.category
	category.Programmes = category.Programmes[:s.part.Index+1]
	bundle.Categories = []scoring.Category{category}
	results := make([]scoring.ProgrammeResult, len(category.Programmes))
	results[s.part.Index] = s.result
	return &publication.Parsed{
		Bundle:  &bundle,
		Results: &scoring.Results{Categories: []scoring.CategoryResult{{Programmes: results}}},
	}
}

// standings are the changes that a reader of a standing sees.
var standings = []string{publication.ChangedScore, publication.ChangedTotal, publication.ChangedRank}

// since compares what is now with what is published last of a scope; nothing
// differs from nothing.
func (s *server) since(ctx context.Context, of db.Scope, now *publication.Parsed) (answer ChangesSince, err error) {
	answer.Changes = []PublishedChange{}
	list, err := s.db.Publications(ctx, of)
	if err != nil || len(list.Publications) == 0 {
		return answer, err
	}
	last := &list.Publications[len(list.Publications)-1]
	old, err := s.published.get(ctx, last.ID)
	if err != nil {
		return answer, err
	}
	summary := publicationSummary(last)
	answer.Since = &summary
	changes := slices.DeleteFunc(publication.Differences(last.Kind(), old.Parsed, now), func(c publication.Change) bool {
		return !slices.Contains(standings, c.What)
	})
	answer.Changes = changesOf(changes, now)
	return answer, nil
}
