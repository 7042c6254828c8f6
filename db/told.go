package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Told is what an announcer tells a crowd of a pilot, in the words of the pilot
// or of the office.
type Told struct {
	Head    Head
	Contest ContestInfo
	Pilot   Pilot
	Note    string       // a line about the pilot; may be empty
	Flights []ToldFlight // those that fly a sequence of their own, in the order flown
}

// A ToldFlight is a free style.
type ToldFlight struct {
	ID          uuid.UUID
	Number      int
	Category    Named
	Programme   Named
	Description string // may be empty
}

// Told reads what is told of a pilot, by the id or by the one in bundles.
func (db *DB) Told(ctx context.Context, contest uuid.UUID, pilot string) (t *Told, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		t, err = readTold(ctx, tx, contest, pilot)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading what is told of a pilot: %w", err)
	}
	return t, nil
}

func readTold(ctx context.Context, tx pgx.Tx, contest uuid.UUID, pilot string) (t *Told, err error) {
	t = &Told{}
	if t.Head, err = readHead(ctx, tx, contest); err != nil {
		return nil, err
	}
	if t.Contest, err = readContestInfo(ctx, tx, contest); err != nil {
		return nil, err
	}
	if t.Pilot, err = findPilot(ctx, tx, contest, pilot); err != nil {
		return nil, err
	}
	if t.Note, err = readNote(ctx, tx, contest, t.Pilot.ID); err != nil {
		return nil, err
	}
	t.Flights, err = readToldFlights(ctx, tx, contest, t.Pilot.ID)
	return t, err
}

func readNote(ctx context.Context, tx pgx.Tx, contest, pilot uuid.UUID) (string, error) {
	return value[string](ctx, tx, `
		SELECT note
		FROM pilot
		WHERE contest_id = @contest
			AND pilot_id = @pilot`,
		pgx.StrictNamedArgs{"contest": contest, "pilot": pilot})
}

func readToldFlights(ctx context.Context, tx pgx.Tx, contest, pilot uuid.UUID) ([]ToldFlight, error) {
	read, err := rows[struct {
		ID          uuid.UUID
		Number      int
		CategoryID  uuid.UUID
		Category    string
		ProgrammeID uuid.UUID
		Programme   string
		Description string
	}](ctx, tx, `
		SELECT
			f.flight_id AS id,
			f.number,
			c.category_id,
			c.name AS category,
			p.programme_id,
			p.name AS programme,
			f.description
		FROM flight f
		JOIN programme p USING (contest_id, programme_id)
		JOIN category c ON c.contest_id = f.contest_id
			AND c.category_id = f.category_id
		WHERE f.contest_id = @contest
			AND f.pilot_id = @pilot
			AND f.own_sequences
		ORDER BY c.position, p.position`,
		pgx.StrictNamedArgs{"contest": contest, "pilot": pilot})
	flights := make([]ToldFlight, len(read))
	for i, r := range read {
		flights[i] = ToldFlight{r.ID, r.Number, Named{r.CategoryID, r.Category}, Named{r.ProgrammeID, r.Programme}, r.Description}
	}
	return flights, err
}
