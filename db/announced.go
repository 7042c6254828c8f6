package db

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/line"
)

// Announced is the flight that an announcer speaks of.
type Announced struct {
	Head    Head
	Contest ContestInfo
	Flight  *Flight // nil where none is on the line and none was closed
	Status  string  // one of line's
	Wind    string
	Note    string // about the pilot, for the announcer
	// Began and Ended are when the attempt that counts was in the air and down, by
	// the clocks that said so; nil where they did not.
	Began, Ended *time.Time
}

// announcedFirst are the statuses of a flight on the line, the most interesting
// first.
var announcedFirst = []string{line.StatusFlying, line.StatusCalled, line.StatusInterrupted, line.StatusLanded}

// Announced finds the flight of a contest that is in the air, else one that was
// called on, else one that landed, else the one that was closed last.
func (db *DB) Announced(ctx context.Context, contest uuid.UUID) (a *Announced, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		a, err = readAnnounced(ctx, tx, contest)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading who flies: %w", err)
	}
	return a, nil
}

func readAnnounced(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (a *Announced, err error) {
	a = &Announced{}
	if a.Head, err = readHead(ctx, tx, contest); err != nil {
		return nil, err
	}
	if a.Contest, err = readContestInfo(ctx, tx, contest); err != nil {
		return nil, err
	}
	state, err := a.readFlight(ctx, tx)
	if err != nil || a.Flight == nil {
		return a, err
	}
	if err := a.readTimes(ctx, tx, state); err != nil {
		return nil, err
	}
	a.Note, err = readNote(ctx, tx, contest, a.Flight.Pilot.ID)
	return a, err
}

// readFlight picks the flight among all of the contest.
func (a *Announced) readFlight(ctx context.Context, tx pgx.Tx) (state line.Flight, err error) {
	programmes, err := readProgrammes(ctx, tx, a.Contest.ID)
	if err != nil {
		return state, err
	}
	ids := make([]uuid.UUID, len(programmes))
	for i := range programmes {
		ids[i] = programmes[i].ID
	}
	flights, err := readFlights(ctx, tx, a.Contest.ID, ids)
	if err != nil {
		return state, err
	}
	states, err := readFlightStates(ctx, tx, a.Contest.ID, flights)
	if err != nil {
		return state, err
	}
	at := announcedOf(states)
	if at < 0 {
		return state, nil
	}
	a.Flight, a.Status, a.Wind = &flights[at], states[at].Status, states[at].Wind
	return states[at], nil
}

func announcedOf(states []line.Flight) int {
	for _, status := range announcedFirst {
		at := slices.IndexFunc(states, func(s line.Flight) bool { return s.Status == status })
		if at >= 0 {
			return at
		}
	}
	last, when := -1, ""
	for i := range states {
		if s := &states[i]; s.Status == line.StatusClosed && closedAt(s) > when {
			last, when = i, closedAt(s)
		}
	}
	return last
}

// closedAt is the id of the record by which a flight was closed, which begins with
// when it was made.
func closedAt(s *line.Flight) string { return slices.Max(s.StatusHeads) }

// readTimes finds when the attempt was in the air, and down. A clock that wrote no
// time says nothing.
func (a *Announced) readTimes(ctx context.Context, tx pgx.Tx, state line.Flight) error {
	records, err := readRecords(ctx, tx, a.Contest.ID, []uuid.UUID{a.Flight.ID}, string(line.KindStatus))
	if err != nil {
		return err
	}
	said := slices.DeleteFunc(records, func(r line.Stored) bool { return max(r.Attempt, 1) != max(state.Counting, 1) })
	inOrder(said)
	before := ""
	for _, r := range said {
		at := timeOf(r)
		switch {
		case at.IsZero():
			continue
		case r.Status == line.StatusFlying && before != line.StatusFlying:
			a.Began, a.Ended = &at, nil
		case r.Status != line.StatusFlying && before == line.StatusFlying:
			a.Ended = &at
		}
		before = r.Status
	}
	if a.Began != nil && a.Ended != nil && a.Ended.Before(*a.Began) {
		a.Began, a.Ended = nil, nil // the clock was set back meanwhile
	}
	return nil
}

// inOrder sorts records by when they were made. What takes the place of another
// came after it, whatever the clock was set to meanwhile; else the clock tells.
func inOrder(records []line.Stored) {
	steps := make(map[string]int, len(records))
	for i := range records {
		stepOf(records, &records[i], steps)
	}
	slices.SortStableFunc(records, func(x, y line.Stored) int {
		return cmp.Or(cmp.Compare(steps[x.ID], steps[y.ID]), timeOf(x).Compare(timeOf(y)))
	})
}

// stepOf tells behind how many others of the records one stands. Two that say to
// take the place of each other are met once.
func stepOf(records []line.Stored, r *line.Stored, steps map[string]int) int {
	if n, met := steps[r.ID]; met {
		return n
	}
	steps[r.ID] = 0
	n := 0
	for i := range records {
		if slices.Contains(r.Replaces, records[i].ID) {
			n = max(n, 1+stepOf(records, &records[i], steps))
		}
	}
	steps[r.ID] = n
	return n
}

func timeOf(r line.Stored) time.Time {
	at, err := time.Parse(time.RFC3339, r.EnteredAt)
	if err != nil {
		return time.Time{}
	}
	return at
}
