package api

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
	figurekind "halfpoint/scoring/kind" // a kind here is one of problems
	"halfpoint/scoring/publication"
)

// GetPilot tells all that a contest has of a pilot.
func (s *server) GetPilot(ctx context.Context, request GetPilotRequestObject) (GetPilotResponseObject, error) {
	in, err := s.db.PilotIn(ctx, request.ContestID, request.PilotID)
	if err != nil {
		return nil, err
	}
	if err := mayRead(reachOf(ctx), Opened(in.Contest.Opened)); err != nil {
		return nil, err
	}
	page := &pilotPage{
		server: s, in: in, far: reachOf(ctx), own: isOwnPilot(ctx, in),
		answer: PilotPage{
			Head: headOf(in.Head), Contest: named(in.Contest.ID, in.Contest.Name), Opened: Opened(in.Contest.Opened),
			Pilot: pilotOf(&in.Pilot), Code: in.Pilot.Code,
			Programmes: []PilotProgramme{}, Categories: []PilotCategory{}, Kinds: []KindSum{},
		},
	}
	page.answer.Own = page.own
	if err := page.make(ctx); err != nil {
		return nil, err
	}
	return GetPilot200JSONResponse(page.answer), nil
}

func isOwnPilot(ctx context.Context, in *db.PilotIn) bool {
	hats, _ := whoOf(ctx).in(in.Contest.ID)
	return slices.ContainsFunc(hats, func(h hat) bool { return h.pilot == in.Pilot.ID })
}

// pilotPage is put together of what there is of a pilot.
type pilotPage struct {
	server *server
	in     *db.PilotIn
	far    reach
	own    bool
	kinds  []figurekind.Programme
	answer PilotPage
}

func (p *pilotPage) make(ctx context.Context) error {
	for _, order := range p.in.Orders {
		if err := p.programme(ctx, order); err != nil {
			return err
		}
		if err := p.category(ctx, order.Category); err != nil {
			return err
		}
	}
	for _, sum := range figurekind.Sums(p.kinds) {
		one := KindSum{
			Kind: KindSumKind(sum.Kind), Items: sum.Items, K: sum.K, Points: sum.Points, Lost: sum.Lost, Compared: sum.Compared,
		}
		if sum.Compared > 0 {
			one.Gain = &sum.Gain
		}
		p.answer.Kinds = append(p.answer.Kinds, one)
	}
	return nil
}

// programme tells of one programme. Its results are those published, and else
// the live ones, where these may be seen.
func (p *pilotPage) programme(ctx context.Context, order *db.Order) error {
	one := PilotProgramme{Category: named(order.Category.ID, order.Category.Name), Programme: programmeOf(&order.Programme)}
	turns := orderOf(order, time.Now()).Turns
	one.Turn = pilotTurn(turns, p.in.Pilot.ID)
	if one.Turn != nil && p.seesSequence(order) {
		state, err := p.server.sequenceState(ctx, one.Turn.Turn.Flight)
		if err != nil {
			return err
		}
		one.Sequence = state
	}
	last := p.last(order.Category.ID, &order.Programme.ID)
	if last != nil {
		read, err := p.server.published.get(ctx, last.ID)
		if err != nil {
			return err
		}
		one.Published = p.published(last, read.Parsed)
		p.kinds = append(p.kinds, comparedOf(read.scored, p.in.Pilot.Code))
	}
	if p.seesLive() {
		if err := p.live(ctx, order.Programme.ID, &one); err != nil {
			return err
		}
	}
	p.answer.Programmes = append(p.answer.Programmes, one)
	return nil
}

// seesSequence tells whether what became of a sequence of the pilot's own is
// told.
func (p *pilotPage) seesSequence(order *db.Order) bool {
	ownOne := order.Programme.Kind == scoring.Free || order.Programme.Kind == scoring.Freestyle
	return ownOne && (p.own || p.far == everywhere)
}

func (p *pilotPage) seesLive() bool {
	return p.far == everywhere || p.in.Contest.Opened == db.Live
}

// pilotTurn is a pilot's place among turns; nil where there is no flight.
func pilotTurn(turns []Turn, pilot uuid.UUID) *PilotTurn {
	before := 0
	for i := range turns {
		if turns[i].Pilot.ID == pilot {
			return &PilotTurn{Turn: turns[i], Place: i + 1, Of: len(turns), Before: before}
		}
		if turns[i].State == TurnStateWaiting {
			before++
		}
	}
	return nil
}

// last is the last publication of a programme, or of a category's own standing;
// nil where there is none.
func (p *pilotPage) last(category uuid.UUID, programme *uuid.UUID) *db.PublicationInfo {
	of := db.PublicationInfo{Category: db.Named{ID: category}}
	if programme != nil {
		of.Programme = &db.Named{ID: *programme}
	}
	for i := len(p.in.Publications) - 1; i >= 0; i-- {
		if one := &p.in.Publications[i]; one.SameScope(&of) {
			return one
		}
	}
	return nil
}

// published is the pilot's place in a publication; nil where it has none.
func (p *pilotPage) published(info *db.PublicationInfo, parsed *publication.Parsed) *PilotPublished {
	places := standingOf(info.Kind(), parsed)
	at := slices.IndexFunc(places, func(one PublishedPlace) bool { return one.Pilot == p.in.Pilot.Code })
	if at < 0 {
		return nil
	}
	found := &PilotPublished{About: publicationSummary(info), Place: places[at]}
	for i := range places {
		if places[i].Rank != nil {
			found.Ranks++
		}
	}
	return found
}

// live adds what is live of a programme.
func (p *pilotPage) live(ctx context.Context, programme uuid.UUID, to *PilotProgramme) error {
	s, err := p.server.programmesFor(ctx).get(ctx, programme)
	if err != nil {
		return err
	}
	at := slices.IndexFunc(s.result.Flights, func(f scoring.FlightResult) bool { return f.Pilot == p.in.Pilot.Code })
	if at < 0 {
		return nil
	}
	to.Now = &PilotNow{Flight: s.flight(at, s.shows(p.far)), Ranks: s.ranks}
	if to.Published == nil && s.shows(p.far) {
		p.kinds = append(p.kinds, comparedOf(s, p.in.Pilot.Code))
	}
	return nil
}

// comparedOf are the flights of a programme that were judged, the pilot's among
// them where it was.
func comparedOf(s *scoredProgramme, pilot string) figurekind.Programme {
	p := figurekind.Programme{Own: s.programme.OwnSequences(), Pilot: -1}
	for i, values := range s.values {
		if values == nil {
			continue
		}
		if s.result.Flights[i].Pilot == pilot {
			p.Pilot = len(p.Flights)
		}
		p.Flights = append(p.Flights, figurekind.Flight{Items: s.table.Flights[i].Items, Values: values})
	}
	return p
}

// category tells of the standing over a category's programmes, once.
func (p *pilotPage) category(ctx context.Context, category db.Named) error {
	told := slices.ContainsFunc(p.answer.Categories, func(one PilotCategory) bool { return one.Category.ID == category.ID })
	if told {
		return nil
	}
	one := PilotCategory{Category: named(category.ID, category.Name)}
	if last := p.last(category.ID, nil); last != nil {
		read, err := p.server.published.get(ctx, last.ID)
		if err != nil {
			return err
		}
		one.Published = p.published(last, read.Parsed)
	}
	p.answer.Categories = append(p.answer.Categories, one)
	return nil
}

// sequenceState is what became of a flight's own sequence.
func (s *server) sequenceState(ctx context.Context, flight uuid.UUID) (*SequenceState, error) {
	r, err := s.db.Sequence(ctx, db.SequencePlace{Flight: flight})
	if err != nil {
		return nil, err
	}
	held, err := s.rulesOf(ctx, &r.Rules)
	if err != nil {
		return nil, err
	}
	state, err := countedState(&r.Sequences[0], held)
	return &state, err
}
