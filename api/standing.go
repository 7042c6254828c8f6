package api

import (
	"context"
	"slices"

	"github.com/google/uuid"

	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// GetProgrammeResults tells the standing of a programme as it is now.
func (s *server) GetProgrammeResults(ctx context.Context, request GetProgrammeResultsRequestObject) (GetProgrammeResultsResponseObject, error) {
	p, err := s.liveProgramme(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	return GetProgrammeResults200JSONResponse(p.results(p.shows(reachOf(ctx)))), nil
}

// liveProgramme gives the live results of a programme to who may see them, as far
// as they may.
func (s *server) liveProgramme(ctx context.Context, id uuid.UUID) (*scoredProgramme, error) {
	p, err := s.programmesFor(ctx).get(ctx, id)
	if err != nil {
		return nil, err
	}
	return p, mayRead(reachOf(ctx), Opened(p.part.Contest.Opened))
}

// shows tells whether somebody may see what is flown.
func (s *scoredProgramme) shows(far reach) bool { return !s.behind.Withheld || far == everywhere }

func (s *scoredProgramme) results(shown bool) ProgrammeResults {
	return ProgrammeResults{
		Head: headOf(s.part.Head), Contest: s.contest(), Category: s.categoryName(), Programme: s.contract(),
		Method: s.method(), State: ProgrammeResultsState(s.result.State), Flights: s.running(shown),
	}
}

// running are the standings of the flights in running order.
func (s *scoredProgramme) running(shown bool) []FlightStanding {
	order := make([]int, len(s.behind.Flights))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return s.behind.Flights[a].Position - s.behind.Flights[b].Position
	})
	flights := make([]FlightStanding, len(order))
	for i, at := range order {
		flights[i] = s.flight(at, shown)
	}
	return flights
}

// flight is the standing of a flight, by its place in the bundle. Where what is
// flown is not to be shown, nothing is said of single items.
func (s *scoredProgramme) flight(i int, shown bool) FlightStanding {
	behind, clean, result := &s.behind.Flights[i], &s.table.Flights[i], &s.result.Flights[i]
	f := FlightStanding{
		ID: behind.ID, Number: behind.Number, Pilot: s.pilots[result.Pilot], Ranked: s.ranked[result.Pilot],
		State: stateOf(clean, &behind.State), Missing: Missing{Seats: []int{}}, Unresolved: []string{},
		Certainty: certaintyOf(result.Certainty),
	}
	if shown {
		f.Missing, f.Unresolved = missingOf(clean), unresolvedOf(clean)
	}
	if p := result.Placing; p != nil {
		f.Score, f.Percent, f.Rank = &p.Score, &p.Percent, p.Rank
	}
	return f
}

// stateOf is what there is to say of a flight first.
func stateOf(clean *scoring.CleanFlight, recorded *line.Flight) FlightState {
	switch {
	case clean.Flight.Status == scoring.Scheduled && recorded.Status == line.StatusFlying:
		return FlightStateFlying
	case clean.Flight.Status == scoring.Scheduled && recorded.Status == line.StatusLanded:
		return FlightStateIncomplete // its grades are not told before it is closed
	case clean.Flight.Status != scoring.Flown:
		return FlightState(clean.Flight.Status)
	case !clean.Complete:
		return FlightStateIncomplete
	case len(clean.Unresolved) > 0:
		return FlightStateUnresolved
	}
	return FlightStateFlown
}

// missingOf counts the grades that a flown flight waits for, and names the
// seats that owe them.
func missingOf(clean *scoring.CleanFlight) Missing {
	missing := Missing{Seats: []int{}}
	for seat, absent := range clean.Absent {
		owed := 0
		for i := seat; i < len(clean.Cells); i += len(clean.Absent) {
			if clean.Cells[i].Grade == scoring.NotEntered && !absent {
				owed++
			}
		}
		if owed > 0 {
			missing.Grades += owed
			missing.Seats = append(missing.Seats, seat+1)
		}
	}
	return missing
}

// unresolvedOf names the items that need a decision. While grades are missing
// there is nothing to decide yet.
func unresolvedOf(clean *scoring.CleanFlight) []string {
	names := []string{}
	if !clean.Complete {
		return names
	}
	for _, number := range clean.Unresolved {
		names = append(names, itemName(number, &clean.Items[number-1]))
	}
	return names
}
