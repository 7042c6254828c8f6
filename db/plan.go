package db

import (
	"context"
	"fmt"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/line"
)

// A Plan is what a device of the line needs to work without a network: the
// programmes that it has to do with, and what was recorded of the flights that
// are not over. Pilots are not in it: the line knows a flight by its number.
type Plan struct {
	Head       Head
	Have       int64 // the highest seq of the device's store up to which none is missing
	Contest    ContestInfo
	Device     Device
	SameSeat   int      // other devices that have its seat and role
	Devices    []Device // those of the contest that are not withdrawn; for an official's device alone
	Penalties  []PenaltyRow
	Programmes []PlannedProgramme
	Records    []line.Stored
}

// A PlannedProgramme is a programme as the line flies it.
type PlannedProgramme struct {
	ID       uuid.UUID
	Name     string
	Kind     string
	Category Named
	Panel    []Seat
	Flights  []PlannedFlight // in running order
}

// A PlannedFlight is a flight as the line knows it.
type PlannedFlight struct {
	ID       uuid.UUID
	Number   int
	Status   string // one of line's; empty where nothing was said
	Counting int    // the attempt that counts; 0 where that is undecided
	Wind     string
	Sequence *PlannedSequence // nil where there is none yet, or only the office may see it
}

// A PlannedSequence says which sequence a flight flies.
type PlannedSequence struct {
	ID       uuid.UUID
	Revision int // of its words and numbers; the digest stays where only those change
	Digest   string
	Items    int
}

// Plan reads what a device needs to know; store is the id of its own database.
func (db *DB) Plan(ctx context.Context, contest, device, store uuid.UUID) (p *Plan, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		p, err = readPlan(ctx, tx, contest, device, store)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading the plan of a device: %w", err)
	}
	return p, nil
}

func readPlan(ctx context.Context, tx pgx.Tx, contest, device, store uuid.UUID) (p *Plan, err error) {
	p = &Plan{}
	if p.Head, err = readHead(ctx, tx, contest); err != nil {
		return nil, err
	}
	if p.Contest, err = readContestInfo(ctx, tx, contest); err != nil {
		return nil, err
	}
	if p.Have, err = readHave(ctx, tx, contest, store); err != nil {
		return nil, err
	}
	if err := p.readDevices(ctx, tx, device); err != nil {
		return nil, err
	}
	if err := p.readPenalties(ctx, tx); err != nil {
		return nil, err
	}
	return p, p.readProgrammes(ctx, tx)
}

// readPenalties reads what an official can give.
func (p *Plan) readPenalties(ctx context.Context, tx pgx.Tx) error {
	if !p.official() {
		return nil
	}
	var s Setup
	err := s.readPenalties(ctx, tx, p.Contest.ID)
	p.Penalties = s.Penalties
	return err
}

func (p *Plan) official() bool { return p.Device.Role == line.RoleChief }

func (p *Plan) seat() string {
	if p.Device.Judge == nil {
		return ""
	}
	return p.Device.Judge.ID.String()
}

func (p *Plan) readDevices(ctx context.Context, tx pgx.Tx, device uuid.UUID) error {
	all, err := readDevices(ctx, tx, p.Contest.ID)
	if err != nil {
		return err
	}
	own := slices.IndexFunc(all, func(d Device) bool { return d.ID == device })
	if own < 0 {
		return pgx.ErrNoRows
	}
	p.Device = all[own]
	all = slices.DeleteFunc(all, func(d Device) bool { return d.WithdrawnAt != nil })
	for _, d := range all {
		if d.ID != device && d.Judge != nil && p.seat() == d.Judge.ID.String() && d.Role == p.Device.Role {
			p.SameSeat++
		}
	}
	if p.official() {
		p.Devices = all
	}
	return nil
}

// readProgrammes reads the programmes on whose panel the device's judge sits,
// or all where it has no seat.
func (p *Plan) readProgrammes(ctx context.Context, tx pgx.Tx) error {
	programmes, err := readProgrammeRows(ctx, tx, p.Contest.ID, nil, nil)
	if err != nil {
		return err
	}
	ids := make([]uuid.UUID, len(programmes))
	for i, one := range programmes {
		ids[i] = one.ID
	}
	panels, err := readPanels(ctx, tx, p.Contest.ID, ids)
	if err != nil {
		return err
	}
	for _, one := range programmes {
		seated := func(s Seat) bool { return s.Judge.String() == p.seat() }
		if p.seat() != "" && !slices.ContainsFunc(panels[one.ID], seated) {
			continue
		}
		category, err := readCategoryName(ctx, tx, p.Contest.ID, one.Category)
		if err != nil {
			return err
		}
		p.Programmes = append(p.Programmes, PlannedProgramme{
			ID: one.ID, Name: one.Name, Kind: one.Kind, Category: category, Panel: panels[one.ID],
		})
	}
	return p.readFlights(ctx, tx)
}

func (p *Plan) readFlights(ctx context.Context, tx pgx.Tx) error {
	ids := make([]uuid.UUID, len(p.Programmes))
	for i := range p.Programmes {
		ids[i] = p.Programmes[i].ID
	}
	flights, err := readFlights(ctx, tx, p.Contest.ID, ids)
	if err != nil {
		return err
	}
	slices.SortStableFunc(flights, byPosition)
	sequences, err := readPlannedSequences(ctx, tx, p.Contest.ID, ids)
	if err != nil {
		return err
	}
	states, err := readFlightStates(ctx, tx, p.Contest.ID, flights)
	if err != nil {
		return err
	}
	var open []uuid.UUID
	for i, f := range flights {
		p.add(&f, &states[i], sequences.of(&f))
		if !line.IsOver(states[i].Status) {
			open = append(open, f.ID)
		}
	}
	return p.readRecords(ctx, tx, open)
}

// add adds a flight to its programme.
func (p *Plan) add(f *Flight, state *line.Flight, sequence *PlannedSequence) {
	at := slices.IndexFunc(p.Programmes, func(one PlannedProgramme) bool { return one.ID == f.Programme })
	p.Programmes[at].Flights = append(p.Programmes[at].Flights, PlannedFlight{
		ID: f.ID, Number: f.Number, Status: state.Status, Counting: state.Counting, Wind: state.Wind, Sequence: sequence,
	})
}

// readRecords reads what was recorded of flights as far as the device may see
// it.
func (p *Plan) readRecords(ctx context.Context, tx pgx.Tx, flights []uuid.UUID) error {
	ties, err := readTies(ctx, tx, p.Contest.ID)
	if err != nil {
		return err
	}
	records, err := readRecords(ctx, tx, p.Contest.ID, ties.close(flights))
	if err != nil {
		return err
	}
	if !p.official() {
		records = line.Visible(records, p.seat())
	}
	p.Records = records
	return nil
}

// plannedSequences are those of some programmes.
type plannedSequences map[sequenceKey]plannedSequence

type plannedSequence struct {
	PlannedSequence

	Programme uuid.UUID
	Pilot     *uuid.UUID
	Released  bool
}

// of is the sequence that a flight flies, nil where there is none or only the
// office may see it.
func (s plannedSequences) of(f *Flight) *PlannedSequence {
	found, ok := s[sequenceKey{f.Programme, f.Pilot.ID}]
	if !ok {
		found, ok = s[sequenceKey{programme: f.Programme}]
	}
	if !ok || !found.Released {
		return nil
	}
	return &found.PlannedSequence
}

func readPlannedSequences(ctx context.Context, tx pgx.Tx, contest uuid.UUID, programmes []uuid.UUID) (plannedSequences, error) {
	read, err := rows[plannedSequence](ctx, tx, `
		SELECT
			s.sequence_id AS id,
			s.programme_id AS programme,
			s.pilot_id AS pilot,
			s.revision,
			s.digest,
			s.released_at IS NOT NULL AS released,
			(SELECT count(*) FROM sequence_item i WHERE i.contest_id = s.contest_id AND i.sequence_id = s.sequence_id) AS items
		FROM sequence s
		WHERE s.contest_id = @contest
			AND s.programme_id = ANY (@programmes)`,
		pgx.StrictNamedArgs{"contest": contest, "programmes": programmes})
	all := plannedSequences{}
	for _, r := range read {
		all[sequenceKey{r.Programme, orNone(r.Pilot)}] = r
	}
	return all, err
}
