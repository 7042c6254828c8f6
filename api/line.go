package api

import (
	"context"
	"log/slog"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

// GetLinePlan tells a device all that it needs to work without a network.
func (s *server) GetLinePlan(ctx context.Context, request GetLinePlanRequestObject) (GetLinePlanResponseObject, error) {
	w := whoOf(ctx)
	if w.session == nil || w.session.Device == uuid.Nil {
		return nil, fail(kindRefused, "a device must be paired")
	}
	contest, device := w.hats[0].contest, w.session.Device
	plan, err := s.db.Plan(ctx, contest, device, request.Params.Store)
	if err != nil {
		return nil, err
	}
	s.noteContact(ctx, contest, db.Contact{Device: device, Store: request.Params.Store, Unsent: request.Params.Unsent})
	return GetLinePlan200JSONResponse(linePlanOf(plan)), nil
}

// noteContact notes that a device was heard of. Where that fails, what the
// device asked for is answered all the same.
func (s *server) noteContact(ctx context.Context, contest uuid.UUID, c db.Contact) {
	if err := s.db.NoteContact(ctx, contest, c); err != nil {
		slog.WarnContext(ctx, "a device's contact was not noted", "error", err)
	}
}

func linePlanOf(p *db.Plan) LinePlan {
	plan := LinePlan{
		Head: headOf(p.Head), Have: p.Have, Contest: named(p.Contest.ID, p.Contest.Name),
		Device: deviceOf(&p.Device), SameSeat: p.SameSeat, Devices: devicesOf(p.Devices),
		Penalties: make([]LinePenalty, len(p.Penalties)), Programmes: make([]LineProgramme, len(p.Programmes)),
		Records: p.Records,
	}
	for i, kind := range p.Penalties {
		plan.Penalties[i] = LinePenalty{Kind: kind.Kind, Points: kind.Points, Repeats: kind.Repeats, Disqualifies: kind.Disqualifies}
	}
	for i := range p.Programmes {
		plan.Programmes[i] = lineProgrammeOf(&p.Programmes[i])
	}
	if plan.Records == nil {
		plan.Records = []line.Stored{}
	}
	return plan
}

func lineProgrammeOf(p *db.PlannedProgramme) LineProgramme {
	programme := LineProgramme{
		ID: p.ID, Name: p.Name, Kind: ProgrammeKind(p.Kind), Category: named(p.Category.ID, p.Category.Name),
		Panel: panelOf(p.Panel), Flights: make([]LineFlight, len(p.Flights)),
	}
	for i, f := range p.Flights {
		flight := LineFlight{ID: f.ID, Number: f.Number, Status: f.Status, Counting: f.Counting, Wind: f.Wind}
		if q := f.Sequence; q != nil {
			flight.Sequence = &LineSequence{ID: q.ID, Revision: q.Revision, Digest: q.Digest, Items: q.Items}
		}
		programme.Flights[i] = flight
	}
	return programme
}

// GetLineItems tells what is graded in a flight, as far as the line may see it.
func (s *server) GetLineItems(ctx context.Context, request GetLineItemsRequestObject) (GetLineItemsResponseObject, error) {
	sheets, err := s.db.Sheets(ctx, request.FlightID)
	if err != nil {
		return nil, err
	}
	return GetLineItems200JSONResponse{Items: itemsOf(released(sheets.Sequence, reachOf(ctx)))}, nil
}
