package api

import (
	"context"
	"slices"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
)

// GetFlightResult tells everything about the score of a flight.
func (s *server) GetFlightResult(ctx context.Context, request GetFlightResultRequestObject) (GetFlightResultResponseObject, error) {
	p, i, err := s.scoredFlight(ctx, request.FlightID)
	if err != nil {
		return nil, err
	}
	return GetFlightResult200JSONResponse(p.sheet(i, p.shows(reachOf(ctx)))), nil
}

// scoredFlight finds a flight in the live results of its programme, by its place
// there, for a reader who may see them.
func (s *server) scoredFlight(ctx context.Context, flight uuid.UUID) (p *scoredProgramme, at int, err error) {
	programme, err := s.programmeOf(ctx, flight)
	if err != nil {
		return nil, 0, err
	}
	if p, err = s.liveProgramme(ctx, programme); err != nil {
		return nil, 0, err
	}
	at = slices.IndexFunc(p.behind.Flights, func(f db.FlightPart) bool { return f.ID == flight })
	if at < 0 {
		return nil, 0, db.ErrNotFound
	}
	return p, at, nil
}

// programmeOf finds the programme of a flight, which never changes.
func (s *server) programmeOf(ctx context.Context, flight uuid.UUID) (uuid.UUID, error) {
	if programme, ok := s.flights.Load(flight); ok {
		return programme.(uuid.UUID), nil
	}
	sheets, err := s.db.Sheets(ctx, flight)
	if err != nil {
		return uuid.Nil, err
	}
	s.flights.Store(flight, sheets.Programme.ID)
	return sheets.Programme.ID, nil
}

// sheet is a flight's sheet, by the flight's place in the bundle, without what
// was flown where that is not to be shown.
func (s *scoredProgramme) sheet(i int, shown bool) FlightSheet {
	result := &s.result.Flights[i]
	sheet := FlightSheet{
		Head: headOf(s.part.Head), Contest: s.contest(), Category: s.categoryName(),
		Programme: named(s.behind.ID, s.programme.Name), Flight: s.flight(i, shown), Ranks: s.ranks, Method: s.method(),
		Penalties: penaltiesOf(s.programme.Flights[i].Penalties), Items: []SheetItem{}, Seats: s.seatTotals(result),
	}
	if shown {
		sheet.Items = s.sheetItems(i, describe(s.programme.SequenceOf(&s.programme.Flights[i])))
	}
	if result.Judged != nil {
		sheet.PanelScore, sheet.StandardError = &result.PanelScore, &result.StandardError
	}
	return sheet
}

func penaltiesOf(given []scoring.Penalty) []Penalty {
	return each(given, func(p *scoring.Penalty) Penalty { return Penalty{Kind: p.Kind, Count: p.Count, Points: p.Points} })
}

func (s *scoredProgramme) seatTotals(result *scoring.FlightResult) []SeatTotal {
	totals := make([]SeatTotal, len(result.Seats))
	for i, seat := range result.Seats {
		totals[i] = SeatTotal{Seat: i + 1, Raw: seat.RawTotal, Used: seat.UsedTotal, Weight: seat.Weight, Discarded: seat.Discarded}
	}
	return totals
}

// sheetItems are the rows of a flight's sheet, with what is said of its items.
func (s *scoredProgramme) sheetItems(flight int, said described) []SheetItem {
	clean, result := &s.table.Flights[flight], &s.result.Flights[flight]
	rows := s.cells(flight, result)
	items := make([]SheetItem, len(rows))
	for i, row := range rows {
		items[i] = SheetItem{
			Item: said.itemOf(i+1, &clean.Items[i]), Cells: cellsOf(row, result.Judged != nil),
			Remarks: s.remarks(clean.Flight, i),
		}
		s.compare(&items[i], flight, i)
	}
	return items
}

// compare fills in the panel's value of an item, and the field's beside it.
func (s *scoredProgramme) compare(to *SheetItem, flight, item int) {
	if s.quartiles != nil {
		to.Field = &s.quartiles[item]
	}
	values := s.values[flight]
	if values == nil {
		return
	}
	value, points := values[item], to.Item.K*values[item]
	to.Value, to.Points = &value, &points
	if to.Field != nil {
		against := points - to.Item.K*to.Field.Middle
		to.Against = &against
	}
}

func cellsOf(row []cell, judged bool) []SheetCell {
	list := make([]SheetCell, len(row))
	for i, c := range row {
		list[i] = SheetCell{Seat: i + 1, Grade: c.grade.String(), Reason: string(c.reason)}
		if judged {
			list[i].Used = &c.used
		}
		if c.trust != nil {
			list[i].Weight = &c.trust.Weight
		}
	}
	return list
}

func (s *scoredProgramme) remarks(flight *scoring.Flight, item int) []Remark {
	list := []Remark{}
	for i := range flight.Sheets {
		sheet := &flight.Sheets[i]
		seat, seated := s.seats[sheet.Judge]
		if seated && item < len(sheet.Remarks) && sheet.Remarks[item] != "" {
			list = append(list, Remark{Seat: seat + 1, Text: sheet.Remarks[item]})
		}
	}
	slices.SortFunc(list, func(a, b Remark) int { return a.Seat - b.Seat })
	return list
}
