package api

import (
	"context"
	"crypto/sha256"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/panel"
)

// An analysis is how good the panel of a programme is, as it stood at a version.
// It is made of closed flights alone, so that it tells nobody a grade that is
// still being given. It is shared by requests and never changed.
type analysis struct {
	*programmeParts
	report panel.ProgrammeReport
	state  db.AnalysisState
}

// An analyst makes them, one at a time: each scores the programme as often as
// the panel has seats. What closed flights say changes seldom, the contest's
// version with every grade: where the bundle is the same, the report is.
type analyst struct {
	db   *db.DB
	busy chan struct{}
	last *store[analysed] // of each programme
}

// An analysed is the last report of a programme, and the hash of the bundle that
// it is about.
type analysed struct {
	of     [sha256.Size]byte
	report panel.ProgrammeReport
}

func newAnalyst(d *db.DB) *analyst {
	return &analyst{db: d, busy: make(chan struct{}, 1), last: newStore[analysed](maxKept)}
}

func (a *analyst) analyse(ctx context.Context, id uuid.UUID) (*analysis, error) {
	part, err := a.db.ClosedProgramme(ctx, id)
	if err != nil {
		return nil, err
	}
	states, err := a.db.AnalysisStates(ctx, part.Contest.ID)
	if err != nil {
		return nil, err
	}
	made := &analysis{programmeParts: partsOf(part, part.Index), state: states[id]}
	made.report, err = a.report(ctx, id, part)
	return made, err
}

func (a *analyst) report(ctx context.Context, id uuid.UUID, part *db.Part) (panel.ProgrammeReport, error) {
	text, err := part.Bundle.Encode()
	if err != nil {
		return panel.ProgrammeReport{}, err
	}
	select {
	case a.busy <- struct{}{}:
		defer func() { <-a.busy }()
	case <-ctx.Done():
		return panel.ProgrammeReport{}, context.Cause(ctx)
	}
	hash := sha256.Sum256(text)
	if last, ok := a.last.look(id); ok && last.of == hash {
		return last.report, nil
	}
	report := panel.Programme(part.Bundle, 0, part.Index)
	a.last.keep(id, analysed{hash, report})
	return report, nil
}
