package api

import (
	"cmp"
	"context"
	"crypto/rand"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
	"halfpoint/scoring/order"
)

// GetOrder tells the running order of a programme.
func (s *server) GetOrder(ctx context.Context, request GetOrderRequestObject) (GetOrderResponseObject, error) {
	o, err := s.db.Order(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	if err := mayRead(reachOf(ctx), Opened(o.Contest.Opened)); err != nil {
		return nil, err
	}
	return GetOrder200JSONResponse(orderOf(o, time.Now())), nil
}

// PutOrder changes a running order by hand.
func (s *server) PutOrder(ctx context.Context, request PutOrderRequestObject) (PutOrderResponseObject, error) {
	change := db.OrderChange{Revision: request.Body.Revision, Pilots: request.Body.Pilots, By: whoOf(ctx).name()}
	if err := s.db.SetOrder(ctx, request.ProgrammeID, change); err != nil {
		return nil, err
	}
	o, err := s.db.Order(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	return PutOrder200JSONResponse(orderOf(o, time.Now())), nil
}

// DrawOrder draws the running order of all flights that were not called.
func (s *server) DrawOrder(ctx context.Context, request DrawOrderRequestObject) (DrawOrderResponseObject, error) {
	o, err := s.db.Order(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	plan := planToDraw(request.Body)
	if err := plan.Check(); err != nil {
		return nil, err
	}
	pilots, err := s.draw(ctx, o, &plan)
	if err != nil {
		return nil, err
	}
	change := db.OrderChange{Revision: request.Body.Revision, Pilots: o.With(pilots), Plan: &plan, By: whoOf(ctx).name()}
	if err := s.db.SetOrder(ctx, request.ProgrammeID, change); err != nil {
		return nil, err
	}
	if o, err = s.db.Order(ctx, request.ProgrammeID); err != nil {
		return nil, err
	}
	return DrawOrder200JSONResponse(orderOf(o, time.Now())), nil
}

// planToDraw is the plan that is asked for; where its lot has no seed it gets
// one that nobody knew before.
func planToDraw(d *OrderDraw) order.Plan {
	plan := order.Plan{By: string(d.By), Best: or(d.Best), Reversed: or(d.Reversed), Block: or(d.Block), Seed: or(d.Seed)}
	if d.Of != nil {
		plan.Of = d.Of.String()
	}
	if plan.HasLot() && plan.Seed == "" {
		plan.Seed = strings.ToLower(rand.Text()[:12])
	}
	return plan
}

// draw puts all who were not called in the order of a plan, those that will not
// fly last.
func (s *server) draw(ctx context.Context, o *db.Order, plan *order.Plan) ([]uuid.UUID, error) {
	fly, out := o.Movable()
	if plan.By == order.ByStanding {
		ranks, err := s.ranksFor(ctx, o, plan)
		if err != nil {
			return nil, err
		}
		fly = ranks.sorted(fly, plan.Best)
	}
	codes, ids := make([]string, len(fly)), make(map[string]uuid.UUID, len(fly))
	for i, pilot := range fly {
		codes[i], ids[pilot.Code] = pilot.Code, pilot.ID
	}
	var drawn []uuid.UUID
	for _, code := range plan.Draw(codes) {
		drawn = append(drawn, ids[code])
	}
	for _, pilot := range out {
		drawn = append(drawn, pilot.ID)
	}
	return drawn, nil
}

// ranks are those of pilots in a standing, by their ids in bundles. Whoever is
// not in it has none.
type ranks map[string]int

// ranksFor reads the standing that a plan names.
func (s *server) ranksFor(ctx context.Context, o *db.Order, plan *order.Plan) (ranks, error) {
	if plan.Of == "" {
		return s.ranksOfCategory(ctx, o.Category.ID)
	}
	p, err := s.programmes.get(ctx, uuid.MustParse(plan.Of))
	if err != nil || p.categoryName().ID != o.Category.ID {
		var report document.Report
		report.Add("of", "it is no programme of this category")
		return nil, report.Err()
	}
	r := ranks{}
	for i := range p.result.Flights {
		if f := &p.result.Flights[i]; f.Placing != nil && f.Rank != nil {
			r[f.Pilot] = *f.Rank
		}
	}
	return r, nil
}

func (s *server) ranksOfCategory(ctx context.Context, category uuid.UUID) (ranks, error) {
	c, err := s.categories.get(ctx, category)
	if err != nil {
		return nil, err
	}
	r := ranks{}
	for i := range c.result.Overall {
		if one := &c.result.Overall[i]; one.Rank != nil {
			r[one.Pilot] = *one.Rank
		}
	}
	return r, nil
}

// sorted are pilots by rank, best first, those without one last; only so many
// ranks where best is not 0. Who shares a rank stays in the order given.
func (r ranks) sorted(pilots []db.Pilot, best int) []db.Pilot {
	last := len(r) + 1
	rank := func(p db.Pilot) int {
		if n, ok := r[p.Code]; ok {
			return n
		}
		return last
	}
	fly := slices.Clone(pilots)
	if best > 0 {
		fly = slices.DeleteFunc(fly, func(p db.Pilot) bool { return rank(p) > min(best, len(r)) })
	}
	slices.SortStableFunc(fly, func(a, b db.Pilot) int { return cmp.Compare(rank(a), rank(b)) })
	return fly
}

// orderOf is an order with the times that its flights can be expected at.
func orderOf(o *db.Order, now time.Time) RunningOrder {
	answer := RunningOrder{
		Head: headOf(o.Head), Contest: named(o.Contest.ID, o.Contest.Name), Category: named(o.Category.ID, o.Category.Name),
		Programme: programmeOf(&o.Programme), Revision: o.Revision, Draws: o.Draws, Moves: o.Moves, Changed: o.Changed,
		Plan: planOf(o.Plan), Turns: each(o.Turns, turnOf), Entered: each(o.Entered, pilotOf),
	}
	begun, waiting := timing(o)
	expected := order.Expected(begun, now, len(waiting))
	for i := range expected {
		answer.Turns[waiting[i]].Expected = &expected[i]
	}
	if len(begun) >= order.LeastBegun {
		pace := int(order.Pace(begun).Seconds())
		answer.Pace = &pace
	}
	return answer
}

// timing says when flights have begun, and at which places some wait.
func timing(o *db.Order) (begun []time.Time, waiting []int) {
	for i := range o.Turns {
		switch turn := &o.Turns[i]; {
		case turn.HasBegun() && turn.Begun != nil:
			begun = append(begun, *turn.Begun)
		case !turn.HasBegun() && !turn.IsOut():
			waiting = append(waiting, i)
		}
	}
	return begun, waiting
}

func planOf(plan *order.Plan) *OrderPlan {
	if plan == nil {
		return nil
	}
	p := &OrderPlan{By: OrderBy(plan.By), Best: given(plan.Best), Reversed: given(plan.Reversed), Block: given(plan.Block), Seed: given(plan.Seed)}
	if of, err := uuid.Parse(plan.Of); err == nil {
		p.Of = &of
	}
	return p
}

func turnOf(t *db.Turn) Turn {
	return Turn{
		Flight: t.ID, Number: t.Number, Code: t.Pilot.Code, Pilot: pilotOf(&t.Pilot),
		State: turnStateOf(t.Status), Fixed: t.HasBegun(), Begun: t.Begun,
	}
}

// turnStateOf is a flight's status in the words of a running order.
func turnStateOf(status string) TurnState {
	switch status {
	case "":
		return TurnStateWaiting
	case line.StatusLanded, line.StatusClosed:
		return TurnStateFlown
	}
	return TurnState(status)
}

func pilotOf(p *db.Pilot) Pilot {
	return Pilot{ID: p.ID, Name: p.Name, Affiliation: p.Affiliation, Aircraft: p.Aircraft}
}
