package api

import (
	"context"
	"slices"

	"halfpoint/db"
)

// ListProtests lists the protests against a programme's results.
func (s *server) ListProtests(ctx context.Context, request ListProtestsRequestObject) (ListProtestsResponseObject, error) {
	own, all, err := s.ownPilots(ctx, "programme", request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	list, err := s.db.Protests(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	protests := []Protest{}
	for i := range list.Protests {
		if p := &list.Protests[i]; all || slices.Contains(own, p.Pilot.ID) {
			protests = append(protests, protestOf(p))
		}
	}
	return ListProtests200JSONResponse{protests}, nil
}

func protestOf(p *db.Protest) Protest {
	to := Protest{
		ID: p.ID, Programme: p.Programme, Publication: p.Publication, Pilot: named(p.Pilot.ID, p.Pilot.Name),
		Text: p.Text, FiledAt: p.FiledAt,
	}
	if d := p.Decision; d != nil {
		to.Decision = &ProtestDecision{Upheld: d.Upheld, Text: d.Text, Reopened: d.Reopened, DecidedAt: d.DecidedAt}
	}
	return to
}

// FileProtest files a pilot's protest. Another pilot than the own is not there.
func (s *server) FileProtest(ctx context.Context, request FileProtestRequestObject) (FileProtestResponseObject, error) {
	if err := s.asPilot(ctx, "programme", request.ProgrammeID, request.Body.Pilot); err != nil {
		return nil, err
	}
	protest := db.NewProtest{Pilot: request.Body.Pilot, Text: request.Body.Text, By: whoOf(ctx).name()}
	id, _, err := s.db.File(ctx, request.ProgrammeID, protest)
	if err != nil {
		return nil, err
	}
	return FileProtest200JSONResponse{id}, nil
}

// DecideProtest decides a protest.
func (s *server) DecideProtest(ctx context.Context, request DecideProtestRequestObject) (DecideProtestResponseObject, error) {
	b := request.Body
	p, err := s.db.Decide(ctx, request.ProtestID, db.NewDecision{Upheld: b.Upheld, Text: b.Text, Reopen: b.Reopen, By: whoOf(ctx).name()})
	if err != nil {
		return nil, err
	}
	return DecideProtest200JSONResponse(protestOf(p)), nil
}

// SetCounting decides whether a programme counts.
func (s *server) SetCounting(ctx context.Context, request SetCountingRequestObject) (SetCountingResponseObject, error) {
	b := request.Body
	err := s.db.SetCounting(ctx, request.ProgrammeID, db.Counting{Counts: b.Counts, Abandoned: b.Abandoned, Reason: b.Reason, By: whoOf(ctx).name()})
	if err != nil {
		return nil, err
	}
	return SetCounting200JSONResponse(*b), nil
}
