package db

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/document"
)

// store makes an order the present one.
func (o *Order) store(ctx context.Context, tx pgx.Tx, c *OrderChange) error {
	for _, step := range []func(context.Context, pgx.Tx, *OrderChange) error{o.leaveOut, o.place, o.remember} {
		if err := step(ctx, tx, c); err != nil {
			return err
		}
	}
	return nil
}

// leaveOut takes out the flights of the pilots that are left out, of which
// nothing may be known yet.
func (o *Order) leaveOut(ctx context.Context, tx pgx.Tx, c *OrderChange) error {
	var report document.Report
	for i := range o.Turns {
		turn := &o.Turns[i]
		if slices.Contains(c.Pilots, turn.Pilot.ID) {
			continue
		}
		err := deleteUnknown(ctx, tx, o.Contest.ID, turn.ID)
		if errors.Is(err, pgx.ErrNoRows) {
			report.Add("pilots", "flight %d has a sequence, a description or a record of the line: it cannot be left out, only withdrawn by the chief judge", turn.Number)
		} else if err != nil {
			return err
		}
	}
	return report.Err()
}

// deleteUnknown deletes a flight of which nothing is known; pgx.ErrNoRows where
// something is.
func deleteUnknown(ctx context.Context, tx pgx.Tx, contest, flight uuid.UUID) error {
	return exec(ctx, tx, `
		DELETE FROM flight f
		WHERE f.contest_id = @contest
			AND f.flight_id = @flight
			AND NOT EXISTS (
				SELECT
				FROM line_record r
				WHERE r.contest_id = f.contest_id
					AND r.flight_id = f.flight_id
			)
			AND NOT EXISTS (
				SELECT
				FROM sequence s
				WHERE s.contest_id = f.contest_id
					AND s.programme_id = f.programme_id
					AND s.pilot_id = f.pilot_id
			)
			AND f.description = ''`,
		pgx.StrictNamedArgs{"contest": contest, "flight": flight})
}

// place gives every flight its place, and one to whoever had none.
func (o *Order) place(ctx context.Context, tx pgx.Tx, c *OrderChange) error {
	next, batch := o.nextNumber(), &pgx.Batch{}
	for i, pilot := range c.Pilots {
		if o.turnOf(pilot) != nil {
			o.move(batch, pilot, i+1)
			continue
		}
		o.add(batch, pilot, i+1, next)
		next++
	}
	if err := tx.SendBatch(ctx, batch).Close(); err != nil {
		return fmt.Errorf("placing flights: %w", err)
	}
	return nil
}

func (o *Order) move(batch *pgx.Batch, pilot uuid.UUID, position int) {
	batch.Queue(`
		UPDATE flight
		SET position = @position
		WHERE contest_id = @contest
			AND programme_id = @programme
			AND pilot_id = @pilot`,
		pgx.StrictNamedArgs{"contest": o.Contest.ID, "programme": o.Programme.ID, "pilot": pilot, "position": position})
}

func (o *Order) add(batch *pgx.Batch, pilot uuid.UUID, position, number int) {
	batch.Queue(`
		INSERT INTO flight (contest_id, flight_id, programme_id, category_id, own_sequences, pilot_id, number, position)
		SELECT
			@contest,
			@flight,
			@programme,
			@category,
			own_sequences,
			@pilot,
			@number,
			@position
		FROM programme
		WHERE contest_id = @contest
			AND programme_id = @programme`,
		pgx.StrictNamedArgs{
			"contest": o.Contest.ID, "flight": newID(), "programme": o.Programme.ID, "category": o.Category.ID,
			"pilot": pilot, "number": number, "position": position,
		})
}

// nextNumber is higher than that of every flight of the programme.
func (o *Order) nextNumber() int {
	highest := 0
	for i := range o.Turns {
		highest = max(highest, o.Turns[i].Number)
	}
	return highest + 1
}

// remember keeps how the order came to be.
func (o *Order) remember(ctx context.Context, tx pgx.Tx, c *OrderChange) error {
	_, err := tx.Exec(ctx, `
		INSERT INTO running_order AS o (contest_id, programme_id, revision, draws, plan, moves, changed_by)
		VALUES (@contest, @programme, 1, @draws, @plan, 1 - @draws, @by)
		ON CONFLICT (contest_id, programme_id) DO UPDATE
		SET revision = o.revision + 1,
			draws = o.draws + excluded.draws,
			plan = coalesce(excluded.plan, o.plan),
			moves = CASE WHEN excluded.draws > 0 THEN 0 ELSE o.moves + 1 END,
			changed_at = clock_timestamp(),
			changed_by = excluded.changed_by`,
		pgx.StrictNamedArgs{
			"contest": o.Contest.ID, "programme": o.Programme.ID,
			"draws": drawsOf(c), "plan": c.Plan, "by": c.By,
		})
	return err
}

func drawsOf(c *OrderChange) int {
	if c.Plan == nil {
		return 0
	}
	return 1
}

// Movable are the pilots whose flights were not called, as an order of all of
// them can have them: those that fly, then those that will not.
func (o *Order) Movable() (fly, out []Pilot) {
	for i := range o.Turns {
		switch turn := &o.Turns[i]; {
		case turn.IsOut():
			out = append(out, turn.Pilot)
		case !turn.HasBegun():
			fly = append(fly, turn.Pilot)
		}
	}
	return append(fly, o.Entered...), out
}

// With is the whole order in which those whose flights were called come first,
// as they are, and the others after them.
func (o *Order) With(others []uuid.UUID) []uuid.UUID {
	var all []uuid.UUID
	for i := range o.Turns {
		if o.Turns[i].HasBegun() {
			all = append(all, o.Turns[i].Pilot.ID)
		}
	}
	return append(all, others...)
}
