package demo

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

// lookEvery is how often the line looks at what others do.
const lookEvery = 500 * time.Millisecond

// next is the flight whose turn it is, nil where there is none left: the next in
// order, or where somebody is chief judge the one that they have called on.
func (l *Line) next(ctx context.Context, starts []start) (*start, error) {
	for {
		plan, err := l.plan(ctx)
		if err != nil {
			return nil, err
		}
		turns := l.open(plan, starts)
		if len(turns) == 0 {
			return nil, nil //nolint:nilnil // no flight is left, and that is no error
		}
		if i := slices.IndexFunc(turns, func(s start) bool { return l.mayFly(plan, &s) }); i >= 0 {
			l.flown[turn{turns[i].id, turns[i].attempt}] = true
			return &turns[i], nil
		}
		if err := wait(ctx, lookEvery); err != nil {
			return nil, err
		}
	}
}

func (l *Line) plan(ctx context.Context) (*db.Plan, error) {
	if err := l.stayAlive(ctx); err != nil {
		return nil, err
	}
	return l.DB.Plan(ctx, l.Contest, l.chief.device, l.chief.store)
}

// open are the flights that are not over, with the attempt that is to be flown.
func (l *Line) open(plan *db.Plan, starts []start) (list []start) {
	for _, s := range starts {
		if f := plannedFlight(plan, s.id); f != nil && !line.IsOver(f.Status) {
			s.attempt = max(f.Counting, 1)
			list = append(list, s)
		}
	}
	return list
}

// mayFly tells whether a flight can be flown now and was not.
func (l *Line) mayFly(plan *db.Plan, s *start) bool {
	if l.flown[turn{s.id, s.attempt}] {
		return false
	}
	status := plannedFlight(plan, s.id).Status
	return !l.taken(plan, l.chief) || status == line.StatusCalled || status == line.StatusFlying
}

func plannedFlight(plan *db.Plan, id uuid.UUID) *db.PlannedFlight {
	for i := range plan.Programmes {
		flights := plan.Programmes[i].Flights
		if at := slices.IndexFunc(flights, func(f db.PlannedFlight) bool { return f.ID == id }); at >= 0 {
			return &flights[at]
		}
	}
	return nil
}

// wait lets some time pass.
func wait(ctx context.Context, some time.Duration) error {
	if some <= 0 {
		return ctx.Err()
	}
	timer := time.NewTimer(some)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-timer.C:
		return nil
	}
}

// NextJudge is who sits first on the panel of what is flown next, or of the
// first programme where nothing is left.
func NextJudge(part *db.Part) uuid.UUID {
	panel := part.Bundle.Categories[0].Programmes[0].Panel
	if left := remaining(part); len(left) > 0 {
		panel = left[0].programme.Panel
	}
	return part.Judges[panel[0]]
}
