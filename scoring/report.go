package scoring

// reportWaiting says what a flight without a fit waits for, if anything.
func reportWaiting(f *CleanFlight) FlightResult {
	return FlightResult{
		Pilot: f.Flight.Pilot, Status: f.Flight.Status,
		Complete: f.Complete, Unresolved: f.Unresolved, Cells: []CellResult{},
	}
}

// reportFlight says what the panel made of a flight: every seat, and every cell
// whose used value is not its grade or that has a reason.
func reportFlight(f *CleanFlight, panel []string, fit *flightFit) FlightResult {
	r := reportWaiting(f)
	r.Judged = &Judged{PanelScore: fit.panelScore, StandardError: fit.standardError, Penalties: penalties(f.Flight)}
	r.Seats = reportSeats(f, panel, fit)
	r.Cells = reportCells(f, panel, fit)
	return r
}

func penalties(f *Flight) (points float64) {
	for _, p := range f.Penalties {
		points += float64(p.Count) * p.Points
	}
	return points
}

func reportSeats(f *CleanFlight, panel []string, fit *flightFit) []SeatResult {
	seats := make([]SeatResult, len(panel))
	for seat, judge := range panel {
		seats[seat] = SeatResult{
			Judge: judge, RawTotal: rawTotal(f, seat), UsedTotal: fit.totals[seat],
			Weight: fit.weights[seat], Discarded: fit.discarded[seat],
		}
	}
	return seats
}

// rawTotal is K × grade as given, everything but numbers counting 0, and so
// does an absent seat.
func rawTotal(f *CleanFlight, seat int) float64 {
	if f.Absent[seat] {
		return 0
	}
	halves := 0
	for i, item := range f.Items {
		halves += int(item.K) * int(max(f.Row(i)[seat].Grade, 0))
	}
	return float64(halves) / 20 // half points and tenths of K
}

func reportCells(f *CleanFlight, panel []string, fit *flightFit) []CellResult {
	cells := make([]CellResult, 0, len(f.Cells))
	for i, c := range f.Cells {
		if fit.reasons[i] == NoReason && fit.used[i] == c.Grade.Points() {
			continue
		}
		cell := CellResult{
			Item: i/len(panel) + 1, Judge: panel[i%len(panel)],
			Grade: c.Grade, Used: fit.used[i], Reason: fit.reasons[i],
		}
		if fit.trust != nil {
			cell.Trust = fit.trust[i]
		}
		cells = append(cells, cell)
	}
	return cells
}
