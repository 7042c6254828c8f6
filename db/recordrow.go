package db

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/google/uuid"
	"golang.org/x/text/unicode/norm"

	"halfpoint/scoring/line"
)

// recordColumns are those that recordRow fills, in its order.
var recordColumns = []string{
	"contest_id", "record_id", "body", "kind", "flight_id", "attempt", "judge_id", "by_id", "item",
	"grade", "remark", "sequence", "replaces", "adopts", "covers", "after", "digest",
	"ruling", "penalty_kind", "penalty_count", "penalty_points", "absent", "status", "wind", "reason", "entered_at",
	"author_role", "author_seat", "author_device", "author_withdrawn", "store", "seq",
}

// Places among them: of the id, and of the bytes.
const (
	idColumn   = 1
	bodyColumn = 2
)

// insertRecord adds a record, and fails where its id is there.
var insertRecord = insertWith("$30")

// insertDelivered adds a record that a device sends for itself: one parameter more
// is the device, null for none. Whether it is withdrawn is found as it is stored.
var insertDelivered = insertWith(`($30 OR EXISTS (SELECT FROM device WHERE contest_id = $1 AND device_id = $33 AND withdrawn_at IS NOT NULL))`)

// insertMissing adds such a record, or does nothing where its id is there.
var insertMissing = insertDelivered + " ON CONFLICT DO NOTHING"

// insertWith writes the statement with what becomes of author_withdrawn.
func insertWith(withdrawn string) string {
	places := make([]string, len(recordColumns))
	for i, column := range recordColumns {
		places[i] = fmt.Sprintf("$%d", i+1)
		if column == "author_withdrawn" {
			places[i] = withdrawn
		}
	}
	return "INSERT INTO line_record (" + strings.Join(recordColumns, ", ") + ") VALUES (" + strings.Join(places, ", ") + ")"
}

// recordRow is a record as the table has it.
func recordRow(contest, store uuid.UUID, author line.Author, received *Received) ([]any, error) {
	body := received.Body
	if body == nil {
		var err error
		if body, err = json.Marshal(&received.Record); err != nil {
			return nil, fmt.Errorf("writing record %s: %w", received.ID, err)
		}
	}
	r, ids := used(received.Record), &idReader{}
	row := []any{
		[16]byte(contest), ids.id(r.ID), body, string(r.Kind), ids.id(r.Flight), max(r.Attempt, 1), ids.orNull(r.Judge), ids.orNull(r.By), zeroIsNull(r.Item),
		r.Grade, r.Remark, r.Sequence, ids.list(r.Replaces), ids.list(r.Adopts), ids.list(r.Covers), ids.list(r.After), r.Digest,
		r.Ruling, r.Penalty.Kind, r.Penalty.Count, r.Penalty.Points, r.Absent, r.Status, r.Wind, r.Reason, r.EnteredAt,
		author.Role, ids.orNull(author.Seat), author.Device, author.Withdrawn, [16]byte(store), r.Seq,
	}
	if ids.err != nil {
		return nil, fmt.Errorf("record %q: %w", r.ID, ids.err)
	}
	return row, nil
}

// used is a record with what its kind does not use left out: it was not looked
// at when the record was checked, and only its bytes keep it. The remark is brought
// into the form NFC, in which a sheet is signed.
func used(r line.Record) line.Record {
	u := line.Record{
		Seq: r.Seq, ID: r.ID, Kind: r.Kind, Flight: r.Flight, Attempt: r.Attempt, By: r.By, Remark: norm.NFC.String(r.Remark), Sequence: r.Sequence,
		Replaces: r.Replaces, Adopts: r.Adopts, Covers: r.Covers, After: r.After, Reason: r.Reason, EnteredAt: r.EnteredAt,
		Penalty: &line.Penalty{},
	}
	switch r.Kind {
	case line.KindGrade:
		u.Judge, u.Item, u.Grade = r.Judge, r.Item, r.Grade
	case line.KindSign:
		u.Judge, u.Digest = r.Judge, r.Digest
	case line.KindReopen:
		u.Judge = r.Judge
	case line.KindAbsent:
		u.Judge, u.Absent = r.Judge, r.Absent
	case line.KindRuling:
		u.Item, u.Ruling, u.Grade = r.Item, r.Ruling, r.Grade
	case line.KindPenalty:
		u.Penalty = r.Penalty
	case line.KindStatus:
		u.Status, u.Wind = r.Status, r.Wind
	}
	return u
}

func zeroIsNull(n int) any {
	if n == 0 {
		return nil
	}
	return n
}

// idReader reads ids as records write them, and keeps the first error.
type idReader struct{ err error }

func (r *idReader) id(text string) [16]byte {
	id, err := uuid.Parse(text)
	if err != nil && r.err == nil {
		r.err = err
	}
	return id
}

func (r *idReader) orNull(text string) any {
	if text == "" {
		return nil
	}
	return r.id(text)
}

func (r *idReader) list(texts []string) [][16]byte {
	ids := make([][16]byte, len(texts))
	for i, text := range texts {
		ids[i] = r.id(text)
	}
	return ids
}
