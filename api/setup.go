package api

import (
	"context"
	"errors"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
)

// GetSetup reads what is set up of a contest.
func (s *server) GetSetup(ctx context.Context, request GetSetupRequestObject) (GetSetupResponseObject, error) {
	setup, err := s.db.Setup(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	return GetSetup200JSONResponse(setupOf(setup)), nil
}

// ChangeSetup changes rows of the set-up, all of them or none.
func (s *server) ChangeSetup(ctx context.Context, request ChangeSetupRequestObject) (ChangeSetupResponseObject, error) {
	setup, err := s.db.ChangeSetup(ctx, request.ContestID, changeOf(request.Body), whoOf(ctx).name())
	if changed, ok := errors.AsType[*db.SetupChangedError](err); ok {
		return nil, &failure{kind: kindConflict, detail: "somebody else changed it meanwhile", complaints: pointed(changed.Complaints)}
	}
	if err != nil {
		return nil, err
	}
	return ChangeSetup200JSONResponse(setupOf(setup)), nil
}

func setupOf(s *db.Setup) Setup {
	return Setup{
		Head: headOf(s.Head),
		Contest: SetupContest{
			Revision: s.Contest.Revision, Name: s.Contest.Name, Place: s.Contest.Place,
			Starts: s.Contest.Starts, Ends: s.Contest.Ends, Opened: Opened(s.Contest.Opened),
		},
		Penalties:  each(s.Penalties, setupPenaltyOf),
		Officials:  each(s.Officials, setupOfficialOf),
		Pilots:     each(s.Pilots, setupPilotOf),
		Categories: each(s.Categories, setupCategoryOf),
		Entries:    each(s.Entries, setupEntryOf),
		Programmes: each(s.Programmes, setupProgrammeOf),
	}
}

func setupPenaltyOf(r *db.PenaltyRow) SetupPenalty {
	return SetupPenalty{
		ID: r.ID, Revision: r.Revision, Position: r.Position,
		Kind: r.Kind, Points: r.Points, Repeats: r.Repeats, Disqualifies: r.Disqualifies,
	}
}

func setupOfficialOf(r *db.OfficialRow) SetupOfficial {
	return SetupOfficial{
		ID: r.ID, Revision: r.Revision, Position: r.Position,
		Code: r.Code, Duty: SetupOfficialDuty(r.Duty), Name: r.Name, Affiliation: r.Affiliation,
	}
}

func setupPilotOf(r *db.PilotRow) SetupPilot {
	return SetupPilot{
		ID: r.ID, Revision: r.Revision, Position: r.Position,
		Code: r.Code, Name: r.Name, Affiliation: r.Affiliation, Aircraft: r.Aircraft, Note: r.Note,
	}
}

func setupCategoryOf(r *db.CategoryRow) SetupCategory {
	c := Combine{By: CombineBy(r.Combine.By), Weights: r.Combine.Weights, TieBreak: r.Combine.TieBreak, TeamBest: r.Combine.TeamBest}
	if c.Weights == nil {
		c.Weights = map[string]float64{}
	}
	if c.TieBreak == nil {
		c.TieBreak = []string{}
	}
	return SetupCategory{ID: r.ID, Revision: r.Revision, Position: r.Position, Code: r.Code, Name: r.Name, Combine: c}
}

func setupEntryOf(r *db.EntryRow) SetupEntry {
	return SetupEntry{
		ID: r.ID, Revision: r.Revision, Position: r.Position,
		Category: r.Category, Pilot: r.Pilot, Ranked: r.Ranked, Team: r.Team,
	}
}

func setupProgrammeOf(r *db.ProgrammeRow) SetupProgramme {
	return SetupProgramme{
		ID: r.ID, Revision: r.Revision, Position: r.Position, Category: r.Category, Code: r.Code, Name: r.Name,
		Kind: SetupProgrammeKind(r.Kind), Cut: r.Cut, Method: optionsOf(r.Method), Panel: r.Panel,
	}
}

func changeOf(c *SetupChange) *db.SetupChange {
	change := &db.SetupChange{
		Penalties:  edits(c.Penalties, penaltyEdit),
		Officials:  edits(c.Officials, officialEdit),
		Pilots:     edits(c.Pilots, pilotEdit),
		Categories: edits(c.Categories, categoryEdit),
		Entries:    edits(c.Entries, entryEdit),
		Programmes: edits(c.Programmes, programmeEdit),
		Reason:     or(c.Reason),
	}
	if c.Contest != nil {
		change.Contest = &db.ContestRow{
			RowHead: db.RowHead{Revision: c.Contest.Revision}, Name: c.Contest.Name, Place: c.Contest.Place,
			Starts: c.Contest.Starts, Ends: c.Contest.Ends, Opened: string(c.Contest.Opened),
		}
	}
	return change
}

// edits converts a list that may be left out.
func edits[A, R any](list *[]A, convert func(*A) db.Edit[R]) []db.Edit[R] {
	if list == nil {
		return nil
	}
	return each(*list, convert)
}

func editOf[R any](row R, remove *bool) db.Edit[R] {
	return db.Edit[R]{Row: row, Remove: or(remove)}
}

func rowHead(id uuid.UUID, revision int64, position int) db.RowHead {
	return db.RowHead{ID: id, Revision: revision, Position: position}
}

func penaltyEdit(p *SetupPenalty) db.Edit[db.PenaltyRow] {
	return editOf(db.PenaltyRow{
		RowHead: rowHead(p.ID, p.Revision, p.Position),
		Kind:    p.Kind, Points: p.Points, Repeats: p.Repeats, Disqualifies: p.Disqualifies,
	}, p.Remove)
}

func officialEdit(o *SetupOfficial) db.Edit[db.OfficialRow] {
	return editOf(db.OfficialRow{
		RowHead: rowHead(o.ID, o.Revision, o.Position),
		Code:    o.Code, Duty: string(o.Duty), Name: o.Name, Affiliation: o.Affiliation,
	}, o.Remove)
}

func pilotEdit(p *SetupPilot) db.Edit[db.PilotRow] {
	return editOf(db.PilotRow{
		RowHead: rowHead(p.ID, p.Revision, p.Position),
		Code:    p.Code, Name: p.Name, Affiliation: p.Affiliation, Aircraft: p.Aircraft, Note: p.Note,
	}, p.Remove)
}

func categoryEdit(c *SetupCategory) db.Edit[db.CategoryRow] {
	return editOf(db.CategoryRow{
		RowHead: rowHead(c.ID, c.Revision, c.Position), Code: c.Code, Name: c.Name,
		Combine: scoring.Combine{By: string(c.Combine.By), Weights: c.Combine.Weights, TieBreak: c.Combine.TieBreak, TeamBest: c.Combine.TeamBest},
	}, c.Remove)
}

func entryEdit(e *SetupEntry) db.Edit[db.EntryRow] {
	return editOf(db.EntryRow{
		RowHead:  rowHead(e.ID, e.Revision, e.Position),
		Category: e.Category, Pilot: e.Pilot, Ranked: e.Ranked, Team: e.Team,
	}, e.Remove)
}

func programmeEdit(p *SetupProgramme) db.Edit[db.ProgrammeRow] {
	return editOf(db.ProgrammeRow{
		RowHead:  rowHead(p.ID, p.Revision, p.Position),
		Category: p.Category, Code: p.Code, Name: p.Name, Kind: string(p.Kind), Cut: p.Cut,
		Method: methodFrom(p.Method), Panel: p.Panel,
	}, p.Remove)
}
