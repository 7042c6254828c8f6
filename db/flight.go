package db

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/line"
)

// A Flight is one pilot's performance of one programme.
type Flight struct {
	ID        uuid.UUID
	Programme uuid.UUID
	Number    int // as called on the radio; fixed for good
	Position  int // place in the running order, from 1
	Pilot     Pilot
	// Description is what is flown in the pilot's own words; empty where it is not
	// a free style, or nobody wrote any.
	Description string
}

// A Pilot flies.
type Pilot struct {
	ID          uuid.UUID
	Code        string // the id in bundles
	Name        string
	Affiliation string
	Aircraft    string
}

// A FlightList is the running order of a programme.
type FlightList struct {
	Head     Head
	Flights  []Flight
	Statuses []string // what each is doing, one of line's; empty where nothing was said
}

// Flights reads the running order of a programme.
func (db *DB) Flights(ctx context.Context, programme uuid.UUID) (list *FlightList, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		contest, err := contestOf(ctx, tx, "programme", programme)
		if err != nil {
			return err
		}
		list = &FlightList{}
		if list.Head, err = readHead(ctx, tx, contest); err != nil {
			return err
		}
		if list.Flights, err = readFlights(ctx, tx, contest, []uuid.UUID{programme}); err != nil {
			return err
		}
		slices.SortFunc(list.Flights, byPosition)
		list.Statuses, err = readStatuses(ctx, tx, contest, list.Flights)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading the flights of a programme: %w", err)
	}
	return list, nil
}

// readFlights reads the flights of programmes, by number.
func readFlights(ctx context.Context, tx pgx.Tx, contest uuid.UUID, programmes []uuid.UUID) ([]Flight, error) {
	read, err := rows[flightRow](ctx, tx, `
		SELECT
			f.flight_id AS id,
			f.programme_id AS programme,
			f.number,
			f.position,
			f.description,
			p.pilot_id,
			p.code,
			p.name,
			p.affiliation,
			p.aircraft
		FROM flight f
		JOIN pilot p USING (contest_id, pilot_id)
		WHERE f.contest_id = @contest
			AND f.programme_id = ANY (@programmes)
		ORDER BY f.programme_id, f.number`,
		pgx.StrictNamedArgs{"contest": contest, "programmes": programmes})
	flights := make([]Flight, len(read))
	for i, r := range read {
		flights[i] = r.flight()
	}
	return flights, err
}

// byPosition orders flights as they are flown.
func byPosition(a, b Flight) int { return cmp.Compare(a.Position, b.Position) }

type flightRow struct {
	ID          uuid.UUID
	Programme   uuid.UUID
	Number      int
	Position    int
	Description string
	PilotID     uuid.UUID
	Code        string
	Name        string
	Affiliation string
	Aircraft    string
}

func (r *flightRow) flight() Flight {
	return Flight{
		ID: r.ID, Programme: r.Programme, Number: r.Number, Position: r.Position, Description: r.Description,
		Pilot: Pilot{ID: r.PilotID, Code: r.Code, Name: r.Name, Affiliation: r.Affiliation, Aircraft: r.Aircraft},
	}
}

// Sheets is everything recorded of a flight, and what it comes to.
type Sheets struct {
	Head      Head
	Contest   ContestInfo
	Programme Named
	Flight    Flight
	Panel     []Seat
	Sequence  *Sequence // nil where it is not there yet
	State     line.Flight
	Records   map[string]Recorded // by id: all of the flight
}

// Recorded is a record and where it stands.
type Recorded struct {
	line.Stored
	Standing line.Standing
}

// Sheets reads the sheets of a flight with every cell and its history.
func (db *DB) Sheets(ctx context.Context, flight uuid.UUID) (s *Sheets, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		s, err = readSheets(ctx, tx, flight)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading the sheets of a flight: %w", err)
	}
	return s, nil
}

func readSheets(ctx context.Context, tx pgx.Tx, id uuid.UUID) (s *Sheets, err error) {
	at, err := row[struct {
		Contest   uuid.UUID
		Programme uuid.UUID
		Name      string
	}](ctx, tx, `
		SELECT
			f.contest_id AS contest,
			f.programme_id AS programme,
			p.name
		FROM flight f
		JOIN programme p USING (contest_id, programme_id)
		WHERE f.flight_id = @flight`,
		pgx.StrictNamedArgs{"flight": id})
	if err != nil {
		return nil, err
	}
	s = &Sheets{Programme: Named{at.Programme, at.Name}}
	if s.Head, err = readHead(ctx, tx, at.Contest); err != nil {
		return nil, err
	}
	if s.Contest, err = readContestInfo(ctx, tx, at.Contest); err != nil {
		return nil, err
	}
	if err := s.readFlight(ctx, tx, id); err != nil {
		return nil, err
	}
	return s, s.readState(ctx, tx)
}

// readFlight reads the flight, and what it flies before whom.
func (s *Sheets) readFlight(ctx context.Context, tx pgx.Tx, id uuid.UUID) error {
	programme := []uuid.UUID{s.Programme.ID}
	flights, err := readFlights(ctx, tx, s.Contest.ID, programme)
	if err != nil {
		return err
	}
	s.Flight = flights[slices.IndexFunc(flights, func(f Flight) bool { return f.ID == id })]
	panels, err := readPanels(ctx, tx, s.Contest.ID, programme)
	if err != nil {
		return err
	}
	s.Panel = panels[s.Programme.ID]
	sequences, err := readSequences(ctx, tx, s.Contest.ID, programme)
	s.Sequence = sequences.of(&s.Flight)
	return err
}

// readState fills in what was recorded.
func (s *Sheets) readState(ctx context.Context, tx pgx.Tx) error {
	resolved, err := readLine(ctx, tx, s.Contest.ID, []uuid.UUID{s.Flight.ID})
	if err != nil {
		return err
	}
	flight := s.Flight.ID.String()
	s.State, s.Records = *resolved.flights[flight], map[string]Recorded{}
	for _, r := range resolved.records {
		if r.Flight == flight {
			s.Records[r.ID] = Recorded{r, resolved.standings[r.ID]}
		}
	}
	return nil
}
