package demo

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// A Line is the demo's judging line: the tablet of each seat and the chief
// judge's, which go on with the contest where it stands.
type Line struct {
	DB      *db.DB
	Contest uuid.UUID
	// Figure is how long a figure takes; 0 is no time at all.
	Figure time.Duration

	chief *tablet
	seats map[uuid.UUID]*tablet // by judge
	flown map[turn]bool

	looked time.Time // for sheets that were opened again
}

// A turn is an attempt of a flight.
type turn struct {
	flight  uuid.UUID
	attempt int
}

// Run flies and grades, one after the other, every flight that has not been
// flown, and closes it. Whoever pairs a tablet for a seat grades in place of the
// simulated judge, and a chief judge's tablet calls the flights in place of the
// simulated one. It ends with nil when there is none left, and with the context's
// error when it is told to stop.
func (l *Line) Run(ctx context.Context) error {
	part, err := l.DB.ContestBundle(ctx, l.Contest)
	if err != nil {
		return err
	}
	if err := l.pair(ctx, part.Judges); err != nil {
		return err
	}
	starts := remaining(part)
	for {
		next, err := l.next(ctx, starts)
		if err == nil && next != nil {
			err = l.fly(ctx, next)
		}
		if err != nil {
			return fmt.Errorf("flying the demo: %w", err)
		}
		if next == nil {
			return nil
		}
	}
}

func (l *Line) pair(ctx context.Context, judges map[string]uuid.UUID) error {
	devices, err := l.DB.Devices(ctx, l.Contest)
	if err != nil {
		return err
	}
	if l.chief, err = l.pairTablet(ctx, devices, line.RoleChief, uuid.Nil); err != nil {
		return err
	}
	l.flown = map[turn]bool{}
	l.seats = make(map[uuid.UUID]*tablet, len(judges))
	for _, judge := range judges {
		if l.seats[judge], err = l.pairTablet(ctx, devices, line.RoleJudge, judge); err != nil {
			return err
		}
	}
	return nil
}

// A start is a flight that is to be flown.
type start struct {
	id        uuid.UUID
	attempt   int
	level     *level
	programme *scoring.Programme
	flight    *scoring.Flight
}

// remaining lists what is to be flown: programmes that have begun first.
func remaining(part *db.Part) []start {
	var begun, untouched []start
	for c := range part.Bundle.Categories {
		category := &part.Bundle.Categories[c]
		level := levelOf(category.ID)
		if level == nil {
			continue
		}
		for p := range category.Programmes {
			programme := &category.Programmes[p]
			starts := scheduled(level, programme, part.Categories[c].Programmes[p].Flights)
			if len(starts) < len(programme.Flights) {
				begun = append(begun, starts...)
			} else {
				untouched = append(untouched, starts...)
			}
		}
	}
	return append(begun, untouched...)
}

func levelOf(id string) *level {
	i := slices.IndexFunc(levels, func(l level) bool { return l.id == id })
	if i < 0 {
		return nil
	}
	return &levels[i]
}

func scheduled(l *level, p *scoring.Programme, flights []db.FlightPart) (starts []start) {
	for i := range p.Flights {
		if p.Flights[i].Status == scoring.Scheduled {
			starts = append(starts, start{flights[i].ID, 1, l, p, &p.Flights[i]})
		}
	}
	return starts
}

// fly is one flight from the call to its closing.
func (l *Line) fly(ctx context.Context, next *start) error {
	f, err := l.prepare(ctx, next)
	if err != nil {
		return err
	}
	return f.run(ctx)
}

// prepare gets a flight ready to be flown. The office releases an unknown sequence
// before.
func (l *Line) prepare(ctx context.Context, next *start) (*flying, error) {
	sheets, err := l.DB.Sheets(ctx, next.id)
	if err != nil {
		return nil, err
	}
	if sheets.Sequence == nil {
		return nil, errors.New("a flight of the demo has no sequence")
	}
	if sheets.Sequence.Released == nil {
		seen := db.Seen{Digest: sheets.Sequence.Digest}
		if err := l.DB.ReleaseSequence(ctx, l.Contest, sheets.Programme.ID, seen, officeName); err != nil {
			return nil, err
		}
	}
	graded := *next.flight
	grade(next.level, next.programme, &graded)
	f := &flying{
		line: l, id: next.id.String(), attempt: next.attempt, digest: sheets.Sequence.Digest,
		graded: &graded, cells: make([][]string, len(sheets.Panel)),
	}
	for _, seat := range sheets.Panel {
		f.panel = append(f.panel, l.seats[seat.Judge])
	}
	return f, nil
}
