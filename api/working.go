package api

import (
	"context"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/publication"
	"halfpoint/scoring/working"
)

// GetFlightWorking tells how a flight's score came about.
func (s *server) GetFlightWorking(ctx context.Context, request GetFlightWorkingRequestObject) (GetFlightWorkingResponseObject, error) {
	p, at, err := s.scoredFlight(ctx, request.FlightID)
	if err != nil {
		return nil, err
	}
	if !p.shows(reachOf(ctx)) {
		return nil, db.ErrNotFound
	}
	head := headOf(p.part.Head)
	answer := Working{
		Head: &head, Contest: p.contest(), Category: p.categoryName(), Programme: named(p.behind.ID, p.programme.Name),
		Flight: &p.behind.Flights[at].ID, Others: []WorkingPilot{},
	}
	for i := range p.result.Flights {
		if f := &p.result.Flights[i]; f.Judged != nil && f.Placing != nil {
			answer.Others = append(answer.Others, WorkingPilot{ID: p.behind.Flights[i].ID.String(), Name: p.pilots[f.Pilot].Name})
		}
	}
	answer.Pilot = WorkingPilot{ID: request.FlightID.String(), Name: p.pilots[p.result.Flights[at].Pilot].Name}
	if err := answer.write(p.programme, &p.result, at); err != nil {
		return nil, err
	}
	return GetFlightWorking200JSONResponse(answer), nil
}

// GetPublicationWorking tells how a published score came about.
func (s *server) GetPublicationWorking(ctx context.Context, request GetPublicationWorkingRequestObject) (GetPublicationWorkingResponseObject, error) {
	s = s.reading(ctx)
	stored, err := s.stored(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	pilot, err := s.db.FindPilot(ctx, stored.Info.Contest, request.PilotID)
	if err != nil {
		return nil, err
	}
	parsed, err := s.published.get(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	if stored.Info.Programme == nil {
		return nil, db.ErrNotFound
	}
	answer, err := publishedWorking(stored, parsed.Parsed, pilot.Code)
	if err != nil {
		return nil, err
	}
	ginOf(ctx).Header("Cache-Control", cacheOf(&stored.Contest))
	return GetPublicationWorking200JSONResponse(*answer), nil
}

func publishedWorking(stored *db.StoredPublication, parsed *publication.Parsed, pilot string) (*Working, error) {
	programme, result := parsed.Programme()
	pilots := publishedPilots(parsed)
	about, contest := asPublished(stored, parsed)
	answer := &Working{
		Contest: contest, Category: about.Category, Programme: *about.Programme,
		About: &about, Pilot: WorkingPilot{ID: pilot, Name: pilots[pilot].Name}, Others: []WorkingPilot{},
	}
	at := -1
	for i := range result.Flights {
		f := &result.Flights[i]
		if f.Judged != nil && f.Placing != nil {
			answer.Others = append(answer.Others, WorkingPilot{ID: f.Pilot, Name: pilots[f.Pilot].Name})
		}
		if f.Pilot == pilot {
			at = i
		}
	}
	if at < 0 {
		return nil, db.ErrNotFound
	}
	return answer, answer.write(programme, result, at)
}

// write tells the working of a flight; that of one that was not judged is not
// there.
func (to *Working) write(programme *scoring.Programme, result *scoring.ProgrammeResult, flight int) error {
	w, ok := working.Of(programme, result, flight)
	if !ok {
		return db.ErrNotFound
	}
	to.Method = MethodUsed{Name: result.Method, Fallback: result.Fallback, Seats: len(programme.Panel)}
	to.Options, to.Decimals, to.Factors = optionsOf(programme.Method), w.Decimals, w.Factors
	to.Items, to.Seats = workingItems(programme, flight, w), make([]WorkingSeat, len(w.Seats))
	for i, seat := range w.Seats {
		to.Seats[i] = WorkingSeat{
			Share: seat.Share, Total: seat.Total, Mean: seat.Mean, Deviation: seat.Deviation,
			Moved: seat.Moved, Graded: seat.Graded, Discarded: seat.Discarded,
		}
	}
	if w.Level != (working.Level{}) {
		to.Level = &WorkingLevel{Mean: w.Level.Mean, Spread: w.Level.Spread}
	}
	to.Sum, to.Score, to.Best, to.Percent = w.Sum, w.Score, w.Best, w.Percent
	to.Penalties = penaltiesOf(programme.Flights[flight].Penalties)
	return nil
}

func workingItems(programme *scoring.Programme, flight int, w *working.Working) []WorkingItem {
	sequence := programme.SequenceOf(&programme.Flights[flight])
	said, items := describe(sequence), make([]WorkingItem, len(w.Rows))
	for i := range w.Rows {
		row, item := &w.Rows[i], said.itemOf(i+1, &sequence.Items[i])
		items[i] = WorkingItem{
			Number: item.Number, Kind: WorkingItemKind(item.Kind), Name: item.Name, K: row.K, How: WorkingItemHow(row.How),
			Value: row.Value, Points: row.Points, Grades: make([]WorkingGrade, len(row.Grades)),
		}
		for seat, g := range row.Grades {
			items[i].Grades[seat] = WorkingGrade{Grade: g.Grade.String(), Used: g.Used, Counts: g.Counts}
			if row.How == working.ByTrust || row.How == working.ByFit {
				items[i].Grades[seat].Trust = &row.Grades[seat].Trust
			}
		}
	}
	return items
}
