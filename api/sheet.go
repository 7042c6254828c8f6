package api

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

// GetJudgeSheet tells one seat's cells, with everything recorded of them.
func (s *server) GetJudgeSheet(ctx context.Context, request GetJudgeSheetRequestObject) (GetJudgeSheetResponseObject, error) {
	sheets, err := s.db.Sheets(ctx, request.FlightID)
	if err != nil {
		return nil, err
	}
	if err := mayRead(reachOf(ctx), Opened(sheets.Contest.Opened)); err != nil {
		return nil, err
	}
	seat := slices.IndexFunc(sheets.Panel, func(s db.Seat) bool { return s.Judge == request.Judge })
	if seat < 0 {
		return nil, db.ErrNotFound
	}
	sheet := sheetOf(&sheets.State, request.Judge)
	answer := GetJudgeSheet200JSONResponse{
		Head: headOf(sheets.Head), Flight: request.FlightID, Seat: panelSeat(&sheets.Panel[seat]),
		State: signatureWords(&sheet), Items: []Item{}, Cells: []JudgeCell{},
	}
	if far := reachOf(ctx); isReleased(sheets.Sequence, far) {
		answer.Items = itemsOf(released(sheets.Sequence, far))
		if far != live || sheets.State.Status == line.StatusClosed {
			answer.Cells = judgeCells(sheets, &sheet)
		}
	}
	return answer, nil
}

// sheetOf is a seat's sheet of the attempt that counts, an empty one where
// there is none.
func sheetOf(flight *line.Flight, judge uuid.UUID) line.Sheet {
	if sheet := flight.Sheet(judge.String()); sheet != nil {
		return *sheet
	}
	return line.Sheet{Signature: line.Signature{State: line.Unsigned}}
}

var signatureStates = map[string]string{
	line.Unsigned: "not signed",
	line.Signed:   "signed",
	line.SignWait: "signed, waiting for what the signature covers",
	line.Differ:   "signed twice, with different values",
	line.Reopened: "reopened, to be signed again",
}

func signatureWords(sheet *line.Sheet) string {
	if sheet.Absent {
		return "the seat is absent"
	}
	return signatureStates[sheet.Signature.State]
}

func judgeCells(sheets *db.Sheets, sheet *line.Sheet) []JudgeCell {
	cells := make([]JudgeCell, len(sheet.Cells))
	for i, c := range sheet.Cells {
		cells[i] = JudgeCell{Item: c.Item, Grade: c.Grade, Remark: c.Remark, History: historyOf(sheets, c.History)}
	}
	return cells
}

func historyOf(sheets *db.Sheets, ids []string) []CellRecord {
	list := []CellRecord{}
	for _, id := range ids {
		recorded, ok := sheets.Records[id]
		parsed, err := uuid.Parse(id)
		if !ok || err != nil {
			continue
		}
		r := CellRecord{ID: parsed, Grade: recorded.Grade, Standing: recorded.Standing.Standing}
		if at, err := time.Parse(time.RFC3339Nano, recorded.EnteredAt); err == nil {
			r.EnteredAt = &at
		}
		list = append(list, r)
	}
	return list
}
