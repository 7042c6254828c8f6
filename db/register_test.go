package db_test

import (
	"encoding/json"
	"errors"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// acts are what the journal of a contest says was done, after the import, with
// the details as they stand there.
func acts(t *testing.T, d *db.DB, contest uuid.UUID) (list []act) {
	t.Helper()
	head, journal, err := d.Journal(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.CheckJournal(head, journal); err != nil {
		t.Error(err)
	}
	for _, row := range journal[1:] {
		var a act
		if err := json.Unmarshal(row.Body, &a); err != nil {
			t.Fatal(err)
		}
		list = append(list, a)
	}
	return list
}

type act struct {
	What, By string
	Details  struct {
		Programme, Flight, Category uuid.UUID
		Digest, Replaces, Reason    string
		Revision                    int
		Found                       db.Found
		Sequence                    *scoring.Sequence
		Limits                      json.RawMessage
		Numbers                     int
	}
}

// TestChangedSequenceSetsGradesApart: what was graded for the sequence before
// counts nothing and blocks, until the sequence is the one that was graded
// again; the contest can be exported all the while.
func TestChangedSequenceSetsGradesApart(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 0)
	before := b.sheets.Sequence
	place := db.SequencePlace{Programme: b.sheets.Programme.ID}
	other := scoring.Sequence{Items: before.Items[:1], Entry: before.Entry}
	if err := b.d.RegisterSequence(t.Context(), b.contest, place, db.Seen{Digest: before.Digest}, &other, "office"); err != nil {
		t.Fatal(err)
	}
	b.look(b.sheets.Flight.ID)
	apart := 0
	for _, r := range b.sheets.Records {
		if r.Standing.Standing == line.OtherSequence {
			apart++
		}
	}
	if apart == 0 || len(b.sheets.State.Blocks) == 0 || len(b.sheets.Sequence.Items) != 1 {
		t.Errorf("%d records set apart, blocked by %v", apart, b.sheets.State.Blocks)
	}
	exported, err := b.d.Export(t.Context(), b.contest)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := scoring.DecodeBundle(encoded(t, exported)); err != nil {
		t.Errorf("what is exported is refused: %v", err)
	}
	seen := db.Seen{Digest: b.sheets.Sequence.Digest, Revision: 2}
	if err := b.d.RegisterSequence(t.Context(), b.contest, place, seen, &before.Sequence, "office"); err != nil {
		t.Fatal(err)
	}
	b.look(b.sheets.Flight.ID)
	if len(b.sheets.State.Blocks) > 0 || b.sheets.Sequence.Digest != before.Digest || b.sheets.Sequence.Revision != 3 {
		t.Errorf("back again: blocked by %v", b.sheets.State.Blocks)
	}
}

// TestJournalKeepsWhatBecameOfASequence: every sequence that was ever
// registered can be read there, every sign-off with its reason, the release.
func TestJournalKeepsWhatBecameOfASequence(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := imported(t, d, everything)
	part := partOf(t, d, contest)
	category := part.Categories[0]
	programme, flight := category.Programmes[2].ID, category.Programmes[1].Flights[0].ID
	first := &scoring.Sequence{Items: []scoring.Item{{Kind: scoring.Figure, K: 100, Elements: []string{"1.1.1.1"}, Moves: json.RawMessage(`[{"arc": 360}]`)}}}
	second := &scoring.Sequence{Items: append(first.Items, scoring.Item{Kind: scoring.Overall, K: 55, Name: "Positioning"})}

	unknown, free := db.SequencePlace{Programme: programme}, db.SequencePlace{Flight: flight}
	was := digestOf(t, d, unknown)
	does(t,
		d.RegisterSequence(t.Context(), contest, unknown, db.Seen{Digest: was}, first, "office"),
		d.RegisterSequence(t.Context(), contest, free, db.Seen{Digest: digestOf(t, d, free)}, second, "office"),
		d.SignOffSequence(t.Context(), contest, free, db.Seen{Digest: digestOf(t, d, free)}, db.Found{Errors: 2}, "flown so", "office"),
		d.ReleaseSequence(t.Context(), contest, programme, db.Seen{Digest: digestOf(t, d, unknown)}, "office"),
		d.SetLimits(t.Context(), contest, category.ID, json.RawMessage(`{"max_k": 10}`), "", "office"),
		d.SetNumbers(t.Context(), contest, []byte("1.1.1.1,2\n"), 1, "office"),
	)
	got := acts(t, d, contest)
	if len(got) != 6 {
		t.Fatalf("%d acts: %+v", len(got), got)
	}
	for i, want := range []string{"sequence-registered", "sequence-registered", "sequence-signed-off", "sequence-released", "limits", "numbers"} {
		if got[i].What != want || got[i].By != "office" {
			t.Errorf("act %d is %s by %s, want %s", i+1, got[i].What, got[i].By, want)
		}
	}
	if a := got[0].Details; a.Programme != programme || a.Flight != uuid.Nil || a.Replaces != was || len(a.Sequence.Items) != 1 || string(a.Sequence.Items[0].Moves) != `[{"arc":360}]` {
		t.Errorf("%+v", a)
	}
	if a := got[1].Details; a.Flight != flight || a.Sequence.Items[1].K != 55 || a.Digest != digestOf(t, d, free) || a.Revision < 1 {
		t.Errorf("%+v", a)
	}
	if a := got[2].Details; a.Flight != flight || a.Reason != "flown so" || a.Found.Errors != 2 {
		t.Errorf("%+v", a)
	}
	if a := got[3].Details; a.Programme != programme || a.Digest != digestOf(t, d, unknown) {
		t.Errorf("%+v", a)
	}
	if a := got[4].Details; a.Category != category.ID || string(a.Limits) != `{"max_k":10}` || got[5].Details.Numbers != 1 {
		t.Errorf("%+v, %+v", a, got[5].Details)
	}
}

func does(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

func digestOf(t *testing.T, d *db.DB, place db.SequencePlace) string {
	t.Helper()
	r, err := d.Sequence(t.Context(), place)
	if err != nil {
		t.Fatal(err)
	}
	if s := r.Sequences[0].Sequence; s != nil {
		return s.Digest
	}
	return ""
}

// TestSequencesStayInTheirContest: what is done in the name of one contest
// reaches no other one.
func TestSequencesStayInTheirContest(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 0)
	other := imported(t, b.d, everything)
	part := partOf(t, b.d, b.contest)
	place, seen := db.SequencePlace{Programme: b.sheets.Programme.ID}, db.Seen{Digest: b.sheets.Sequence.Digest}
	for name, err := range map[string]error{
		"register": b.d.RegisterSequence(t.Context(), other, place, seen, &scoring.Sequence{}, ""),
		"sign off": b.d.SignOffSequence(t.Context(), other, place, seen, db.Found{}, "", ""),
		"release":  b.d.ReleaseSequence(t.Context(), other, place.Programme, seen, ""),
		"limits":   b.d.SetLimits(t.Context(), other, part.Categories[0].ID, nil, "", ""),
		"numbers":  b.d.SetNumbers(t.Context(), uuid.New(), nil, 0, ""),
	} {
		if !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
