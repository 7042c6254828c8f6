package db

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/document"
	"halfpoint/scoring/order"
)

// An OrderChange is another running order.
type OrderChange struct {
	Revision int64       // of the order that was seen
	Pilots   []uuid.UUID // in the order in which they fly
	Plan     *order.Plan // how it was drawn; nil where it was made by hand
	By       string      // the account
}

// SetOrder puts the pilots of a programme in another order. Whoever has no
// flight yet gets one with the next number, which then is theirs for good; a
// flight of which nothing is known is taken out where its pilot is left out. A
// flight that was called keeps its place before all that were not. It fails with
// an ErrConflict that says why where the order is not the one that was seen, and
// with document.Complaints at "pilots" about an order that there cannot be. The
// present order again does nothing, unless it was drawn.
func (db *DB) SetOrder(ctx context.Context, programme uuid.UUID, c OrderChange) error {
	_, err := db.changeFound(ctx, func(tx pgx.Tx) (uuid.UUID, *act, error) {
		o, err := lockOrder(ctx, tx, programme, c.Revision)
		if err != nil {
			return uuid.Nil, nil, err
		}
		if err := o.check(c.Pilots); err != nil {
			return uuid.Nil, nil, err
		}
		if c.Plan == nil && slices.Equal(o.pilots(), c.Pilots) {
			return uuid.Nil, nil, nil
		}
		return o.Contest.ID, newAct(actOrder, c.By, o.act(&c)), o.store(ctx, tx, &c)
	})
	if err != nil {
		return fmt.Errorf("changing a running order: %w", err)
	}
	return nil
}

// orderAct is what the journal says of a change.
type orderAct struct {
	Programme uuid.UUID   `json:"programme"`
	Revision  int64       `json:"revision"`
	Pilots    []uuid.UUID `json:"pilots"`
	Plan      *order.Plan `json:"plan,omitempty"`
}

func (o *Order) act(c *OrderChange) orderAct {
	return orderAct{o.Programme.ID, o.Revision + 1, c.Pilots, c.Plan}
}

// lockOrder reads the order that was seen and keeps it as it is meanwhile.
func lockOrder(ctx context.Context, tx pgx.Tx, programme uuid.UUID, seen int64) (*Order, error) {
	err := exec(ctx, tx, `
		SELECT
		FROM programme
		WHERE programme_id = @programme
		FOR NO KEY UPDATE`,
		pgx.StrictNamedArgs{"programme": programme})
	if err != nil {
		return nil, err
	}
	o, err := readOrder(ctx, tx, programme)
	if err != nil {
		return nil, err
	}
	if o.Revision != seen {
		return nil, &OrderChangedError{o.ChangedBy, o.Revision}
	}
	return o, nil
}

// An OrderChangedError says that a running order is not the one that was seen.
// It is an ErrConflict.
type OrderChangedError struct {
	By       string
	Revision int64
}

// Error says who changed it.
func (e *OrderChangedError) Error() string {
	return fmt.Sprintf("%s changed the running order meanwhile; this would be revision %d of it", cmp.Or(e.By, "somebody"), e.Revision+1)
}

// Unwrap makes it an ErrConflict.
func (e *OrderChangedError) Unwrap() error { return ErrConflict }

func (o *Order) pilots() []uuid.UUID {
	list := make([]uuid.UUID, len(o.Turns))
	for i := range o.Turns {
		list[i] = o.Turns[i].Pilot.ID
	}
	return list
}

// check complains of an order that there cannot be.
func (o *Order) check(pilots []uuid.UUID) error {
	var report document.Report
	seen := map[uuid.UUID]bool{}
	for i, id := range pilots {
		place := fmt.Sprintf("pilots[%d]", i)
		switch {
		case seen[id]:
			report.Add(place, "the pilot is in the order twice")
		case o.turnOf(id) == nil && !slices.ContainsFunc(o.Entered, func(p Pilot) bool { return p.ID == id }):
			report.Add(place, "no such pilot is entered in the category")
		}
		seen[id] = true
	}
	o.checkBegun(&report, pilots)
	return report.Err()
}

func (o *Order) turnOf(pilot uuid.UUID) *Turn {
	return o.turn(func(t *Turn) bool { return t.Pilot.ID == pilot })
}

// checkBegun holds the flights that were called to their places: in the same
// order, and nobody comes before one of them who did not before.
func (o *Order) checkBegun(report *document.Report, pilots []uuid.UUID) {
	begun := 0 // of those in the present order
	for i := range o.Turns {
		turn := &o.Turns[i]
		at := slices.Index(pilots, turn.Pilot.ID)
		switch {
		case turn.HasBegun() && at < 0:
			report.Add("pilots", "flight %d was called: it cannot be left out", turn.Number)
		case at >= 0 && o.begunBefore(pilots[:at]) < begun:
			report.Add(fmt.Sprintf("pilots[%d]", at), "flight %d cannot come before one that was called", turn.Number)
		case turn.HasBegun() && o.begunBefore(pilots[:at]) > begun:
			report.Add(fmt.Sprintf("pilots[%d]", at), "flight %d was called: its place is fixed", turn.Number)
		}
		if turn.HasBegun() {
			begun++
		}
	}
	for i, id := range pilots {
		if o.turnOf(id) == nil && o.begunBefore(pilots[:i]) < begun {
			report.Add(fmt.Sprintf("pilots[%d]", i), "whoever comes late cannot come before a flight that was called")
		}
	}
}

// begunBefore counts those of some pilots whose flights were called.
func (o *Order) begunBefore(pilots []uuid.UUID) (n int) {
	for _, id := range pilots {
		if turn := o.turnOf(id); turn != nil && turn.HasBegun() {
			n++
		}
	}
	return n
}
