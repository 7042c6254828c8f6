package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// placed says how the contest of a thing is found, by the kind of thing.
var placed = map[string]string{
	"contest":     `SELECT contest_id FROM contest WHERE contest_id = @id`,
	"category":    `SELECT contest_id FROM category WHERE category_id = @id`,
	"programme":   `SELECT contest_id FROM programme WHERE programme_id = @id`,
	"flight":      `SELECT contest_id FROM flight WHERE flight_id = @id`,
	"protest":     `SELECT contest_id FROM protest WHERE protest_id = @id`,
	"publication": `SELECT contest_id FROM publication WHERE publication_id = @id`,
}

// Placed tells whether a kind of thing belongs to a contest, so that ContestOf
// finds it.
func Placed(kind string) bool {
	_, ok := placed[kind]
	return ok
}

// ContestOf finds the contest of a thing, which never changes.
func (db *DB) ContestOf(ctx context.Context, kind string, id uuid.UUID) (contest uuid.UUID, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		contest, err = contestOf(ctx, tx, kind, id)
		return err
	})
	if err != nil {
		return uuid.Nil, fmt.Errorf("finding the contest of a %s: %w", kind, err)
	}
	return contest, nil
}

// contestOf finds the contest of a thing that is known by its own id alone.
func contestOf(ctx context.Context, tx pgx.Tx, kind string, id uuid.UUID) (uuid.UUID, error) {
	return value[uuid.UUID](ctx, tx, placed[kind], pgx.StrictNamedArgs{"id": id})
}

// PilotOf finds the pilot of a flight, who never changes.
func (db *DB) PilotOf(ctx context.Context, flight uuid.UUID) (pilot uuid.UUID, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		pilot, err = value[uuid.UUID](ctx, tx, `
			SELECT pilot_id
			FROM flight
			WHERE flight_id = @flight`,
			pgx.StrictNamedArgs{"flight": flight})
		return err
	})
	if err != nil {
		return uuid.Nil, fmt.Errorf("finding the pilot of a flight: %w", err)
	}
	return pilot, nil
}
