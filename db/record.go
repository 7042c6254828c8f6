package db

import (
	"context"
	"fmt"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgtype"

	"halfpoint/scoring/line"
)

// readRecords reads the records of flights: all, or those of some kinds. A
// contest has tens of thousands, so they are scanned by hand.
func readRecords(ctx context.Context, tx pgx.Tx, contest uuid.UUID, flights []uuid.UUID, kinds ...string) ([]line.Stored, error) {
	sql := readingRecords + " AND flight_id = ANY (@flights)"
	args := pgx.StrictNamedArgs{"contest": contest, "flights": flights}
	if len(kinds) > 0 {
		sql += " AND kind = ANY (@kinds)"
		args["kinds"] = kinds
	}
	return queryRecords(ctx, tx, sql, args)
}

// readAllRecords reads the records of a contest, those of unknown flights too.
func readAllRecords(ctx context.Context, tx pgx.Tx, contest uuid.UUID) ([]line.Stored, error) {
	return queryRecords(ctx, tx, readingRecords, pgx.StrictNamedArgs{"contest": contest})
}

// readingRecords reads what a [recordReader] scans.
const readingRecords = `
		SELECT
			record_id,
			kind,
			flight_id,
			attempt,
			judge_id,
			by_id,
			coalesce(item, 0),
			grade,
			remark,
			sequence,
			replaces,
			adopts,
			covers,
			after,
			digest,
			ruling,
			penalty_kind,
			penalty_count,
			penalty_points,
			absent,
			status,
			wind,
			reason,
			entered_at,
			author_role,
			author_seat,
			author_device,
			author_withdrawn,
			seq
		FROM line_record
		WHERE contest_id = @contest`

func queryRecords(ctx context.Context, tx pgx.Tx, sql string, args pgx.StrictNamedArgs) ([]line.Stored, error) {
	found, err := tx.Query(ctx, sql, args)
	if err != nil {
		return nil, fmt.Errorf("reading records: %w", err)
	}
	records, err := scanRecords(found)
	if err != nil {
		return nil, fmt.Errorf("reading records: %w", err)
	}
	return records, nil
}

func scanRecords(found pgx.Rows) ([]line.Stored, error) {
	defer found.Close()
	// Records are large: one list that grows would copy each several times.
	var full [][]line.Stored
	last := make([]line.Stored, 0, chunk)
	for reader := newRecordReader(); found.Next(); {
		if len(last) == chunk {
			full, last = append(full, last), make([]line.Stored, 0, chunk)
		}
		record, err := reader.read(found)
		if err != nil {
			return nil, err
		}
		last = append(last, record)
	}
	return slices.Concat(append(full, last)...), found.Err()
}

// chunk is about as many records as a flight has.
const chunk = 256

// A recordReader holds what one row is scanned into, and each text that comes
// again and again, once.
type recordReader struct {
	known map[pgtype.UUID]string
	words map[string]string

	id, flight, judge, by, seat     pgtype.UUID
	replaces, adopts, covers, after pgtype.FlatArray[pgtype.UUID]
	penalty                         line.Penalty
	into                            []any
	record                          line.Stored
	kind, grade, sequence           pgtype.PreallocBytes
	role, device                    pgtype.PreallocBytes
}

func newRecordReader() *recordReader {
	r := &recordReader{known: map[pgtype.UUID]string{}, words: map[string]string{}}
	s := &r.record
	r.into = []any{
		&r.id, &r.kind, &r.flight, &s.Attempt, &r.judge, &r.by, &s.Item, &r.grade, &s.Remark, &r.sequence,
		&r.replaces, &r.adopts, &r.covers, &r.after, &s.Digest, &s.Ruling,
		&r.penalty.Kind, &r.penalty.Count, &r.penalty.Points, &s.Absent, &s.Status, &s.Wind, &s.Reason, &s.EnteredAt,
		&r.role, &r.seat, &r.device, &s.Author.Withdrawn, &s.Seq,
	}
	return r
}

func (r *recordReader) read(row pgx.Row) (line.Stored, error) {
	r.record.Absent = nil // or the one before would share its value
	if err := row.Scan(r.into...); err != nil {
		return line.Stored{}, err
	}
	s := r.record
	s.ID, s.Kind = uuid.UUID(r.id.Bytes).String(), line.Kind(r.word(r.kind))
	s.Flight, s.Judge, s.By, s.Author.Seat = r.text(r.flight), r.text(r.judge), r.text(r.by), r.text(r.seat)
	s.Grade, s.Sequence = r.word(r.grade), r.word(r.sequence)
	s.Author.Role, s.Author.Device = r.word(r.role), r.word(r.device)
	s.Replaces, s.Adopts, s.Covers, s.After = r.texts(r.replaces), r.texts(r.adopts), r.texts(r.covers), r.texts(r.after)
	if s.Kind == line.KindPenalty {
		penalty := r.penalty
		s.Penalty = &penalty
	}
	return s, nil
}

// text is an id as records write it, empty for none.
func (r *recordReader) text(id pgtype.UUID) string {
	if !id.Valid {
		return ""
	}
	text, ok := r.known[id]
	if !ok {
		text = uuid.UUID(id.Bytes).String()
		r.known[id] = text
	}
	return text
}

func (r *recordReader) texts(ids []pgtype.UUID) []string {
	if len(ids) == 0 {
		return nil
	}
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = uuid.UUID(id.Bytes).String()
	}
	return list
}

// word is one of a few texts.
func (r *recordReader) word(text []byte) string {
	word, ok := r.words[string(text)]
	if !ok {
		word = string(text)
		r.words[word] = word
	}
	return word
}
