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
	read, err := rows[struct {
		ID        uuid.UUID
		Programme uuid.UUID
		Pilot     *uuid.UUID
		Digest    string
		Entry     json.RawMessage
		Released  *time.Time
	}](ctx, tx, `
		SELECT
			sequence_id AS id,
			programme_id AS programme,
			pilot_id AS pilot,
			digest,
			entry,
			released_at AS released
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
		key := sequenceKey{programme: r.Programme}
		if r.Pilot != nil {
			key.pilot = *r.Pilot
		}
		whole := scoring.Sequence{Items: items[r.ID], Entry: r.Entry}
		if whole.Items == nil {
			whole.Items = []scoring.Item{}
		}
		all[key] = &Sequence{Sequence: whole, Digest: r.Digest, Released: r.Released}
	}
	return all, nil
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
