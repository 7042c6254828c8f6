package db

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// An AnalysisState says who may see the analysis of a programme's judges.
type AnalysisState struct {
	Programme uuid.UUID
	Published bool       // results of the programme are: its judges see their own
	OpenedAt  *time.Time // since when everyone does who sees the contest; nil where not
}

// AnalysisStates reads them for the programmes of a contest.
func (db *DB) AnalysisStates(ctx context.Context, contest uuid.UUID) (states map[uuid.UUID]AnalysisState, err error) {
	states = map[uuid.UUID]AnalysisState{}
	err = db.read(ctx, func(tx pgx.Tx) error {
		found, err := readAnalysisStates(ctx, tx, contest)
		for _, one := range found {
			states[one.Programme] = one
		}
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading who may see an analysis: %w", err)
	}
	return states, nil
}

func readAnalysisStates(ctx context.Context, tx pgx.Tx, contest uuid.UUID) ([]AnalysisState, error) {
	return rows[AnalysisState](ctx, tx, `
		SELECT
			p.programme_id AS programme,
			EXISTS (
				SELECT
				FROM publication
				WHERE contest_id = p.contest_id
					AND programme_id = p.programme_id
			) AS published,
			a.opened_at
		FROM programme p
		LEFT JOIN analysis_opening a USING (contest_id, programme_id)
		WHERE p.contest_id = @contest`,
		pgx.StrictNamedArgs{"contest": contest})
}

// openedAct is what the journal says of an analysis that was opened.
type openedAct struct {
	Programme uuid.UUID `json:"programme"`
}

// OpenAnalysis shows the analysis of a programme's judges, for good, to everyone
// who sees the contest. A second time does nothing. It is refused with Refusals
// before results of the programme are published. By is the account.
func (db *DB) OpenAnalysis(ctx context.Context, programme uuid.UUID, by string) error {
	scope, err := db.scopeOf(ctx, Scope{Programme: programme})
	if err != nil {
		return fmt.Errorf("opening an analysis: %w", err)
	}
	_, err = db.change(ctx, scope.Contest, func(tx pgx.Tx) (*act, error) {
		latest, err := readLatest(ctx, tx, scope)
		if err != nil {
			return nil, err
		}
		if latest == nil {
			return nil, Refusals{{Text: "no results of the programme are published yet", Final: true}}
		}
		return insertOpening(ctx, tx, scope, by)
	})
	if err != nil {
		return fmt.Errorf("opening an analysis: %w", err)
	}
	return nil
}

func insertOpening(ctx context.Context, tx pgx.Tx, of Scope, by string) (*act, error) {
	err := exec(ctx, tx, `
		INSERT INTO analysis_opening (contest_id, programme_id, opened_by)
		VALUES (@contest, @programme, @by)
		ON CONFLICT DO NOTHING`,
		pgx.StrictNamedArgs{"contest": of.Contest, "programme": of.Programme, "by": by})
	if errors.Is(err, pgx.ErrNoRows) {
		return nil, nil //nolint:nilnil // it is open already, and nothing changes
	}
	return newAct(actAnalysis, by, openedAct{of.Programme}), err
}

// PanelsOf lists the programmes on whose panels a judge of a contest sits.
func (db *DB) PanelsOf(ctx context.Context, contest, judge uuid.UUID) (programmes []uuid.UUID, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		programmes, err = values[uuid.UUID](ctx, tx, `
			SELECT programme_id
			FROM seat
			WHERE contest_id = @contest
				AND judge_id = @judge`,
			pgx.StrictNamedArgs{"contest": contest, "judge": judge})
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a judge's panels: %w", err)
	}
	return programmes, nil
}
