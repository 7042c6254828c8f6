package db

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/line"
	"halfpoint/scoring/order"
)

// An Order is the running order of a programme and how it came to be.
type Order struct {
	Head      Head
	Contest   ContestInfo
	Category  Named
	Programme Programme
	Revision  int64       // counts its changes; 0 where there was none yet
	Draws     int         // how many times it was drawn
	Plan      *order.Plan // how it was drawn last; nil where it never was
	Moves     int         // how many times it was changed by hand since
	Changed   *time.Time
	ChangedBy string
	Turns     []Turn  // in running order
	Entered   []Pilot // in the category, without a flight yet
}

// A Turn is a flight at its place in the running order.
type Turn struct {
	Flight
	Status string // one of line's; empty where nothing was said
	// Begun is when it was first called or flying, by the clock that wrote it;
	// nil where nobody said.
	Begun *time.Time
}

// HasBegun tells whether a flight was called: its place is then fixed.
func (t *Turn) HasBegun() bool {
	switch t.Status {
	case line.StatusCalled, line.StatusFlying, line.StatusLanded, line.StatusClosed, line.StatusDisqualified:
		return true
	}
	return false
}

// IsOut tells whether a flight will not be flown.
func (t *Turn) IsOut() bool {
	return t.Status == line.StatusWithdrawn || t.Status == line.StatusNotFlown
}

// Order reads the running order of a programme.
func (db *DB) Order(ctx context.Context, programme uuid.UUID) (o *Order, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		o, err = readOrder(ctx, tx, programme)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a running order: %w", err)
	}
	return o, nil
}

func readOrder(ctx context.Context, tx pgx.Tx, programme uuid.UUID) (o *Order, err error) {
	contest, err := contestOf(ctx, tx, "programme", programme)
	if err != nil {
		return nil, err
	}
	all, err := readProgrammes(ctx, tx, contest, programme)
	if err != nil {
		return nil, err
	}
	o = &Order{Programme: all[0]}
	if o.Head, err = readHead(ctx, tx, contest); err != nil {
		return nil, err
	}
	if o.Contest, err = readContestInfo(ctx, tx, contest); err != nil {
		return nil, err
	}
	if o.Category, err = readCategoryName(ctx, tx, contest, o.Programme.Category); err != nil {
		return nil, err
	}
	for _, read := range []func(context.Context, pgx.Tx) error{o.readHistory, o.readTurns, o.readBegun, o.readEntered} {
		if err := read(ctx, tx); err != nil {
			return nil, err
		}
	}
	return o, nil
}

func (o *Order) readHistory(ctx context.Context, tx pgx.Tx) error {
	found, err := rows[struct {
		Revision  int64
		Draws     int
		Plan      *order.Plan
		Moves     int
		ChangedAt time.Time
		ChangedBy string
	}](ctx, tx, `
		SELECT
			revision,
			draws,
			plan,
			moves,
			changed_at,
			changed_by
		FROM running_order
		WHERE contest_id = @contest
			AND programme_id = @programme`,
		pgx.StrictNamedArgs{"contest": o.Contest.ID, "programme": o.Programme.ID})
	for _, one := range found {
		o.Revision, o.Draws, o.Plan, o.Moves = one.Revision, one.Draws, one.Plan, one.Moves
		o.Changed, o.ChangedBy = &one.ChangedAt, one.ChangedBy
	}
	return err
}

func (o *Order) readTurns(ctx context.Context, tx pgx.Tx) error {
	flights, err := readFlights(ctx, tx, o.Contest.ID, []uuid.UUID{o.Programme.ID})
	if err != nil {
		return err
	}
	slices.SortFunc(flights, byPosition)
	statuses, err := readStatuses(ctx, tx, o.Contest.ID, flights)
	o.Turns = make([]Turn, len(flights))
	for i := range flights {
		o.Turns[i] = Turn{Flight: flights[i]}
		if err == nil {
			o.Turns[i].Status = statuses[i]
		}
	}
	return err
}

// readBegun finds when flights were first called or flying. A clock that wrote
// no time says nothing.
func (o *Order) readBegun(ctx context.Context, tx pgx.Tx) error {
	read, err := rows[struct {
		Flight uuid.UUID
		At     string
	}](ctx, tx, `
		SELECT
			r.flight_id AS flight,
			r.entered_at AS at
		FROM line_record r
		JOIN flight f USING (contest_id, flight_id)
		WHERE r.contest_id = @contest
			AND f.programme_id = @programme
			AND r.status IN ('called', 'flying')`,
		pgx.StrictNamedArgs{"contest": o.Contest.ID, "programme": o.Programme.ID})
	if err != nil {
		return err
	}
	for _, r := range read {
		at, err := time.Parse(time.RFC3339, r.At)
		turn := o.turn(func(t *Turn) bool { return t.ID == r.Flight })
		if err == nil && (turn.Begun == nil || at.Before(*turn.Begun)) {
			turn.Begun = &at
		}
	}
	return nil
}

// turn is the first one that is meant, nil for none.
func (o *Order) turn(is func(*Turn) bool) *Turn {
	for i := range o.Turns {
		if is(&o.Turns[i]) {
			return &o.Turns[i]
		}
	}
	return nil
}

func (o *Order) readEntered(ctx context.Context, tx pgx.Tx) (err error) {
	o.Entered, err = rows[Pilot](ctx, tx, `
		SELECT
			p.pilot_id AS id,
			p.code,
			p.name,
			p.affiliation,
			p.aircraft
		FROM entry e
		JOIN pilot p USING (contest_id, pilot_id)
		WHERE e.contest_id = @contest
			AND e.category_id = @category
			AND NOT EXISTS (
				SELECT
				FROM flight f
				WHERE f.contest_id = e.contest_id
					AND f.programme_id = @programme
					AND f.pilot_id = e.pilot_id
			)
		ORDER BY e.position, e.entry_id`,
		pgx.StrictNamedArgs{"contest": o.Contest.ID, "category": o.Category.ID, "programme": o.Programme.ID})
	return err
}
