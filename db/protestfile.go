package db

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/document"
	"halfpoint/scoring/publication"
)

// A NewProtest is one that is filed.
type NewProtest struct {
	Pilot uuid.UUID
	Text  string
	By    string // the account
}

// NotInTimeError refuses a protest: there is nothing provisional, or its time is
// over.
type NotInTimeError struct {
	Until *time.Time // when the time was over; nil where there was none
}

func (e *NotInTimeError) Error() string {
	if e.Until == nil {
		return "no provisional results with a time for protests are published"
	}
	return "the time for protests was over at " + e.Until.UTC().Format(time.RFC3339)
}

// File files a protest against the results of a programme as they are published.
// Fresh is false where the pilot's protest in the same words is open already. A
// protest out of time is refused with NotInTimeError.
func (db *DB) File(ctx context.Context, programme uuid.UUID, n NewProtest) (id uuid.UUID, fresh bool, err error) {
	if err := n.check(); err != nil {
		return uuid.Nil, false, err
	}
	scope, err := db.scopeOf(ctx, Scope{Programme: programme})
	if err != nil {
		return uuid.Nil, false, fmt.Errorf("filing a protest: %w", err)
	}
	_, err = db.change(ctx, scope.Contest, func(tx pgx.Tx) (act *act, err error) {
		id, act, err = file(ctx, tx, scope, n)
		fresh = act != nil
		return act, err
	})
	if err != nil {
		return uuid.Nil, false, fmt.Errorf("filing a protest: %w", err)
	}
	return id, fresh, nil
}

func (n *NewProtest) check() error {
	var report document.Report
	TextBound.Check(&report, "text", n.Text)
	return report.Err()
}

func file(ctx context.Context, tx pgx.Tx, scope Scope, n NewProtest) (uuid.UUID, *act, error) {
	if err := lockProgrammes(ctx, tx, scope); err != nil {
		return uuid.Nil, nil, err
	}
	there, err := readProtests(ctx, tx, scope)
	if err != nil {
		return uuid.Nil, nil, err
	}
	if at := slices.IndexFunc(there, n.isOpen); at >= 0 {
		return there[at].ID, nil, nil
	}
	now, err := readClock(ctx, tx)
	if err != nil {
		return uuid.Nil, nil, err
	}
	against, err := readProtestable(ctx, tx, scope, now)
	if err != nil {
		return uuid.Nil, nil, err
	}
	if err := checkFlies(ctx, tx, scope, n.Pilot); err != nil {
		return uuid.Nil, nil, err
	}
	id := newID()
	return id, newAct(actProtested, n.By, protestedAct{id, scope.Programme, against, n.Pilot, n.Text}),
		insertProtest(ctx, tx, scope, protestRow{ID: id, Publication: against, PilotID: n.Pilot, Text: n.Text, FiledBy: n.By, FiledAt: now})
}

// isOpen tells whether a protest is the same one, filed before and not decided.
func (n *NewProtest) isOpen(p Protest) bool {
	return p.Pilot.ID == n.Pilot && p.Text == n.Text && p.Decision == nil
}

// protestedAct is what the journal says of a protest.
type protestedAct struct {
	Protest     uuid.UUID `json:"protest"`
	Programme   uuid.UUID `json:"programme"`
	Publication uuid.UUID `json:"publication"`
	Pilot       uuid.UUID `json:"pilot"`
	Text        string    `json:"text"`
}

// readProtestable finds the publication of a scope that can be protested now.
func readProtestable(ctx context.Context, tx pgx.Tx, of Scope, now time.Time) (uuid.UUID, error) {
	latest, err := readLatest(ctx, tx, of)
	switch {
	case err != nil:
		return uuid.Nil, err
	case latest == nil || latest.State != publication.Provisional || latest.ProtestUntil == nil:
		return uuid.Nil, &NotInTimeError{}
	case now.After(*latest.ProtestUntil):
		return uuid.Nil, &NotInTimeError{latest.ProtestUntil}
	}
	return latest.ID, nil
}

// checkFlies complains about a pilot who does not fly the programme.
func checkFlies(ctx context.Context, tx pgx.Tx, of Scope, pilot uuid.UUID) error {
	flies, err := value[bool](ctx, tx, `
		SELECT EXISTS (
			SELECT
			FROM flight
			WHERE contest_id = @contest
				AND programme_id = @programme
				AND pilot_id = @pilot
		)`,
		pgx.StrictNamedArgs{"contest": of.Contest, "programme": of.Programme, "pilot": pilot})
	if err == nil && !flies {
		err = document.Complaints{{Place: "pilot", Text: "does not fly the programme"}}
	}
	return err
}

func insertProtest(ctx context.Context, tx pgx.Tx, of Scope, p protestRow) error {
	_, err := tx.Exec(ctx, `
		INSERT INTO protest (
			contest_id,
			protest_id,
			programme_id,
			publication_id,
			pilot_id,
			text,
			filed_by,
			filed_at
		)
		VALUES (
			@contest,
			@protest,
			@programme,
			@publication,
			@pilot,
			@text,
			@filed_by,
			@filed_at
		)`,
		pgx.StrictNamedArgs{
			"contest": of.Contest, "protest": p.ID, "programme": of.Programme, "publication": p.Publication,
			"pilot": p.PilotID, "text": p.Text, "filed_by": p.FiledBy, "filed_at": p.FiledAt,
		})
	return err
}
