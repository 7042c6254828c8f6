package api

import (
	"context"
	"strings"

	"github.com/google/uuid"

	"halfpoint/db"
)

// GetToldOfPilot tells what an announcer tells of a pilot.
func (s *server) GetToldOfPilot(ctx context.Context, request GetToldOfPilotRequestObject) (GetToldOfPilotResponseObject, error) {
	told, err := s.toldOf(ctx, request.ContestID, request.PilotID)
	return GetToldOfPilot200JSONResponse(told), err
}

// PutPilotNote writes the line about a pilot.
func (s *server) PutPilotNote(ctx context.Context, request PutPilotNoteRequestObject) (PutPilotNoteResponseObject, error) {
	pilot, err := s.db.FindPilot(ctx, request.ContestID, request.PilotID)
	if err == nil {
		err = s.asPilot(ctx, "contest", request.ContestID, pilot.ID)
	}
	if err != nil {
		return nil, err
	}
	if err := s.db.SetNote(ctx, request.ContestID, pilot.ID, tellingOf(ctx, request.Body)); err != nil {
		return nil, err
	}
	told, err := s.toldOf(ctx, request.ContestID, request.PilotID)
	return PutPilotNote200JSONResponse(told), err
}

// PutFlightDescription describes a free style.
func (s *server) PutFlightDescription(ctx context.Context, request PutFlightDescriptionRequestObject) (PutFlightDescriptionResponseObject, error) {
	if err := s.db.Describe(ctx, request.FlightID, tellingOf(ctx, request.Body)); err != nil {
		return nil, err
	}
	sheets, err := s.db.Sheets(ctx, request.FlightID)
	if err != nil {
		return nil, err
	}
	told, err := s.db.Told(ctx, sheets.Contest.ID, sheets.Flight.Pilot.Code)
	if err != nil {
		return nil, err
	}
	return PutFlightDescription200JSONResponse(toldOfPilot(told)), nil
}

func tellingOf(ctx context.Context, t *Telling) db.Telling {
	return db.Telling{Text: strings.TrimSpace(t.Text), Replaces: t.Replaces, By: whoOf(ctx).name()}
}

// toldOf reads what is told of a pilot in whose name somebody may act.
func (s *server) toldOf(ctx context.Context, contest uuid.UUID, pilot string) (ToldOfPilot, error) {
	told, err := s.db.Told(ctx, contest, pilot)
	if err != nil {
		return ToldOfPilot{}, err
	}
	if err := s.asPilot(ctx, "contest", contest, told.Pilot.ID); err != nil {
		return ToldOfPilot{}, err
	}
	return toldOfPilot(told), nil
}

func toldOfPilot(t *db.Told) ToldOfPilot {
	told := ToldOfPilot{
		Head: headOf(t.Head), Contest: named(t.Contest.ID, t.Contest.Name), Pilot: named(t.Pilot.ID, t.Pilot.Name),
		Note: t.Note, Flights: make([]ToldFlight, len(t.Flights)),
	}
	for i, f := range t.Flights {
		told.Flights[i] = ToldFlight{
			ID: f.ID, Number: f.Number, Category: named(f.Category.ID, f.Category.Name),
			Programme: named(f.Programme.ID, f.Programme.Name), Description: f.Description,
		}
	}
	return told
}
