package db_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring/line"
)

// TestAuditFindsWhatWasChanged changes one thing at a time, as somebody could who
// owns the database.
func TestAuditFindsWhatWasChanged(t *testing.T) {
	t.Parallel()
	for sql, want := range map[string]string{
		"SELECT":                                                             "",
		"UPDATE journal SET body = body":                                     "",
		"DELETE FROM journal WHERE number = 2":                               "row 2 of the journal is missing",
		"UPDATE journal SET body = '{}' WHERE number = 1":                    "row 1 of the journal is not the one",
		"UPDATE line_record SET body = '{}' WHERE author_device = 'office'":  "is not the one that the journal names",
		"DELETE FROM line_record WHERE author_device = 'office'":             "0 of the 1 records that the journal names",
		"DELETE FROM line_record WHERE author_device = 'import' AND seq = 7": "that were imported are not those",
		"UPDATE publication SET reason = 'x'":                                "reason.txt is not the stated one",
		"UPDATE publication SET results = replace(convert_from(results, 'UTF8'), '\"rank\":1,', '\"rank\":9,')::bytea": "publication 1: results.json is not",
		"UPDATE publication SET statement = replace(statement, 'provisional', 'official')":                             "the journal does not name publication 1",
		"UPDATE line_record SET grade = '9.5' WHERE kind = 'grade' AND item = 1":                                       "counts as something else than was written",
		"UPDATE line_record SET covers = '{}' WHERE kind = 'sign'":                                                     "counts as something else than was written",
		"UPDATE line_record SET attempt = 2 WHERE kind = 'penalty'":                                                    "counts as something else than was written",
		"UPDATE line_record SET author_role = 'judge' WHERE kind = 'grade'":                                            "has another author than the journal says",
		"UPDATE line_record SET author_device = 'import' WHERE author_device = 'office'":                               "has another author than the journal says",
		"UPDATE publication SET state = 'official'":                                                                    "publication 1 is listed as something else than was signed",
		"UPDATE publication SET protest_until = NULL":                                                                  "publication 1 is listed as something else than was signed",
		"UPDATE publication SET number = 3":                                                                            "publication 1 is listed as something else than was signed",
		"DELETE FROM protest_decision; DELETE FROM protest; DELETE FROM publication":                                   "publication 1, which the journal names, is not here",
		"DELETE FROM protest_decision; DELETE FROM protest":                                                            "which the journal names, is not here",
		"DELETE FROM protest_decision":                                                                                 "the decision about protest",
		"UPDATE protest SET text = 'x'":                                                                                "is not the one that the journal names",
		"UPDATE protest_decision SET upheld = true":                                                                    "is not the one that the journal names",
	} {
		t.Run(sql, func(t *testing.T) {
			t.Parallel()
			url := dbtest.URL(t)
			s := newStageOn(t, open(t, url))
			conn := query(t, url)
			if _, err := conn.Exec(t.Context(), "ALTER TABLE journal DISABLE TRIGGER kept; ALTER TABLE line_record DISABLE TRIGGER kept; ALTER TABLE publication DISABLE TRIGGER kept; ALTER TABLE protest DISABLE TRIGGER kept; ALTER TABLE protest_decision DISABLE TRIGGER kept"); err != nil {
				t.Fatal(err)
			}
			if _, err := conn.Exec(t.Context(), sql); err != nil {
				t.Fatal(err)
			}
			said := s.disagreements()
			if want == "" && said != "" || !strings.Contains(said, want) {
				t.Errorf("said %q, want %q", said, want)
			}
		})
	}
}

// newStageOn has a journal of all kinds of rows.
func newStageOn(t *testing.T, d *db.DB) *stage {
	t.Helper()
	contest, err := d.Import(t.Context(), readBundle(t, "../testdata/cases/108.bundle.json"), db.ImportOptions{Opened: db.Published})
	if err != nil {
		t.Fatal(err)
	}
	s := &stage{t: t, db: d, contest: contest}
	s.read()
	flight := s.flight(0, 0)
	s.record(line.Record{Kind: line.KindPenalty, Flight: flight.ID.String(), Penalty: &line.Penalty{Kind: "late", Count: 1, Points: 5}})
	s.publish(s.programme(0), db.Publishing{State: provisional, ProtestTime: time.Hour})
	s.protest(s.part.Pilots[s.part.Bundle.Categories[0].Programmes[0].Flights[0].Pilot])
	return s
}

// protest files a protest and decides it.
func (s *stage) protest(pilot uuid.UUID) {
	s.t.Helper()
	id, _, err := s.db.File(s.t.Context(), s.programme(0).Programme, db.NewProtest{Pilot: pilot, Text: "It was the right figure.", By: "pilot"})
	if err == nil {
		_, err = s.db.Decide(s.t.Context(), id, db.NewDecision{Text: "It was not.", By: "director"})
	}
	if err != nil {
		s.t.Fatal(err)
	}
}

// disagreements is what the audit says does not agree.
func (s *stage) disagreements() string {
	s.t.Helper()
	a, err := s.db.Audit(s.t.Context(), s.contest)
	if err != nil {
		s.t.Fatal(err)
	}
	var said []string
	for _, f := range a.Findings {
		if !f.Agrees {
			said = append(said, f.Text)
		}
	}
	return strings.Join(said, "\n")
}
