package api

import (
	"context"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

// ListPaper tells what can be keyed of a flight's paper sheets.
func (s *server) ListPaper(ctx context.Context, request ListPaperRequestObject) (ListPaperResponseObject, error) {
	all, err := s.db.Keyings(ctx, request.FlightID)
	if err != nil {
		return nil, err
	}
	sheets := all.Sheets
	return ListPaper200JSONResponse{
		Contest: named(sheets.Contest.ID, sheets.Contest.Name), Programme: named(sheets.Programme.ID, sheets.Programme.Name),
		Flight: request.FlightID, Number: sheets.Flight.Number, Seats: each(all.Seats, paperSeatOf),
	}, nil
}

func paperSeatOf(k *db.Keying) PaperSeat {
	return PaperSeat{
		Seat: panelSeat(&k.Seat), State: signatureWords(&k.Sheet), Signed: k.Sheet.Signature.State == line.Signed,
		Graded: k.Graded(), Items: len(k.Sheet.Cells), Readings: len(k.Readings),
	}
}

// GetPaper tells what is keyed of one seat's paper sheet.
func (s *server) GetPaper(ctx context.Context, request GetPaperRequestObject) (GetPaperResponseObject, error) {
	sheet, err := s.paperSheet(ctx, request.FlightID, request.Judge, false)
	return GetPaper200JSONResponse(sheet), err
}

// KeyPaper takes a reading of a paper sheet.
func (s *server) KeyPaper(ctx context.Context, request KeyPaperRequestObject) (KeyPaperResponseObject, error) {
	reading := db.KeyedReading{ID: request.Body.ID, By: whoOf(ctx).name(), Reading: line.Reading{Signed: request.Body.Signed}}
	for _, e := range request.Body.Entries {
		reading.Entries = append(reading.Entries, line.Entry{Grade: e.Grade, Remark: or(e.Remark)})
	}
	entered, err := s.db.Key(ctx, request.FlightID, request.Judge, reading)
	if err != nil {
		return nil, err
	}
	sheet, err := s.paperSheet(ctx, request.FlightID, request.Judge, entered)
	return KeyPaper200JSONResponse(sheet), err
}

// ForgetPaper throws away what was keyed.
func (s *server) ForgetPaper(ctx context.Context, request ForgetPaperRequestObject) (ForgetPaperResponseObject, error) {
	if err := s.db.ForgetKeyed(ctx, request.FlightID, request.Judge, whoOf(ctx).name()); err != nil {
		return nil, err
	}
	return ForgetPaper204Response{}, nil
}

func (s *server) paperSheet(ctx context.Context, flight, judge uuid.UUID, entered bool) (PaperSheet, error) {
	k, err := s.db.Keying(ctx, flight, judge)
	if err != nil {
		return PaperSheet{}, err
	}
	sheet := PaperSheet{
		Flight: flight, Seat: panelSeat(&k.Seat), State: signatureWords(&k.Sheet), Entered: entered,
		Readings: len(k.Readings), Items: itemsOf(released(k.Sheets.Sequence, reachOf(ctx))),
		Grades: []string{}, Read: []string{}, Differences: []PaperDifference{},
	}
	if k.Shut != "" {
		sheet.Shut = &k.Shut
	}
	if n := len(k.Readings); n > 0 {
		sheet.Own = k.Readings[n-1].By == whoOf(ctx).name()
	}
	if grades, signed := k.Agreed(); grades != nil {
		sheet.Read, sheet.Signed = grades, signed
	}
	for _, c := range k.Sheet.Cells {
		sheet.Grades = append(sheet.Grades, c.Grade)
	}
	for _, d := range k.Differences() {
		sheet.Differences = append(sheet.Differences, PaperDifference{Item: d.Item, First: d.First, Last: d.Last})
	}
	return sheet, nil
}
