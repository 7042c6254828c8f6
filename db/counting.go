package db

import (
	"context"
	"fmt"

	"github.com/jackc/pgx/v5"

	"github.com/google/uuid"

	"halfpoint/scoring/document"
)

// A Counting is the director's decision whether a programme counts.
type Counting struct {
	Counts bool
	// Abandoned: it was broken off, does not count, and can be published
	// though flights of it are not closed.
	Abandoned bool
	Reason    string
	By        string // the account
}

// SetCounting decides whether a programme adds to totals, ties and cuts. The same
// decision again does nothing.
func (db *DB) SetCounting(ctx context.Context, programme uuid.UUID, c Counting) error {
	if err := c.check(); err != nil {
		return err
	}
	scope, err := db.scopeOf(ctx, Scope{Programme: programme})
	if err != nil {
		return fmt.Errorf("deciding whether a programme counts: %w", err)
	}
	_, err = db.change(ctx, scope.Contest, func(tx pgx.Tx) (*act, error) {
		changed, err := setCounting(ctx, tx, scope, c)
		if err != nil || !changed {
			return nil, err
		}
		return newAct(actCounting, c.By, countingAct{programme, c.Counts, c.Abandoned, c.Reason}), nil
	})
	if err != nil {
		return fmt.Errorf("deciding whether a programme counts: %w", err)
	}
	return nil
}

func (c *Counting) check() error {
	var report document.Report
	TextBound.Check(&report, "reason", c.Reason) // it is published
	if c.Counts && c.Abandoned {
		report.Add("counts", "an abandoned programme does not count")
	}
	return report.Err()
}

// countingAct is what the journal says of such a decision.
type countingAct struct {
	Programme uuid.UUID `json:"programme"`
	Counts    bool      `json:"counts"`
	Abandoned bool      `json:"abandoned"`
	Reason    string    `json:"reason"`
}

func setCounting(ctx context.Context, tx pgx.Tx, of Scope, c Counting) (changed bool, err error) {
	done, err := tx.Exec(ctx, `
		UPDATE programme
		SET counts = @counts,
			abandoned = @abandoned,
			counts_reason = @reason
		WHERE contest_id = @contest
			AND programme_id = @programme
			AND (counts, abandoned, counts_reason) IS DISTINCT FROM (@counts, @abandoned, @reason)`,
		pgx.StrictNamedArgs{
			"contest": of.Contest, "programme": of.Programme,
			"counts": c.Counts, "abandoned": c.Abandoned, "reason": c.Reason,
		})
	return done.RowsAffected() > 0, err
}

// readCounting reads what a programme is called and what was decided last about
// it; not by whom.
func readCounting(ctx context.Context, tx pgx.Tx, of Scope) (name string, decided Counting, err error) {
	read, err := row[struct {
		Name      string
		Counts    bool
		Abandoned bool
		Reason    string
	}](ctx, tx, `
		SELECT
			name,
			counts,
			abandoned,
			counts_reason AS reason
		FROM programme
		WHERE contest_id = @contest
			AND programme_id = @programme`,
		pgx.StrictNamedArgs{"contest": of.Contest, "programme": of.Programme})
	return read.Name, Counting{Counts: read.Counts, Abandoned: read.Abandoned, Reason: read.Reason}, err
}
