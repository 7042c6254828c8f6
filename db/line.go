package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/line"
)

// resolved is what the records of some flights come to.
type resolved struct {
	flights   map[string]*line.Flight // by id
	standings map[string]line.Standing
	records   []line.Stored
	unplaced  []string // ids of records for flights that are not in the contest
}

// readLine resolves flights. Records of one flight can take over or set aside
// records of another one; flights that are tied in this way are resolved
// together, so that a flight comes to the same whatever is asked with it.
func readLine(ctx context.Context, tx pgx.Tx, contest uuid.UUID, flights []uuid.UUID) (*resolved, error) {
	ties, err := readTies(ctx, tx, contest)
	if err != nil {
		return nil, err
	}
	flights = ties.close(flights)
	setup, err := readSetup(ctx, tx, contest, flights)
	if err != nil {
		return nil, err
	}
	records, err := readRecords(ctx, tx, contest, flights)
	if err != nil {
		return nil, err
	}
	state := line.Resolve(setup, records)
	r := &resolved{flights: make(map[string]*line.Flight, len(state.Flights)), standings: state.Standings, records: records, unplaced: state.Unplaced}
	for i := range state.Flights {
		r.flights[state.Flights[i].Flight] = &state.Flights[i]
	}
	return r, nil
}

// ties are the flights whose records speak of records of other flights.
type ties map[uuid.UUID][]uuid.UUID

// readTies finds the few records that speak of other flights'.
func readTies(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (ties, error) {
	read, err := rows[struct{ One, Other uuid.UUID }](ctx, tx, `
		SELECT DISTINCT
			r.flight_id AS one,
			o.flight_id AS other
		FROM line_record r
		CROSS JOIN unnest(r.adopts || CASE WHEN r.kind = 'aside' THEN r.covers END) AS spoken_of (record_id)
		JOIN line_record o ON o.contest_id = r.contest_id AND o.record_id = spoken_of.record_id
		WHERE r.contest_id = @contest
			AND (r.adopts <> '{}' OR r.kind = 'aside')
			AND o.flight_id <> r.flight_id`,
		pgx.StrictNamedArgs{"contest": contest})
	if err != nil {
		return nil, fmt.Errorf("reading which flights are tied: %w", err)
	}
	t := ties{}
	for _, r := range read {
		t[r.One] = append(t[r.One], r.Other)
		t[r.Other] = append(t[r.Other], r.One)
	}
	return t, nil
}

// close returns the flights and all that they are tied to, through others too.
func (t ties) close(flights []uuid.UUID) []uuid.UUID {
	if len(t) == 0 {
		return flights
	}
	seen := map[uuid.UUID]bool{}
	var all []uuid.UUID
	for todo := append([]uuid.UUID(nil), flights...); len(todo) > 0; {
		f := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if !seen[f] {
			seen[f], all = true, append(all, f)
			todo = append(todo, t[f]...)
		}
	}
	return all
}

// readSetup reads what the records of flights are held against.
func readSetup(ctx context.Context, tx pgx.Tx, contest uuid.UUID, flights []uuid.UUID) (line.Setup, error) {
	read, err := rows[setupRow](ctx, tx, `
		SELECT
			f.flight_id AS id,
			coalesce(s.digest, '') AS sequence,
			coalesce(i.items, 0) AS items,
			coalesce(p.judges, '{}') AS panel
		FROM flight f
		LEFT JOIN sequence s ON s.contest_id = f.contest_id
			AND s.programme_id = f.programme_id
			AND (s.pilot_id = f.pilot_id OR NOT f.own_sequences)
		LEFT JOIN (
			SELECT
				sequence_id,
				count(*) AS items
			FROM sequence_item
			WHERE contest_id = @contest
			GROUP BY sequence_id
		) i ON i.sequence_id = s.sequence_id
		LEFT JOIN (
			SELECT
				programme_id,
				array_agg(judge_id ORDER BY number) AS judges
			FROM seat
			WHERE contest_id = @contest
			GROUP BY programme_id
		) p ON p.programme_id = f.programme_id
		WHERE f.contest_id = @contest
			AND f.flight_id = ANY (@flights)`,
		pgx.StrictNamedArgs{"contest": contest, "flights": flights})
	if err != nil {
		return line.Setup{}, fmt.Errorf("reading the set-up of flights: %w", err)
	}
	setup := line.Setup{Contest: contest.String(), Flights: make([]line.FlightSetup, len(read))}
	for i, r := range read {
		setup.Flights[i] = r.setup()
	}
	return setup, nil
}

// setupRow is a flight's set-up as the database has it.
type setupRow struct {
	ID       uuid.UUID
	Sequence string
	Items    int
	Panel    []uuid.UUID
}

func (r *setupRow) setup() line.FlightSetup {
	return line.FlightSetup{Flight: r.ID.String(), Sequence: r.Sequence, Items: r.Items, Panel: texts(r.Panel)}
}

func texts(ids []uuid.UUID) []string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = id.String()
	}
	return list
}

// readStatuses tells what each flight is doing, from the few records that say.
func readStatuses(ctx context.Context, tx pgx.Tx, contest uuid.UUID, flights []Flight) ([]string, error) {
	states, err := readFlightStates(ctx, tx, contest, flights)
	statuses := make([]string, len(states))
	for i, state := range states {
		statuses[i] = state.Status
	}
	return statuses, err
}

// readFlightStates tells of each flight what it is doing, which attempt counts
// and the wind; nothing of its sheets.
func readFlightStates(ctx context.Context, tx pgx.Tx, contest uuid.UUID, flights []Flight) ([]line.Flight, error) {
	ids, setup := make([]uuid.UUID, len(flights)), line.Setup{Contest: contest.String()}
	for i, f := range flights {
		ids[i] = f.ID
		setup.Flights = append(setup.Flights, line.FlightSetup{Flight: f.ID.String()})
	}
	records, err := readRecords(ctx, tx, contest, ids, string(line.KindStatus), string(line.KindAside))
	if err != nil {
		return nil, err
	}
	return line.Resolve(setup, records).Flights, nil
}
