package db

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"time"

	"github.com/google/uuid"

	"halfpoint/scoring"
)

// plan turns the whole bundle into rows.
func (i *importer) plan() error {
	c := i.bundle.Contest
	starts, startsErr := dateOrNull(c.Starts)
	ends, endsErr := dateOrNull(c.Ends)
	if startsErr != nil || endsErr != nil {
		return fmt.Errorf("%w: the contest's days %q and %q", ErrInvalid, c.Starts, c.Ends)
	}
	i.contests.add(i.contest, c.Name, c.Place, starts, ends, i.options.Opened)
	i.heads.add(i.contest, 0, 0, make([]byte, sha256.Size))
	for n, j := range i.bundle.Judges {
		i.judges[j.ID] = newID()
		i.officials.add(i.contest, i.judges[j.ID], j.ID, n+1, judgeDuty, j.Name, j.Affiliation)
	}
	for n, p := range i.bundle.Pilots {
		i.pilots[p.ID] = newID()
		i.flyers.add(i.contest, i.pilots[p.ID], p.ID, n+1, p.Name, p.Affiliation, p.Aircraft, p.Note)
	}
	for n := range i.bundle.Categories {
		if err := i.category(n+1, &i.bundle.Categories[n]); err != nil {
			return err
		}
	}
	return nil
}

func dateOrNull(text string) (any, error) {
	if text == "" {
		return nil, nil
	}
	return time.Parse(time.DateOnly, text)
}

func (i *importer) category(position int, c *scoring.Category) error {
	id := newID()
	var weights json.RawMessage
	if c.Combine.Weights != nil {
		var err error
		if weights, err = json.Marshal(c.Combine.Weights); err != nil {
			return fmt.Errorf("the weights of category %s: %w", c.ID, err)
		}
	}
	tieBreak := append([]string{}, c.Combine.TieBreak...)
	i.categories.add(i.contest, id, c.ID, position, c.Name, c.Combine.By, weights, tieBreak, c.Combine.TeamBest)
	for n, e := range c.Entries {
		i.entries.add(i.contest, id, i.pilots[e.Pilot], n+1, e.Ranked, e.Team)
	}
	for n := range c.Programmes {
		if err := i.programme(id, n+1, &c.Programmes[n]); err != nil {
			return err
		}
	}
	return nil
}

// programmeIDs are what the rows of a programme refer to.
type programmeIDs struct {
	category, programme uuid.UUID
	own                 bool // each flight has its own sequence
	released            any  // when its sequences were
}

func (i *importer) programme(category uuid.UUID, position int, p *scoring.Programme) error {
	ids := programmeIDs{category: category, programme: newID(), own: p.OwnSequences(), released: i.released(p)}
	m := &p.Method
	i.programmes.add(i.contest, ids.programme, category, p.ID, position, p.Name, p.Kind, p.Cut, p.Counts,
		m.Name, m.Trim, m.Discard, m.Style, m.SeatWeights, m.Outlier, m.Lean, m.GroupMin, m.HardZeroMajority, m.PerceptionZero)
	for n, judge := range p.Panel {
		i.seats.add(i.contest, ids.programme, n+1, i.judges[judge])
	}
	common := ""
	if p.Sequence != nil && !ids.own {
		common = i.sequence(&ids, nil, p.Sequence)
	}
	for n := range p.Flights {
		if err := i.flight(&ids, common, n+1, p, &p.Flights[n]); err != nil {
			return err
		}
	}
	return nil
}

// released tells since when the sequences of a programme may be seen: those of
// an unknown that nobody has flown stay with the office.
func (i *importer) released(p *scoring.Programme) any {
	if p.Kind != scoring.Unknown {
		return i.now
	}
	for f := range p.Flights {
		if len(p.Flights[f].Sheets) > 0 {
			return i.now
		}
	}
	return nil
}

// sequence adds a programme's or a pilot's sequence and returns its digest.
func (i *importer) sequence(ids *programmeIDs, pilot any, s *scoring.Sequence) string {
	id, digest := newID(), sequenceDigest(s)
	i.sequences.add(i.contest, id, ids.programme, ids.category, ids.own, pilot, digest, s.Entry, ids.released)
	i.items.addItems(i.contest, id, s)
	return digest
}

func (i *importer) flight(ids *programmeIDs, digest string, number int, p *scoring.Programme, f *scoring.Flight) error {
	id, pilot := newID(), i.pilots[f.Pilot]
	i.flights.add(i.contest, id, ids.programme, ids.category, ids.own, pilot, number, number, f.Description)
	if f.Sequence != nil && ids.own {
		digest = i.sequence(ids, pilot, f.Sequence)
	}
	l := importedFlight{importer: i, id: id.String(), digest: digest, flight: f}
	return l.record(len(p.Panel))
}
