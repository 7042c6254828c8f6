package api

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

func init() { needSources = append(needSources, openFlights) }

// openFlights finds flights that landed and are not closed, with the sheets,
// rulings and records that they wait for; and closed ones that cannot be scored
// all the same.
func openFlights(_ context.Context, _ *server, in *situation) (needs []Need, err error) {
	in.eachProgramme(func(p *programmeParts) {
		seats := p.seatsByJudge()
		for i := range p.behind.Flights {
			if need := p.needOf(&p.behind.Flights[i], &p.table.Flights[i], seats); need != nil {
				needs = append(needs, *need)
			}
		}
	})
	return needs, nil
}

// seatsByJudge are the numbers of the seats by the ids that records have.
func (p *programmeParts) seatsByJudge() map[string]int {
	seats := map[string]int{}
	for code, seat := range p.seats {
		seats[p.part.Judges[code].String()] = seat + 1
	}
	return seats
}

func (p *programmeParts) needOf(behind *db.FlightPart, clean *scoring.CleanFlight, seats map[string]int) *Need {
	state := &behind.State
	if state.Status != line.StatusLanded && state.Status != line.StatusClosed && !state.StatusConflict {
		return nil
	}
	kind, waits := "flight", withoutClosing(state)
	words := db.BlockWords(&waits, seats)
	if slices.ContainsFunc(waits.Blocks, func(b line.Block) bool { return b.Cause == line.BlockSheet }) {
		kind = "sheet"
	}
	if clean.Flight.Status == scoring.Flown && clean.Complete && len(clean.Unresolved) > 0 {
		kind, words = "ruling", append(words, "a ruling is wanted: "+strings.Join(unresolvedOf(clean), ", "))
	}
	switch {
	case len(words) > 0:
	case state.Status == line.StatusLanded:
		words = []string{"everything is in; the chief judge closes it"}
	default:
		return nil
	}
	return &Need{
		Kind: kind, Urgency: Now, Of: fmt.Sprintf("%s, flight %d (%s)", p.title(), behind.Number, p.pilots[clean.Flight.Pilot].Name),
		Text: strings.Join(words, ", "), Link: linkOf(kind, behind),
	}
}

// withoutClosing leaves out of what a flight waits for that it is closed, as every
// one does that landed.
func withoutClosing(f *line.Flight) line.Flight {
	waits := *f
	waits.Blocks = slices.DeleteFunc(slices.Clone(f.Blocks), func(b line.Block) bool {
		return b.Cause == line.BlockStatus && !f.StatusConflict
	})
	return waits
}

// linkOf leads to where paper sheets are keyed, or to the sheet of the flight.
func linkOf(kind string, f *db.FlightPart) string {
	if kind == "sheet" {
		return "/flights/" + f.ID.String() + "/paper"
	}
	return "/flights/" + f.ID.String()
}
