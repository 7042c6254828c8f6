package api

import (
	"context"
	"strings"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/document"
	"halfpoint/scoring/figure"
)

// GetProgrammeSequence reads the sequence that all pilots of a programme fly.
func (s *server) GetProgrammeSequence(ctx context.Context, request GetProgrammeSequenceRequestObject) (GetProgrammeSequenceResponseObject, error) {
	r, err := s.registered(ctx, db.SequencePlace{Programme: request.ProgrammeID})
	return GetProgrammeSequence200JSONResponse(r), err
}

// GetFlightSequence reads the sequence that a flight flies.
func (s *server) GetFlightSequence(ctx context.Context, request GetFlightSequenceRequestObject) (GetFlightSequenceResponseObject, error) {
	r, err := s.registered(ctx, db.SequencePlace{Flight: request.FlightID})
	return GetFlightSequence200JSONResponse(r), err
}

// PutProgrammeSequence registers a common sequence.
func (s *server) PutProgrammeSequence(ctx context.Context, request PutProgrammeSequenceRequestObject) (PutProgrammeSequenceResponseObject, error) {
	r, err := s.register(ctx, db.SequencePlace{Programme: request.ProgrammeID}, *request.Body)
	return PutProgrammeSequence200JSONResponse(r), err
}

// PutFlightSequence registers a flight's own sequence.
func (s *server) PutFlightSequence(ctx context.Context, request PutFlightSequenceRequestObject) (PutFlightSequenceResponseObject, error) {
	r, err := s.register(ctx, db.SequencePlace{Flight: request.FlightID}, *request.Body)
	return PutFlightSequence200JSONResponse(r), err
}

// SignOffProgrammeSequence accepts a common sequence.
func (s *server) SignOffProgrammeSequence(ctx context.Context, request SignOffProgrammeSequenceRequestObject) (SignOffProgrammeSequenceResponseObject, error) {
	r, err := s.signOff(ctx, db.SequencePlace{Programme: request.ProgrammeID}, request.Body)
	return SignOffProgrammeSequence200JSONResponse(r), err
}

// SignOffFlightSequence accepts a flight's own sequence.
func (s *server) SignOffFlightSequence(ctx context.Context, request SignOffFlightSequenceRequestObject) (SignOffFlightSequenceResponseObject, error) {
	r, err := s.signOff(ctx, db.SequencePlace{Flight: request.FlightID}, request.Body)
	return SignOffFlightSequence200JSONResponse(r), err
}

// ReleaseProgrammeSequence lets everyone see an unknown sequence.
func (s *server) ReleaseProgrammeSequence(ctx context.Context, request ReleaseProgrammeSequenceRequestObject) (ReleaseProgrammeSequenceResponseObject, error) {
	place := db.SequencePlace{Programme: request.ProgrammeID}
	r, err := s.db.Sequence(ctx, place)
	if err != nil {
		return nil, err
	}
	if r.Kind != scoring.Unknown {
		return nil, fail(kindConflict, "only an unknown sequence is released; any other may be seen as soon as it is registered")
	}
	if err := s.db.ReleaseSequence(ctx, r.Contest.ID, request.ProgrammeID, seen(request.Body.Digest, request.Body.Revision), whoOf(ctx).name()); err != nil {
		return nil, err
	}
	released, err := s.registered(ctx, place)
	return ReleaseProgrammeSequence200JSONResponse(released), err
}

// registered reads a sequence as far as the request may see it, checked.
func (s *server) registered(ctx context.Context, place db.SequencePlace) (RegisteredSequence, error) {
	r, err := s.db.Sequence(ctx, place)
	if err != nil {
		return RegisteredSequence{}, err
	}
	far := reachOf(ctx)
	if err := mayRead(far, Opened(r.Contest.Opened)); err != nil {
		return RegisteredSequence{}, err
	}
	if isWithheld(r) && far != everywhere {
		return RegisteredSequence{}, db.ErrNotFound
	}
	return s.registeredOf(ctx, r, &r.Sequences[0])
}

// isWithheld tells whether the one sequence that was read is an unknown one
// that only the office may see.
func isWithheld(r *db.Registered) bool {
	sequence := r.Sequences[0].Sequence
	return r.Kind == scoring.Unknown && (sequence == nil || sequence.Released == nil)
}

// register puts a sequence into a place and reads it back.
func (s *server) register(ctx context.Context, place db.SequencePlace, text []byte) (RegisteredSequence, error) {
	r, held, err := s.toChange(ctx, place)
	if err != nil {
		return RegisteredSequence{}, err
	}
	if err := s.mayChange(ctx, place); err != nil {
		return RegisteredSequence{}, err
	}
	change, err := readChange(text, held.table)
	if err != nil {
		return RegisteredSequence{}, err
	}
	if err := s.db.RegisterSequence(ctx, r.Contest.ID, place, change.seen, change.sequence, whoOf(ctx).name()); err != nil {
		return RegisteredSequence{}, err
	}
	return s.registered(ctx, place)
}

// mayChange lets a pilot change the own sequence until the flight is called:
// grades are for it from then on, and only the office may change it.
func (s *server) mayChange(ctx context.Context, place db.SequencePlace) error {
	if reachOf(ctx) == everywhere {
		return nil
	}
	sheets, err := s.db.Sheets(ctx, place.Flight)
	if err != nil {
		return err
	}
	if sheets.State.Status != "" {
		return fail(kindConflict, "the flight has been called; the office changes its sequence now")
	}
	return nil
}

// toChange reads what is registered in a place that has a sequence of its own.
func (s *server) toChange(ctx context.Context, place db.SequencePlace) (*db.Registered, rules, error) {
	r, err := s.db.Sequence(ctx, place)
	if err != nil {
		return nil, rules{}, err
	}
	if r.Sequences[0].Flight != nil && !r.Own {
		return nil, rules{}, fail(kindConflict, "all flights of a "+r.Kind+" programme fly the programme's sequence")
	}
	held, err := s.rulesOf(ctx, &r.Rules)
	return r, held, err
}

// sequenceChange is what the office sends.
type sequenceChange struct {
	sequence *scoring.Sequence
	seen     db.Seen
}

func readChange(text []byte, table figure.Table) (c sequenceChange, err error) {
	var report document.Report
	v, ok := document.Parse(text, &report)
	if !ok {
		return c, report.Err()
	}
	c.sequence = scoring.ReadSequence(v, table, "replaces", "revision")
	if c.sequence == nil {
		return c, report.Err()
	}
	o, _ := v.AnyObject()
	if digest, there := o.Required("replaces"); there {
		c.seen.Digest, _ = digest.Text()
	}
	if revision, there := o.Optional("revision"); there {
		c.seen.Revision, _ = revision.Integer(0, maxRevision)
	}
	return c, report.Err()
}

// maxRevision is far above how often anything is registered.
const maxRevision = 1_000_000

// seen says which sequence the office has seen.
func seen(digest string, revision *int) db.Seen {
	return db.Seen{Digest: digest, Revision: or(revision)}
}

// signOff accepts a sequence: over remarks as it is, over errors for a reason.
func (s *server) signOff(ctx context.Context, place db.SequencePlace, asked *SequenceSignOff) (RegisteredSequence, error) {
	r, held, err := s.toChange(ctx, place)
	if err != nil {
		return RegisteredSequence{}, err
	}
	present := r.Sequences[0].Sequence
	if present == nil || present.Digest != asked.Digest {
		return RegisteredSequence{}, &db.SequenceChangedError{Present: present}
	}
	state, err := countedState(&r.Sequences[0], held)
	if err != nil {
		return RegisteredSequence{}, err
	}
	reason := strings.TrimSpace(or(asked.Reason))
	if err := checkReason(reason, state.Errors); err != nil {
		return RegisteredSequence{}, err
	}
	found := db.Found{Errors: state.Errors, Remarks: state.Remarks}
	if err := s.db.SignOffSequence(ctx, r.Contest.ID, place, seen(asked.Digest, asked.Revision), found, reason, whoOf(ctx).name()); err != nil {
		return RegisteredSequence{}, err
	}
	return s.registered(ctx, place)
}
