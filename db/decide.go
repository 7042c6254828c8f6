package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
	"halfpoint/scoring/publication"
)

// A NewDecision decides a protest.
type NewDecision struct {
	Upheld bool
	Text   string
	// Reopen is a closed flight of the programme that is opened again; only
	// where the protest is upheld.
	Reopen *uuid.UUID
	By     string // the account
}

// Decide decides a protest, once: what was decided stays, and the same decision
// again does nothing. Another one is ErrConflict.
func (db *DB) Decide(ctx context.Context, protest uuid.UUID, n NewDecision) (decided *Protest, err error) {
	if err := n.check(); err != nil {
		return nil, err
	}
	scope, err := db.scopeOfProtest(ctx, protest)
	if err != nil {
		return nil, fmt.Errorf("deciding a protest: %w", err)
	}
	_, err = db.change(ctx, scope.Contest, func(tx pgx.Tx) (act *act, err error) {
		d := &decider{scope: scope, protest: protest, decision: n}
		act, err = d.decide(ctx, tx)
		if err != nil {
			return nil, err
		}
		decided, err = readProtest(ctx, tx, scope, protest)
		return act, err
	})
	if err != nil {
		return nil, fmt.Errorf("deciding a protest: %w", err)
	}
	return decided, nil
}

func (n *NewDecision) check() error {
	var report document.Report
	TextBound.Check(&report, "text", n.Text)
	if n.Reopen != nil && !n.Upheld {
		report.Add("reopen", "only an upheld protest opens a flight again")
	}
	return report.Err()
}

func (db *DB) scopeOfProtest(ctx context.Context, protest uuid.UUID) (scope Scope, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		scope, err = row[Scope](ctx, tx, `
			SELECT
				p.contest_id AS contest,
				p.category_id AS category,
				p.programme_id AS programme
			FROM protest r
			JOIN programme p USING (contest_id, programme_id)
			WHERE r.protest_id = @protest`,
			pgx.StrictNamedArgs{"protest": protest})
		return err
	})
	return scope, err
}

// decider decides once.
type decider struct {
	scope    Scope
	protest  uuid.UUID
	decision NewDecision
}

// decidedAct is what the journal says of a decision.
type decidedAct struct {
	Protest uuid.UUID    `json:"protest"`
	Upheld  bool         `json:"upheld"`
	Text    string       `json:"text"`
	Reopen  *uuid.UUID   `json:"reopened,omitempty"`
	Records []recordHash `json:"records,omitempty"` // of the line, by which the flight was opened
	Store   *uuid.UUID   `json:"store,omitempty"`   // of those
}

func (d *decider) decide(ctx context.Context, tx pgx.Tx) (*act, error) {
	if err := lockProgrammes(ctx, tx, d.scope); err != nil {
		return nil, err
	}
	there, err := readProtest(ctx, tx, d.scope, d.protest)
	if err != nil {
		return nil, err
	}
	if done := there.Decision; done != nil {
		if done.Upheld == d.decision.Upheld && done.Text == d.decision.Text && sameID(done.Reopened, d.decision.Reopen) {
			return nil, nil
		}
		return nil, fmt.Errorf("%w: the protest is decided", ErrConflict)
	}
	details := &decidedAct{Protest: d.protest, Upheld: d.decision.Upheld, Text: d.decision.Text, Reopen: d.decision.Reopen}
	if err := d.reopen(ctx, tx, details); err != nil {
		return nil, err
	}
	return newAct(actDecided, d.decision.By, details), d.insert(ctx, tx)
}

func sameID(a, b *uuid.UUID) bool { return a == nil && b == nil || a != nil && b != nil && *a == *b }

func (d *decider) insert(ctx context.Context, tx pgx.Tx) error {
	n := &d.decision
	_, err := tx.Exec(ctx, `
		INSERT INTO protest_decision (
			contest_id,
			protest_id,
			upheld,
			text,
			flight_id,
			decided_by,
			decided_at
		)
		VALUES (
			@contest,
			@protest,
			@upheld,
			@text,
			@flight,
			@by,
			clock_timestamp()
		)`,
		pgx.StrictNamedArgs{"contest": d.scope.Contest, "protest": d.protest, "upheld": n.Upheld, "text": n.Text, "flight": n.Reopen, "by": n.By})
	return err
}

// reopen opens the flight again, by a record of the line: it has landed, as
// before it was closed.
func (d *decider) reopen(ctx context.Context, tx pgx.Tx, details *decidedAct) error {
	if d.decision.Reopen == nil {
		return nil
	}
	flight, err := d.closedFlight(ctx, tx)
	if err != nil {
		return err
	}
	record := line.Record{
		Seq: 1, ID: newID().String(), Kind: line.KindStatus, Flight: flight.Flight, Attempt: flight.Counting,
		Status: line.StatusLanded, Replaces: flight.StatusHeads, Reason: "protest upheld",
		EnteredAt: time.Now().UTC().Format(time.RFC3339),
	}
	store := newID()
	author := line.Author{Role: line.RoleDirector, Device: d.decision.By}
	row, err := recordRow(d.scope.Contest, store, author, &Received{Record: record})
	if err != nil {
		return err
	}
	if _, err := tx.Exec(ctx, insertRecord, row...); err != nil {
		return fmt.Errorf("storing a record: %w", err)
	}
	details.Store, details.Records = &store, []recordHash{{record.ID, publication.HashOf(row[bodyColumn].([]byte)).String()}}
	return nil
}

// closedFlight locks the flight to be opened and reads its state.
func (d *decider) closedFlight(ctx context.Context, tx pgx.Tx) (*line.Flight, error) {
	id := *d.decision.Reopen
	locked, err := tx.Exec(ctx, `
		SELECT
		FROM flight
		WHERE contest_id = @contest
			AND programme_id = @programme
			AND flight_id = @flight
		FOR UPDATE`,
		pgx.StrictNamedArgs{"contest": d.scope.Contest, "programme": d.scope.Programme, "flight": id})
	if err != nil {
		return nil, err
	}
	if locked.RowsAffected() == 0 {
		return nil, document.Complaints{{Place: "reopen", Text: "is no flight of the programme"}}
	}
	resolved, err := readLine(ctx, tx, d.scope.Contest, []uuid.UUID{id})
	if err != nil {
		return nil, err
	}
	flight := resolved.flights[id.String()]
	if flight.Status != line.StatusClosed {
		return nil, fmt.Errorf("%w: the flight is not closed", ErrConflict)
	}
	return flight, nil
}
