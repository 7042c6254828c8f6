package db

import (
	"context"
	"errors"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
	"halfpoint/scoring/document"
	"halfpoint/scoring/publication"
)

// compute makes what is to be published of the scope.
func (p *publisher) compute(ctx context.Context, tx pgx.Tx) error {
	if p.scope.Programme != uuid.Nil {
		return p.computeProgramme(ctx, tx)
	}
	return p.computeCategory(ctx, tx)
}

func (p *publisher) computeProgramme(ctx context.Context, tx pgx.Tx) error {
	s, err := readProgrammeScope(ctx, tx, p.scope.Programme)
	if err != nil {
		return err
	}
	s.public = true
	part, err := readPart(ctx, tx, s)
	if err != nil {
		return err
	}
	if err := p.readCounting(ctx, tx); err != nil {
		return err
	}
	p.refuseFlights(part)
	return p.score(part.Bundle)
}

// score writes the bundle and scores what was written.
func (p *publisher) score(bundle *scoring.Bundle) (err error) {
	if p.content.bundle, err = bundle.Encode(); err != nil {
		return err
	}
	p.content.results, p.content.parsed, err = p.scores.get(p.content.bundle)
	if complaints, ok := errors.AsType[document.Complaints](err); ok {
		p.add(Refusal{Text: fmt.Sprintf("what is set up cannot be scored: %v", complaints), Final: true})
		return nil
	}
	return err
}

// computeCategory puts the standing together from the programmes as they were
// published last, so that it is the standing over just these.
func (p *publisher) computeCategory(ctx context.Context, tx pgx.Tx) error {
	part, err := readPart(ctx, tx, scope{contest: p.scope.Contest, category: &p.scope.Category, programmes: []uuid.UUID{}})
	if err != nil {
		return err
	}
	programmes, err := readProgrammeRows(ctx, tx, p.scope.Contest, &p.scope.Category, nil)
	if err != nil {
		return err
	}
	category := &part.Bundle.Categories[0]
	for i := range programmes {
		if err := p.addProgramme(ctx, tx, category, &programmes[i]); err != nil {
			return err
		}
	}
	if len(category.Programmes) == 0 {
		p.add(Refusal{Text: "no programme of the category is published", Final: true})
		return nil
	}
	if err := p.score(part.Bundle); err != nil {
		return err
	}
	p.refuseOtherRanks()
	return nil
}

// addProgramme adds a programme as it was published last. Whether it counts is
// the category's to say.
func (p *publisher) addProgramme(ctx context.Context, tx pgx.Tx, to *scoring.Category, row *programmeRow) error {
	latest, err := readLatest(ctx, tx, Scope{Contest: p.scope.Contest, Category: row.Category, Programme: row.ID})
	if err != nil {
		return err
	}
	p.refuseProgramme(row, latest)
	if latest == nil {
		return nil
	}
	stored, err := readPublication(ctx, tx, latest.ID)
	if err != nil {
		return err
	}
	parsed, err := stored.Parse()
	if err != nil {
		return fmt.Errorf("publication %d: %w", latest.Number, err)
	}
	published, results := parsed.Programme()
	published.Counts = row.Counts
	to.Programmes = append(to.Programmes, *published)
	p.content.sources = append(p.content.sources, publication.Source{Programme: row.ID.String(), Statement: latest.Statement})
	p.published = append(p.published, results)
	return nil
}

// readCounting reads what was decided about the programme. Why it does not count
// is published where no other reason is given.
func (p *publisher) readCounting(ctx context.Context, tx pgx.Tx) error {
	_, decided, err := readCounting(ctx, tx, p.scope)
	p.abandoned = decided.Abandoned
	if p.wish.Reason == "" {
		p.wish.Reason = decided.Reason
	}
	return err
}
