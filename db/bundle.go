package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// A Part is a contest, or a part of one, as a bundle, with what stands behind
// the bundle's codes.
type Part struct {
	Head    Head
	Contest ContestInfo
	Bundle  *scoring.Bundle
	Judges  map[string]uuid.UUID // by the bundle's codes
	Pilots  map[string]uuid.UUID
	// Categories are parallel to the bundle's.
	Categories []CategoryPart
	// Index is the place of the programme that was asked for in the only
	// category, for scoring.ScoreProgramme. Programmes stand before it where one
	// of them has a cut.
	Index int
}

// A CategoryPart stands behind a category of a bundle.
type CategoryPart struct {
	ID         uuid.UUID
	Programmes []ProgrammePart // parallel to the category's
}

// A ProgrammePart stands behind a programme of a bundle.
type ProgrammePart struct {
	ID       uuid.UUID
	Withheld bool         // its common sequence is there and only the office may see it yet
	Flights  []FlightPart // parallel to the programme's
}

// A FlightPart stands behind a flight of a bundle.
type FlightPart struct {
	ID       uuid.UUID
	Number   int // fixed for good; the bundle's order
	Position int // place in the running order
	State    line.Flight
}

// Export reads a whole contest as a bundle. The bundle of an imported contest
// is the one that was imported, if nothing happened since.
func (db *DB) Export(ctx context.Context, contest uuid.UUID) (*scoring.Bundle, error) {
	part, err := db.ContestBundle(ctx, contest)
	if err != nil {
		return nil, err
	}
	return part.Bundle, nil
}

// ContestBundle reads a whole contest as a bundle with its ids.
func (db *DB) ContestBundle(ctx context.Context, contest uuid.UUID) (*Part, error) {
	return db.part(ctx, func(ctx context.Context, tx pgx.Tx) (scope, error) {
		return scope{contest: contest, told: true}, nil
	})
}

// CategoryBundle reads a category as a bundle with its ids: all its programmes,
// its pilots, and the judges of the contest.
func (db *DB) CategoryBundle(ctx context.Context, category uuid.UUID) (*Part, error) {
	return db.part(ctx, func(ctx context.Context, tx pgx.Tx) (scope, error) {
		contest, err := contestOf(ctx, tx, "category", category)
		return scope{contest: contest, category: &category}, err
	})
}

// ProgrammeBundle reads a programme as a bundle with its ids: its category with
// that programme only, the category's pilots, and the judges of the contest.
// Where the ranks of the programme depend on a cut before it, the programmes
// before it are there too.
func (db *DB) ProgrammeBundle(ctx context.Context, programme uuid.UUID) (*Part, error) {
	return db.part(ctx, func(ctx context.Context, tx pgx.Tx) (scope, error) {
		return readProgrammeScope(ctx, tx, programme)
	})
}

// ClosedProgramme reads a programme as [DB.ProgrammeBundle] does, with nothing
// of what was flown in flights that are not closed: what is told of it tells
// nobody a grade that is still being given.
func (db *DB) ClosedProgramme(ctx context.Context, programme uuid.UUID) (*Part, error) {
	return db.part(ctx, func(ctx context.Context, tx pgx.Tx) (scope, error) {
		s, err := readProgrammeScope(ctx, tx, programme)
		s.public = true
		return s, err
	})
}

// ClosedCategory reads a category as [DB.CategoryBundle] does, with nothing of
// what was flown in flights that are not closed.
func (db *DB) ClosedCategory(ctx context.Context, category uuid.UUID) (*Part, error) {
	return db.part(ctx, func(ctx context.Context, tx pgx.Tx) (scope, error) {
		contest, err := contestOf(ctx, tx, "category", category)
		return scope{contest: contest, category: &category, public: true}, err
	})
}

func (db *DB) part(ctx context.Context, find func(ctx context.Context, tx pgx.Tx) (scope, error)) (part *Part, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		s, err := find(ctx, tx)
		if err != nil {
			return err
		}
		part, err = readPart(ctx, tx, s)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a bundle: %w", err)
	}
	return part, nil
}

// A scope says what of a contest is read; nil for all.
type scope struct {
	contest    uuid.UUID
	category   *uuid.UUID
	programmes []uuid.UUID
	index      int
	// public leaves out what is not to be published: flights that are not over
	// and sequences that are not released.
	public bool
	// told brings what an announcer tells of pilots and of free styles: it
	// belongs to the contest, and to nothing that is scored or published.
	told bool
}

func readProgrammeScope(ctx context.Context, tx pgx.Tx, programme uuid.UUID) (scope, error) {
	before, err := rows[struct {
		Contest   uuid.UUID
		Category  uuid.UUID
		Programme uuid.UUID
		Cuts      bool
	}](ctx, tx, `
		SELECT
			p.contest_id AS contest,
			p.category_id AS category,
			p.programme_id AS programme,
			p.counts AND p.cut > 0 AS cuts
		FROM programme it
		JOIN programme p ON p.contest_id = it.contest_id
			AND p.category_id = it.category_id
			AND p.position <= it.position
		WHERE it.programme_id = @programme
		ORDER BY p.position`,
		pgx.StrictNamedArgs{"programme": programme})
	if err != nil {
		return scope{}, err
	}
	if len(before) == 0 {
		return scope{}, pgx.ErrNoRows
	}
	s, cut := scope{contest: before[0].Contest, category: &before[0].Category}, false
	for _, p := range before {
		s.programmes = append(s.programmes, p.Programme)
		cut = cut || p.Cuts && p.Programme != programme
	}
	if !cut {
		s.programmes = []uuid.UUID{programme}
	}
	s.index = len(s.programmes) - 1
	return s, nil
}
