package api

import (
	"context"
	"encoding/json"
	"fmt"
	"strconv"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/document"
	"halfpoint/scoring/figure"
)

// registeredOf tells of a sequence all that is known.
func (s *server) registeredOf(ctx context.Context, r *db.Registered, one *db.FlightSequence) (RegisteredSequence, error) {
	held, err := s.rulesOf(ctx, &r.Rules)
	if err != nil {
		return RegisteredSequence{}, err
	}
	state := stateOfSequence(one)
	out := RegisteredSequence{
		Head: headOf(r.Head), Contest: named(r.Contest.ID, r.Contest.Name), Category: named(r.Category.ID, r.Category.Name),
		Programme: sequenceProgramme(r), Flight: state.Flight, Digest: state.Digest, Revision: state.Revision,
		RegisteredAt: state.RegisteredAt, SignedOff: state.SignedOff, ReleasedAt: state.ReleasedAt, Limits: orNone(r.Rules.Limits),
	}
	sequence := written(one.Sequence)
	out.Items, out.Entry = sequence.Items, orNone(sequence.Entry)
	figures, err := figuresOf(sequence, held)
	if err != nil {
		return RegisteredSequence{}, err
	}
	out.Checked = checkedOf(figures, held.table)
	return out, nil
}

// written is a sequence as it was registered, an empty one where none was.
func written(s *db.Sequence) *scoring.Sequence {
	if s == nil {
		return &scoring.Sequence{Items: []scoring.Item{}}
	}
	return &s.Sequence
}

// figuresOf is a stored sequence to be held against rules.
func figuresOf(s *scoring.Sequence, held rules) (figure.Sequence, error) {
	figures, err := s.Figures()
	if err != nil {
		return figure.Sequence{}, fmt.Errorf("a stored sequence: %s", err) //nolint:errorlint // nobody sent these complaints
	}
	figures.Limits = held.limits
	return figures, nil
}

// orNone is nil where there is nothing.
func orNone(text json.RawMessage) *json.RawMessage {
	if text == nil {
		return nil
	}
	return &text
}

func sequenceProgramme(r *db.Registered) SequenceProgramme {
	return SequenceProgramme{ID: r.Programme.ID, Name: r.Programme.Name, Kind: ProgrammeKind(r.Kind)}
}

// stateOfSequence is what became of a sequence.
func stateOfSequence(one *db.FlightSequence) (state SequenceState) {
	if f := one.Flight; f != nil {
		described := f.Description != ""
		state.Flight = &SequenceFlight{ID: f.ID, Number: f.Number, Pilot: named(f.Pilot.ID, f.Pilot.Name)}
		state.Described = &described
	}
	s := one.Sequence
	if s == nil {
		return state
	}
	state.Digest, state.Revision, state.RegisteredAt, state.ReleasedAt = s.Digest, s.Revision, &s.Registered, s.Released
	if s.SignedOff != nil {
		state.SignedOff = &SignedOff{Digest: s.Digest, At: s.SignedOff.At, By: s.SignedOff.By, Reason: s.SignedOff.Reason}
	}
	return state
}

// ListSequences tells what became of each sequence of a programme.
func (s *server) ListSequences(ctx context.Context, request ListSequencesRequestObject) (ListSequencesResponseObject, error) {
	r, err := s.db.Sequences(ctx, request.ProgrammeID)
	if err != nil {
		return nil, err
	}
	held, err := s.rulesOf(ctx, &r.Rules)
	if err != nil {
		return nil, err
	}
	list := SequenceList{
		Head: headOf(r.Head), Contest: named(r.Contest.ID, r.Contest.Name), Category: named(r.Category.ID, r.Category.Name),
		Programme: sequenceProgramme(r), Sequences: make([]SequenceState, len(r.Sequences)),
	}
	for i := range r.Sequences {
		if list.Sequences[i], err = countedState(&r.Sequences[i], held); err != nil {
			return nil, err
		}
	}
	return ListSequences200JSONResponse(list), nil
}

// countedState is what became of a sequence, with how much is found in it.
func countedState(one *db.FlightSequence, held rules) (SequenceState, error) {
	state := stateOfSequence(one)
	if one.Sequence == nil {
		return state, nil
	}
	figures, err := figuresOf(&one.Sequence.Sequence, held)
	if err != nil {
		return state, err
	}
	checked := figure.Check(figures, held.table)
	state.Errors, state.Remarks = count(&checked)
	state.TotalK, state.Figures = points(checked.TotalK), checked.Figures
	return state, nil
}

// checkReason sees to it that errors are accepted for a reason only.
func checkReason(reason string, errors int) error {
	var report document.Report
	if db.NoteBound.Check(&report, "reason", reason); report.Err() != nil {
		return report.Err()
	}
	if errors == 0 || reason != "" {
		return nil
	}
	stand := "1 error stands"
	if errors > 1 {
		stand = strconv.Itoa(errors) + " errors stand"
	}
	return &failure{kind: kindInvalid, complaints: []Complaint{{
		Pointer: "/reason", Message: stand + "; over an error a sequence is signed off only for a reason, which is kept",
	}}}
}
