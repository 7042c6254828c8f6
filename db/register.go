package db

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
)

// A Seen says which sequence was seen in a place before something is done to
// it.
type Seen struct {
	Digest   string // empty where nothing was registered
	Revision int    // 0 where it is not said
}

// A SequenceChangedError says that a sequence is not the one that was seen. It is
// an ErrConflict.
type SequenceChangedError struct {
	Present *Sequence // nil where nothing is registered
}

// Error says what is there.
func (e *SequenceChangedError) Error() string {
	if e.Present == nil {
		return "no sequence is registered"
	}
	return fmt.Sprintf("the sequence that is registered now is %s, revision %d of %s",
		e.Present.Digest, e.Present.Revision, e.Present.Registered.UTC().Format(time.RFC3339))
}

// Unwrap makes it an ErrConflict.
func (e *SequenceChangedError) Unwrap() error { return ErrConflict }

// RegisterSequence registers a sequence in a place of a contest, in place of the
// one that was seen there. It fails with a *SequenceChangedError where another one is
// there, and with ErrConflict where the place has no sequence of its own: a
// flight of a programme with a common one, or a programme without. What is
// registered already is left as it is, its sign-off with it. A known, free or
// freestyle sequence is released at once, a released one stays it. A sequence
// that cannot be stored is refused with document.Complaints.
func (db *DB) RegisterSequence(ctx context.Context, contest uuid.UUID, place SequencePlace, seen Seen, s *scoring.Sequence, by string) error {
	if err := checkSequence(s); err != nil {
		return err
	}
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		at, err := lockPlace(ctx, tx, contest, place, seen)
		if err != nil {
			return nil, err
		}
		if same, err := at.holds(s); same || err != nil {
			return nil, err
		}
		stored, err := at.store(ctx, tx, s)
		if err != nil {
			return nil, err
		}
		return newAct(actRegistered, by, registeredAct{at.act(stored), seen.Digest, s}), nil
	})
	if err != nil {
		return fmt.Errorf("registering a sequence: %w", err)
	}
	return nil
}

// SignOffSequence accepts the sequence that was seen, with what the office had
// found in it and why it accepts it all the same.
func (db *DB) SignOffSequence(ctx context.Context, contest uuid.UUID, place SequencePlace, seen Seen, found Found, reason, by string) error {
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		at, err := lockPlace(ctx, tx, contest, place, seen)
		if err != nil {
			return nil, err
		}
		if at.present == nil {
			return nil, &SequenceChangedError{}
		}
		_, err = tx.Exec(ctx, `
			UPDATE sequence
			SET signed_off_at = now(),
				signed_off_by = @by,
				signed_off_reason = @reason
			WHERE contest_id = @contest
				AND sequence_id = @sequence`,
			pgx.StrictNamedArgs{"contest": contest, "sequence": at.id, "by": by, "reason": reason})
		return newAct(actSignedOff, by, signedOffAct{at.act(at.present.version()), found, reason}), err
	})
	if err != nil {
		return fmt.Errorf("signing a sequence off: %w", err)
	}
	return nil
}

// ReleaseSequence lets everyone see the sequence of an unknown programme that
// was seen. One that is released already stays it.
func (db *DB) ReleaseSequence(ctx context.Context, contest, programme uuid.UUID, seen Seen, by string) error {
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		at, err := lockPlace(ctx, tx, contest, SequencePlace{Programme: programme}, seen)
		if err != nil {
			return nil, err
		}
		if at.present == nil {
			return nil, &SequenceChangedError{}
		}
		if at.present.Released != nil {
			return nil, nil
		}
		_, err = tx.Exec(ctx, `
			UPDATE sequence
			SET released_at = now()
			WHERE contest_id = @contest
				AND sequence_id = @sequence`,
			pgx.StrictNamedArgs{"contest": contest, "sequence": at.id})
		return newAct(actReleased, by, at.act(at.present.version())), err
	})
	if err != nil {
		return fmt.Errorf("releasing a sequence: %w", err)
	}
	return nil
}

// Found is what was found in a sequence that is signed off.
type Found struct {
	Errors  int `json:"errors"`
	Remarks int `json:"remarks"`
}

// What the journal says of sequences.
type (
	sequenceAct struct {
		Programme uuid.UUID  `json:"programme"`
		Flight    *uuid.UUID `json:"flight,omitempty"`
		Digest    string     `json:"digest"`
		Revision  int        `json:"revision"`
	}
	registeredAct struct {
		sequenceAct
		Replaces string            `json:"replaces"`
		Sequence *scoring.Sequence `json:"sequence"` // so that none is ever lost
	}
	signedOffAct struct {
		sequenceAct
		Found  Found  `json:"found"`
		Reason string `json:"reason"`
	}
)

// lockedPlace is a place in which nobody else can register until the end of the
// transaction.
type lockedPlace struct {
	foundPlace
	id      uuid.UUID // of the present sequence
	present *Sequence // nil for none
}

// lockPlace locks a place that holds what was seen.
func lockPlace(ctx context.Context, tx pgx.Tx, contest uuid.UUID, place SequencePlace, seen Seen) (at *lockedPlace, err error) {
	at = &lockedPlace{}
	if at.foundPlace, err = findPlace(ctx, tx, place); err != nil {
		return nil, err
	}
	if at.Contest != contest {
		return nil, pgx.ErrNoRows
	}
	if at.Own != (at.flight != nil) {
		return nil, fmt.Errorf("%w: the sequence is not registered there", ErrConflict)
	}
	if err := lockProgrammes(ctx, tx, Scope{at.Contest, at.Category, at.Programme}); err != nil {
		return nil, err
	}
	return at, at.read(ctx, tx, seen)
}

// read reads what is there and holds it against what was seen.
func (at *lockedPlace) read(ctx context.Context, tx pgx.Tx, seen Seen) error {
	all, err := readSequences(ctx, tx, at.Contest, []uuid.UUID{at.Programme})
	if err != nil {
		return err
	}
	present := Seen{}
	if at.present = all[at.key()]; at.present != nil {
		at.id, present = at.present.id, at.present.version()
	}
	if seen.Digest != present.Digest || seen.Revision != 0 && seen.Revision != present.Revision {
		return &SequenceChangedError{Present: at.present}
	}
	return nil
}

// version names the sequence as it is registered.
func (s *Sequence) version() Seen { return Seen{s.Digest, s.Revision} }

func (at *lockedPlace) act(version Seen) sequenceAct {
	a := sequenceAct{Programme: at.Programme, Digest: version.Digest, Revision: version.Revision}
	if at.flight != nil {
		a.Flight = &at.flight.ID
	}
	return a
}

// holds tells whether the very same sequence is there.
func (at *lockedPlace) holds(s *scoring.Sequence) (bool, error) {
	if at.present == nil {
		return false, nil
	}
	there, err := json.Marshal(&at.present.Sequence)
	if err != nil {
		return false, err
	}
	given, err := json.Marshal(s)
	return bytes.Equal(there, given), err
}

// store puts a sequence into the place, with nobody's sign-off.
func (at *lockedPlace) store(ctx context.Context, tx pgx.Tx, s *scoring.Sequence) (Seen, error) {
	stored := Seen{sequenceDigest(s), 1}
	var err error
	if at.present == nil {
		at.id = newID()
		err = at.insert(ctx, tx, s, stored)
	} else {
		stored.Revision = at.present.Revision + 1
		err = at.update(ctx, tx, s, stored)
	}
	if err != nil {
		return Seen{}, err
	}
	items := newItemTable()
	items.addItems(at.Contest, at.id, s)
	return stored, items.copy(ctx, tx)
}

func (at *lockedPlace) insert(ctx context.Context, tx pgx.Tx, s *scoring.Sequence, stored Seen) error {
	args := pgx.StrictNamedArgs{
		"contest": at.Contest, "sequence": at.id, "programme": at.Programme, "category": at.Category, "own": at.Own,
		"pilot": nil, "digest": stored.Digest, "entry": s.Entry, "unknown": at.Kind == scoring.Unknown,
	}
	if at.flight != nil {
		args["pilot"] = at.flight.Pilot.ID
	}
	_, err := tx.Exec(ctx, `
		INSERT INTO sequence (contest_id, sequence_id, programme_id, category_id, own_sequences, pilot_id, digest, entry, released_at)
		VALUES (@contest, @sequence, @programme, @category, @own, @pilot, @digest, @entry, CASE WHEN NOT @unknown THEN now() END)`, args)
	return err
}

func (at *lockedPlace) update(ctx context.Context, tx pgx.Tx, s *scoring.Sequence, stored Seen) error {
	args := pgx.StrictNamedArgs{"contest": at.Contest, "sequence": at.id}
	_, err := tx.Exec(ctx, `
		DELETE FROM sequence_item
		WHERE contest_id = @contest
			AND sequence_id = @sequence`, args)
	if err != nil {
		return err
	}
	args["digest"], args["entry"], args["revision"] = stored.Digest, s.Entry, stored.Revision
	_, err = tx.Exec(ctx, `
		UPDATE sequence
		SET digest = @digest,
			entry = @entry,
			revision = @revision,
			registered_at = now(),
			signed_off_at = NULL,
			signed_off_by = NULL,
			signed_off_reason = NULL
		WHERE contest_id = @contest
			AND sequence_id = @sequence`, args)
	return err
}
