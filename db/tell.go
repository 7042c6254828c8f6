package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/document"
)

// A Telling is a text in place of the one that was seen.
type Telling struct {
	Text     string
	Replaces string
	By       string // the account
}

// A ToldOtherwiseError says that a text is not the one that was seen. It is an
// ErrConflict.
type ToldOtherwiseError struct{ Present string }

// Error says what is there.
func (e *ToldOtherwiseError) Error() string {
	if e.Present == "" {
		return "somebody took the text out meanwhile"
	}
	return fmt.Sprintf("somebody changed the text meanwhile; it is now %q", e.Present)
}

// Unwrap makes it an ErrConflict.
func (e *ToldOtherwiseError) Unwrap() error { return ErrConflict }

// check complains of a text that cannot be kept.
func (t *Telling) check(bound document.Bound) error {
	var report document.Report
	bound.Check(&report, "text", t.Text)
	return report.Err()
}

// isThere tells whether the text is there already. Another one must be the one
// that was seen.
func (t *Telling) isThere(present string) (bool, error) {
	if present == t.Text {
		return true, nil
	}
	if present != t.Replaces {
		return false, &ToldOtherwiseError{present}
	}
	return false, nil
}

// What the journal says of what is told, so that no text is ever lost.
type (
	notedAct struct {
		Pilot    uuid.UUID `json:"pilot"`
		Text     string    `json:"text"`
		Replaces string    `json:"replaces"`
	}
	describedAct struct {
		Flight   uuid.UUID `json:"flight"`
		Text     string    `json:"text"`
		Replaces string    `json:"replaces"`
	}
)

// SetNote puts a line about a pilot in place of the one that was seen. The same
// again does nothing. It fails with a *ToldOtherwiseError where another one is
// there, and with document.Complaints at "text" about one that cannot be kept.
func (db *DB) SetNote(ctx context.Context, contest, pilot uuid.UUID, t Telling) error {
	if err := t.check(AboutBound); err != nil {
		return err
	}
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		present, err := value[string](ctx, tx, `
			SELECT note
			FROM pilot
			WHERE contest_id = @contest
				AND pilot_id = @pilot
			FOR NO KEY UPDATE`,
			pgx.StrictNamedArgs{"contest": contest, "pilot": pilot})
		if err != nil {
			return nil, err
		}
		if there, err := t.isThere(present); there || err != nil {
			return nil, err
		}
		return newAct(actNoted, t.By, notedAct{pilot, t.Text, present}), exec(ctx, tx, `
			UPDATE pilot
			SET note = @text,
				revision = revision + 1
			WHERE contest_id = @contest
				AND pilot_id = @pilot`,
			pgx.StrictNamedArgs{"contest": contest, "pilot": pilot, "text": t.Text})
	})
	if err != nil {
		return fmt.Errorf("noting a line about a pilot: %w", err)
	}
	return nil
}

// Describe puts what a pilot says of a free style in place of what was seen. The
// same again does nothing. It fails with a *ToldOtherwiseError where something
// else is there, with ErrConflict where all fly the programme's sequence, and with
// document.Complaints at "text" about what cannot be kept.
func (db *DB) Describe(ctx context.Context, flight uuid.UUID, t Telling) error {
	if err := t.check(FreeBound); err != nil {
		return err
	}
	_, err := db.changeFound(ctx, func(tx pgx.Tx) (uuid.UUID, *act, error) {
		present, err := lockDescription(ctx, tx, flight)
		if err != nil {
			return uuid.Nil, nil, err
		}
		if there, err := t.isThere(present.Description); there || err != nil {
			return uuid.Nil, nil, err
		}
		return present.Contest, newAct(actDescribed, t.By, describedAct{flight, t.Text, present.Description}), exec(ctx, tx, `
			UPDATE flight
			SET description = @text
			WHERE contest_id = @contest
				AND flight_id = @flight`,
			pgx.StrictNamedArgs{"contest": present.Contest, "flight": flight, "text": t.Text})
	})
	if err != nil {
		return fmt.Errorf("describing a free style: %w", err)
	}
	return nil
}

type lockedDescription struct {
	Contest     uuid.UUID
	Own         bool
	Description string
}

// lockDescription reads what is said of a free style and keeps it as it is
// meanwhile.
func lockDescription(ctx context.Context, tx pgx.Tx, flight uuid.UUID) (lockedDescription, error) {
	there, err := row[lockedDescription](ctx, tx, `
		SELECT
			contest_id AS contest,
			own_sequences AS own,
			description
		FROM flight
		WHERE flight_id = @flight
		FOR NO KEY UPDATE`,
		pgx.StrictNamedArgs{"flight": flight})
	if err == nil && !there.Own {
		err = &ShutError{"all flights of the programme fly its sequence: there is nothing of the pilot's own to describe"}
	}
	return there, err
}
