package api

import (
	"context"
	"slices"

	"github.com/google/uuid"

	"halfpoint/db"
)

// ListAnalyses lists the programmes of whose panel, or of the own seat, the
// analysis may be seen.
func (s *server) ListAnalyses(ctx context.Context, request ListAnalysesRequestObject) (ListAnalysesResponseObject, error) {
	c, err := s.contests.get(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	far := reachOf(ctx)
	if err := mayRead(far, Opened(c.Opened)); err != nil {
		return nil, err
	}
	states, err := s.db.AnalysisStates(ctx, c.ID)
	if err != nil {
		return nil, err
	}
	seats, err := s.ownSeats(ctx, c.ID)
	if err != nil {
		return nil, err
	}
	all := far == everywhere || isChief(ctx, c.ID)
	return ListAnalyses200JSONResponse{
		Head: headOf(c.Head), Contest: named(c.ID, c.Name), Programmes: offersOf(c, states, seats, all),
	}, nil
}

// offersOf are what may be seen of the programmes of a contest, with all of every
// panel's; those of which nothing may be are left out.
func offersOf(c *db.Contest, states map[uuid.UUID]db.AnalysisState, seats map[uuid.UUID]*uuid.UUID, all bool) []AnalysisOffer {
	list := []AnalysisOffer{}
	for _, category := range c.Categories {
		for _, p := range category.Programmes {
			offer := offerOf(states[p.ID], seats[p.ID])
			offer.Panel = offer.Panel || all
			offer.Category, offer.Programme = named(category.ID, category.Name), named(p.ID, p.Name)
			if offer.Panel || offer.Own != nil || offer.Waits != nil {
				list = append(list, offer)
			}
		}
	}
	return list
}

// offerOf is what whoever sits as a judge, nil for nobody, may see of a
// programme.
func offerOf(state db.AnalysisState, own *uuid.UUID) AnalysisOffer {
	offer := AnalysisOffer{Panel: state.OpenedAt != nil, Published: state.OpenedAt}
	switch waits := true; {
	case own == nil:
	case state.Published:
		offer.Own = own
	default:
		offer.Waits = &waits
	}
	return offer
}

// isChief tells whether the chief judge's device of a contest asks.
func isChief(ctx context.Context, contest uuid.UUID) bool {
	hats, _ := whoOf(ctx).in(contest)
	return slices.ContainsFunc(hats, func(h hat) bool { return h.role == chief })
}

// ownSeats are the programmes on whose panel whoever asks sits, and as which
// judge: by an account, or by the device of the seat.
func (s *server) ownSeats(ctx context.Context, contest uuid.UUID) (map[uuid.UUID]*uuid.UUID, error) {
	own := map[uuid.UUID]*uuid.UUID{}
	hats, _ := whoOf(ctx).in(contest)
	for _, h := range hats {
		if h.role != judge && h.role != seated {
			continue
		}
		programmes, err := s.db.PanelsOf(ctx, contest, h.judge)
		if err != nil {
			return nil, err
		}
		for _, p := range programmes {
			own[p] = &h.judge
		}
	}
	return own, nil
}

// GetPanelAnalysis tells how a panel agrees with itself.
func (s *server) GetPanelAnalysis(ctx context.Context, request GetPanelAnalysisRequestObject) (GetPanelAnalysisResponseObject, error) {
	a, err := s.analyses.get(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	far := reachOf(ctx)
	if err := mayRead(far, Opened(a.part.Contest.Opened)); err != nil {
		return nil, err
	}
	if far < inside && a.state.OpenedAt == nil {
		return nil, db.ErrNotFound
	}
	shown := a.panel(far != inside || a.state.OpenedAt != nil)
	if far == everywhere {
		shown.ResultsPublished = &a.state.Published
	}
	return GetPanelAnalysis200JSONResponse(shown), nil
}

// GetJudgeAnalysis tells how one judge compares with the panel. The judge is
// told when results of the programme are published.
func (s *server) GetJudgeAnalysis(ctx context.Context, request GetJudgeAnalysisRequestObject) (GetJudgeAnalysisResponseObject, error) {
	a, err := s.analyses.get(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	seat := a.seatOf(request.Judge)
	if seat < 0 || reachOf(ctx) < everywhere && !a.state.Published {
		return nil, db.ErrNotFound
	}
	return GetJudgeAnalysis200JSONResponse(a.own(seat)), nil
}

// PublishAnalysis shows the analysis to everyone who sees the contest.
func (s *server) PublishAnalysis(ctx context.Context, request PublishAnalysisRequestObject) (PublishAnalysisResponseObject, error) {
	return PublishAnalysis204Response{}, s.db.OpenAnalysis(ctx, request.ProgrammeID, whoOf(ctx).name())
}

// seatOf is the place of a judge on the panel, below 0 for nobody.
func (a *analysis) seatOf(judge uuid.UUID) int {
	return slices.IndexFunc(a.programme.Panel, func(code string) bool { return a.part.Judges[code] == judge })
}
