package db

import (
	"context"
	"fmt"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// SequencePlace says whose a sequence is: that of all pilots of a programme, or
// of one flight. One of the two is set.
type SequencePlace struct{ Programme, Flight uuid.UUID }

// Registered is what is registered in a programme, with what it is held
// against.
type Registered struct {
	Head      Head
	Contest   ContestInfo
	Category  Named
	Programme Named
	Kind      string // of the programme
	Own       bool   // each flight has its own sequence
	Rules     Rules
	Sequences []FlightSequence
}

// A FlightSequence is what a flight flies.
type FlightSequence struct {
	Flight   *Flight   // nil for the programme's common sequence
	Sequence *Sequence // nil where nothing is registered
}

// Sequence reads the sequence of a place. That of a flight in a programme with
// a common sequence is the common one; a programme in which each flight has its
// own has none.
func (db *DB) Sequence(ctx context.Context, place SequencePlace) (r *Registered, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		at, err := findPlace(ctx, tx, place)
		if err != nil {
			return err
		}
		if at.Own && at.flight == nil {
			return pgx.ErrNoRows
		}
		if r, err = readRegistered(ctx, tx, &at.programmePlace); err != nil {
			return err
		}
		all, err := readSequences(ctx, tx, at.Contest, []uuid.UUID{at.Programme})
		r.Sequences = []FlightSequence{{Flight: at.flight, Sequence: all[at.key()]}}
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a sequence: %w", err)
	}
	return r, nil
}

// Sequences reads the common sequence of a programme, or that of each flight in
// running order.
func (db *DB) Sequences(ctx context.Context, programme uuid.UUID) (r *Registered, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		at, err := findProgramme(ctx, tx, programme)
		if err != nil {
			return err
		}
		if r, err = readRegistered(ctx, tx, &at); err != nil {
			return err
		}
		r.Sequences, err = readFlightSequences(ctx, tx, &at)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading the sequences of a programme: %w", err)
	}
	return r, nil
}

func readFlightSequences(ctx context.Context, tx pgx.Tx, at *programmePlace) ([]FlightSequence, error) {
	all, err := readSequences(ctx, tx, at.Contest, []uuid.UUID{at.Programme})
	if err != nil {
		return nil, err
	}
	if !at.Own {
		return []FlightSequence{{Sequence: all[sequenceKey{programme: at.Programme}]}}, nil
	}
	flights, err := readFlights(ctx, tx, at.Contest, []uuid.UUID{at.Programme})
	slices.SortFunc(flights, byPosition)
	list := make([]FlightSequence, len(flights))
	for i := range flights {
		list[i] = FlightSequence{Flight: &flights[i], Sequence: all.of(&flights[i])}
	}
	return list, err
}

// readRegistered reads what stands around the sequences of a programme.
func readRegistered(ctx context.Context, tx pgx.Tx, at *programmePlace) (r *Registered, err error) {
	r = &Registered{Programme: Named{at.Programme, at.Name}, Kind: at.Kind, Own: at.Own}
	if r.Head, err = readHead(ctx, tx, at.Contest); err != nil {
		return nil, err
	}
	if r.Contest, err = readContestInfo(ctx, tx, at.Contest); err != nil {
		return nil, err
	}
	if r.Category, err = readCategoryName(ctx, tx, at.Contest, at.Category); err != nil {
		return nil, err
	}
	r.Rules, err = readRules(ctx, tx, at.Contest, &at.Category)
	return r, err
}

// programmePlace is where the sequences of a programme stand.
type programmePlace struct {
	Contest   uuid.UUID
	Category  uuid.UUID
	Programme uuid.UUID
	Name      string
	Kind      string
	Own       bool
}

func findProgramme(ctx context.Context, tx pgx.Tx, programme uuid.UUID) (programmePlace, error) {
	return row[programmePlace](ctx, tx, `
		SELECT
			contest_id AS contest,
			category_id AS category,
			programme_id AS programme,
			name,
			kind,
			own_sequences AS own
		FROM programme
		WHERE programme_id = @programme`,
		pgx.StrictNamedArgs{"programme": programme})
}

// foundPlace is where one sequence stands.
type foundPlace struct {
	programmePlace
	flight *Flight // where it was asked for by the flight
}

// key is the sequence's among those of the programme.
func (p *foundPlace) key() sequenceKey {
	key := sequenceKey{programme: p.Programme}
	if p.Own && p.flight != nil {
		key.pilot = p.flight.Pilot.ID
	}
	return key
}

func findPlace(ctx context.Context, tx pgx.Tx, place SequencePlace) (at foundPlace, err error) {
	if place.Flight == uuid.Nil {
		at.programmePlace, err = findProgramme(ctx, tx, place.Programme)
		return at, err
	}
	programme, err := value[uuid.UUID](ctx, tx, `
		SELECT programme_id
		FROM flight
		WHERE flight_id = @flight`,
		pgx.StrictNamedArgs{"flight": place.Flight})
	if err != nil {
		return at, err
	}
	if at.programmePlace, err = findProgramme(ctx, tx, programme); err != nil {
		return at, err
	}
	flights, err := readFlights(ctx, tx, at.Contest, []uuid.UUID{programme})
	for i := range flights {
		if flights[i].ID == place.Flight {
			at.flight = &flights[i]
		}
	}
	return at, err
}
