package db

import (
	"bytes"
	"context"
	"encoding/json"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// sequenceKey says whose a sequence is: a programme's, or of a pilot in it.
type sequenceKey struct{ programme, pilot uuid.UUID }

// sequences are those of some programmes.
type sequences map[sequenceKey]*Sequence

// of is the sequence that a flight flies, nil where there is none.
func (s sequences) of(f *Flight) *Sequence {
	if own := s[sequenceKey{f.Programme, f.Pilot.ID}]; own != nil {
		return own
	}
	return s[sequenceKey{programme: f.Programme}]
}

// readSequences reads the sequences of programmes with their items.
func readSequences(ctx context.Context, tx pgx.Tx, contest uuid.UUID, programmes []uuid.UUID) (sequences, error) {
	read, err := rows[sequenceRow](ctx, tx, `
		SELECT
			sequence_id AS id,
			programme_id AS programme,
			pilot_id AS pilot,
			digest,
			entry,
			revision,
			registered_at,
			released_at,
			signed_off_at,
			coalesce(signed_off_by, '') AS signed_off_by,
			coalesce(signed_off_reason, '') AS signed_off_reason
		FROM sequence
		WHERE contest_id = @contest
			AND programme_id = ANY (@programmes)`,
		pgx.StrictNamedArgs{"contest": contest, "programmes": programmes})
	if err != nil {
		return nil, err
	}
	items, err := readItems(ctx, tx, contest, programmes)
	if err != nil {
		return nil, err
	}
	all := sequences{}
	for _, r := range read {
		all[sequenceKey{r.Programme, orNone(r.Pilot)}] = r.sequence(items[r.ID])
	}
	return all, nil
}

// sequenceRow is a sequence as the database has it.
type sequenceRow struct {
	ID              uuid.UUID
	Programme       uuid.UUID
	Pilot           *uuid.UUID
	Digest          string
	Entry           json.RawMessage
	Revision        int
	RegisteredAt    time.Time
	ReleasedAt      *time.Time
	SignedOffAt     *time.Time
	SignedOffBy     string
	SignedOffReason string
}

func (r *sequenceRow) sequence(items []scoring.Item) *Sequence {
	if items == nil {
		items = []scoring.Item{}
	}
	s := &Sequence{
		id: r.ID, Sequence: scoring.Sequence{Items: items, Entry: r.Entry}, Digest: r.Digest,
		Revision: r.Revision, Registered: r.RegisteredAt, Released: r.ReleasedAt,
	}
	if r.SignedOffAt != nil {
		s.SignedOff = &SignOff{At: *r.SignedOffAt, By: r.SignedOffBy, Reason: r.SignedOffReason}
	}
	return s
}

// readItems reads the items of the sequences of programmes.
func readItems(ctx context.Context, tx pgx.Tx, contest uuid.UUID, programmes []uuid.UUID) (map[uuid.UUID][]scoring.Item, error) {
	read, err := rows[struct {
		Sequence uuid.UUID
		scoring.Item
	}](ctx, tx, `
		SELECT
			i.sequence_id AS sequence,
			i.kind,
			i.k,
			i.elements,
			i.class,
			i.name,
			i.element_k,
			i.words,
			i.entry,
			i.moves
		FROM sequence_item i
		JOIN sequence s USING (contest_id, sequence_id)
		WHERE i.contest_id = @contest
			AND s.programme_id = ANY (@programmes)
		ORDER BY i.sequence_id, i.number`,
		pgx.StrictNamedArgs{"contest": contest, "programmes": programmes})
	items := map[uuid.UUID][]scoring.Item{}
	for _, r := range read {
		items[r.Sequence] = append(items[r.Sequence], r.Item)
	}
	return items, err
}

func newItemTable() table {
	return table{name: "sequence_item", columns: []string{
		"contest_id", "sequence_id", "number", "kind", "k", "elements", "class", "name", "element_k", "words", "entry", "moves",
	}}
}

// addItems adds the items of a sequence.
func (t *table) addItems(contest, sequence uuid.UUID, s *scoring.Sequence) {
	for n, item := range s.Items {
		t.add(contest, sequence, n+1, item.Kind, int(item.K), item.Elements, item.Class, item.Name,
			item.ElementK, item.Words, item.Entry, item.Moves)
	}
}

// sequenceDigest names what is flown. Moves are the same however they are
// spaced.
func sequenceDigest(s *scoring.Sequence) string {
	items := make([]line.SequenceItem, len(s.Items))
	for i, item := range s.Items {
		var moves bytes.Buffer
		if item.Moves != nil && json.Compact(&moves, item.Moves) != nil {
			moves.Write(item.Moves) // was read as JSON, and is taken as it is where not
		}
		items[i] = line.SequenceItem{Kind: item.Kind, K: item.K.String(), Name: item.Name, Elements: item.Elements, Moves: moves.String()}
	}
	return line.SequenceDigest(items)
}
