package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// PilotIn is what a contest has of a pilot.
type PilotIn struct {
	Head    Head
	Contest ContestInfo
	Pilot   Pilot
	// Orders are the running orders of the programmes of the categories that the
	// pilot is entered in, in the order flown.
	Orders []*Order
	// Publications are all of the contest, by number.
	Publications []PublicationInfo
}

// PilotIn reads what a contest has of a pilot, by the id or by the one in
// bundles.
func (db *DB) PilotIn(ctx context.Context, contest uuid.UUID, id string) (p *PilotIn, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		p, err = readPilotIn(ctx, tx, contest, id)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a pilot: %w", err)
	}
	return p, nil
}

func readPilotIn(ctx context.Context, tx pgx.Tx, contest uuid.UUID, id string) (p *PilotIn, err error) {
	p = &PilotIn{}
	if p.Head, err = readHead(ctx, tx, contest); err != nil {
		return nil, err
	}
	if p.Contest, err = readContestInfo(ctx, tx, contest); err != nil {
		return nil, err
	}
	if p.Pilot, err = findPilot(ctx, tx, contest, id); err != nil {
		return nil, err
	}
	if p.Publications, err = readPublications(ctx, tx, publicationQuery{contest: contest}); err != nil {
		return nil, err
	}
	return p, p.readOrders(ctx, tx)
}

// FindPilot finds a pilot of a contest, by the id or by the one in bundles.
func (db *DB) FindPilot(ctx context.Context, contest uuid.UUID, id string) (p Pilot, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		p, err = findPilot(ctx, tx, contest, id)
		return err
	})
	if err != nil {
		return p, fmt.Errorf("finding a pilot: %w", err)
	}
	return p, nil
}

func findPilot(ctx context.Context, tx pgx.Tx, contest uuid.UUID, id string) (Pilot, error) {
	known, _ := uuid.Parse(id) // none where it is the one in bundles
	return row[Pilot](ctx, tx, `
		SELECT
			pilot_id AS id,
			code,
			name,
			affiliation,
			aircraft
		FROM pilot
		WHERE contest_id = @contest
			AND (pilot_id = @pilot OR @pilot::uuid IS NULL AND code = @code)`,
		pgx.StrictNamedArgs{"contest": contest, "pilot": orNil(known), "code": id})
}

func (p *PilotIn) readOrders(ctx context.Context, tx pgx.Tx) error {
	programmes, err := rows[struct{ ID uuid.UUID }](ctx, tx, `
		SELECT p.programme_id AS id
		FROM programme p
		JOIN category c USING (contest_id, category_id)
		WHERE p.contest_id = @contest
			AND EXISTS (
				SELECT
				FROM entry e
				WHERE e.contest_id = p.contest_id
					AND e.category_id = p.category_id
					AND e.pilot_id = @pilot
			)
		ORDER BY c.position, p.position`,
		pgx.StrictNamedArgs{"contest": p.Contest.ID, "pilot": p.Pilot.ID})
	if err != nil {
		return err
	}
	p.Orders = make([]*Order, len(programmes))
	for i, programme := range programmes {
		if p.Orders[i], err = readOrder(ctx, tx, programme.ID); err != nil {
			return err
		}
	}
	return nil
}
