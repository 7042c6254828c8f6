package db

import (
	"bytes"
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/publication"
)

// A Preview is what would be published, and what keeps it from being.
type Preview struct {
	Head      Head
	Contest   ContestInfo
	Category  Named
	Programme *Named // nil for the standing over the category's programmes
	Counting  *Counting
	// Latest is the publication that would be superseded; nil before the first.
	Latest *StoredPublication
	// Same: the latest says the same.
	Same bool
	// Parsed is nil where what is set up cannot be scored.
	Parsed   *publication.Parsed
	Refusals Refusals
}

// Preview tells what Publish would publish of a scope in a state, without a
// reason. Nothing is changed.
func (db *DB) Preview(ctx context.Context, of Scope, state string) (preview *Preview, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		scope, err := findScope(ctx, tx, of)
		if err != nil {
			return err
		}
		preview, err = readPreview(ctx, tx, &publisher{scores: &db.scores, scope: scope, wish: Publishing{State: state}})
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("looking at what would be published: %w", err)
	}
	return preview, nil
}

func readPreview(ctx context.Context, tx pgx.Tx, p *publisher) (*Preview, error) {
	for _, step := range []func(context.Context, pgx.Tx) error{p.look, p.compute, p.findRefusals} {
		if err := step(ctx, tx); err != nil {
			return nil, err
		}
	}
	preview := &Preview{Head: p.head, Parsed: p.content.parsed, Refusals: p.refusals}
	if err := preview.name(ctx, tx, p.scope); err != nil {
		return nil, err
	}
	if p.latest == nil {
		return preview, nil
	}
	stored, err := readPublication(ctx, tx, p.latest.ID)
	if err != nil {
		return nil, err
	}
	preview.Latest = stored
	preview.Same = bytes.Equal(stored.Bundle, p.content.bundle) && bytes.Equal(stored.Results, p.content.results)
	return preview, nil
}

// name reads what it is of, and what was decided about that.
func (p *Preview) name(ctx context.Context, tx pgx.Tx, of Scope) (err error) {
	if p.Contest, err = readContestInfo(ctx, tx, of.Contest); err != nil {
		return err
	}
	if p.Category, err = readCategoryName(ctx, tx, of.Contest, of.Category); err != nil || of.Programme == uuid.Nil {
		return err
	}
	name, decided, err := readCounting(ctx, tx, of)
	p.Programme, p.Counting = &Named{of.Programme, name}, &decided
	return err
}
