package api

import (
	"context"

	"halfpoint/db"
	"halfpoint/scoring"
)

// GetProgramme reads what is set up for a programme.
func (s *server) GetProgramme(ctx context.Context, request GetProgrammeRequestObject) (GetProgrammeResponseObject, error) {
	p, err := s.db.Programme(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	far := reachOf(ctx)
	if err := mayRead(far, Opened(p.Contest.Opened)); err != nil {
		return nil, err
	}
	return GetProgramme200JSONResponse{
		Head: headOf(p.Head), Contest: named(p.Contest.ID, p.Contest.Name), Category: named(p.Category.ID, p.Category.Name),
		Programme: programmeOf(&p.Programme), Options: optionsOf(p.Method), Panel: panelOf(p.Panel),
		Items: itemsOf(released(p.Sequence, far)),
	}, nil
}

// released is what is to be seen of a sequence.
func released(sequence *db.Sequence, far reach) *scoring.Sequence {
	if !isReleased(sequence, far) {
		return written(nil)
	}
	return written(sequence)
}

// isReleased tells whether a sequence is there and may be seen: before it is
// released only the office sees it.
func isReleased(sequence *db.Sequence, far reach) bool {
	return sequence != nil && (sequence.Released != nil || far == everywhere)
}
