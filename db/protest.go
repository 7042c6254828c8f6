package db

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// A Protest is a pilot's against published results.
type Protest struct {
	ID          uuid.UUID
	Programme   uuid.UUID
	Publication uuid.UUID // that stood when it was filed
	Pilot       Named
	Text        string
	FiledBy     string
	FiledAt     time.Time
	Decision    *Decision // nil while it is open
}

// A Decision is the director's about a protest.
type Decision struct {
	Upheld    bool
	Text      string
	Reopened  *uuid.UUID // the flight that it opened again
	DecidedBy string
	DecidedAt time.Time
}

// ProtestList is all that was protested of a programme.
type ProtestList struct {
	Head     Head
	Contest  ContestInfo
	Protests []Protest // the first filed first
}

// Protests lists the protests against a programme's results.
func (db *DB) Protests(ctx context.Context, programme uuid.UUID) (list *ProtestList, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		scope, err := findScope(ctx, tx, Scope{Programme: programme})
		if err != nil {
			return err
		}
		list = &ProtestList{}
		if list.Head, err = readHead(ctx, tx, scope.Contest); err != nil {
			return err
		}
		if list.Contest, err = readContestInfo(ctx, tx, scope.Contest); err != nil {
			return err
		}
		list.Protests, err = readProtests(ctx, tx, scope)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing protests: %w", err)
	}
	return list, nil
}

// readProtests reads the protests against a programme, all in a category, or all
// in a contest.
func readProtests(ctx context.Context, tx pgx.Tx, of Scope) ([]Protest, error) {
	read, err := rows[protestRow](ctx, tx, `
		SELECT
			r.protest_id AS id,
			r.programme_id AS programme,
			r.publication_id AS publication,
			r.pilot_id,
			p.name AS pilot_name,
			r.text,
			r.filed_by,
			r.filed_at,
			d.upheld,
			d.text AS decision,
			d.flight_id,
			d.decided_by,
			d.decided_at
		FROM protest r
		JOIN pilot p USING (contest_id, pilot_id)
		JOIN programme o USING (contest_id, programme_id)
		LEFT JOIN protest_decision d USING (contest_id, protest_id)
		WHERE r.contest_id = @contest
			AND (@category::uuid IS NULL OR o.category_id = @category)
			AND (@programme::uuid IS NULL OR r.programme_id = @programme)
		ORDER BY r.protest_id`,
		pgx.StrictNamedArgs{"contest": of.Contest, "category": orNil(of.Category), "programme": orNil(of.Programme)})
	protests := make([]Protest, len(read))
	for i := range read {
		protests[i] = read[i].protest()
	}
	return protests, err
}

type protestRow struct {
	ID          uuid.UUID
	Programme   uuid.UUID
	Publication uuid.UUID
	PilotID     uuid.UUID
	PilotName   string
	Text        string
	FiledBy     string
	FiledAt     time.Time
	Upheld      *bool
	Decision    *string
	FlightID    *uuid.UUID
	DecidedBy   *string
	DecidedAt   *time.Time
}

func (r *protestRow) protest() Protest {
	p := Protest{
		ID: r.ID, Programme: r.Programme, Publication: r.Publication, Pilot: Named{r.PilotID, r.PilotName},
		Text: r.Text, FiledBy: r.FiledBy, FiledAt: r.FiledAt,
	}
	if r.Upheld != nil {
		p.Decision = &Decision{Upheld: *r.Upheld, Text: *r.Decision, Reopened: r.FlightID, DecidedBy: *r.DecidedBy, DecidedAt: *r.DecidedAt}
	}
	return p
}

func readProtest(ctx context.Context, tx pgx.Tx, scope Scope, id uuid.UUID) (*Protest, error) {
	all, err := readProtests(ctx, tx, scope)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(all, func(p Protest) bool { return p.ID == id })
	if at < 0 {
		return nil, pgx.ErrNoRows
	}
	return &all[at], nil
}
