package db_test

import (
	"bytes"
	"crypto/ed25519"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
	"halfpoint/scoring/publication"
)

// signer signs with a key that only these tests have.
var signer = db.Signer{Key: ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize)), Program: "halfpoint test"}

const (
	provisional = publication.Provisional
	official    = publication.Official
)

// stage is a contest in which something is published.
type stage struct {
	t       testing.TB
	db      *db.DB
	contest uuid.UUID
	part    *db.Part
}

// newStage imports an invented contest, after a change of it.
func newStage(t testing.TB, name string, change func(b *scoring.Bundle)) *stage {
	t.Helper()
	d, b := dbtest.New(t), readBundle(t, "../testdata/cases/"+name+".bundle.json")
	if change != nil {
		change(b)
	}
	contest, err := d.Import(t.Context(), b, db.ImportOptions{Opened: db.Published})
	if err != nil {
		t.Fatal(err)
	}
	s := &stage{t: t, db: d, contest: contest}
	s.read()
	return s
}

func (s *stage) read() {
	s.t.Helper()
	var err error
	if s.part, err = s.db.ContestBundle(s.t.Context(), s.contest); err != nil {
		s.t.Fatal(err)
	}
}

func (s *stage) programme(i int) db.Scope {
	return db.Scope{Programme: s.part.Categories[0].Programmes[i].ID}
}

func (s *stage) category() db.Scope { return db.Scope{Category: s.part.Categories[0].ID} }

func (s *stage) publish(of db.Scope, wish db.Publishing) *db.StoredPublication {
	s.t.Helper()
	id, fresh, err := s.db.Publish(s.t.Context(), of, wish, signer)
	if err != nil || !fresh {
		s.t.Fatalf("publishing: %v, fresh %v", err, fresh)
	}
	p, err := s.db.Publication(s.t.Context(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	if r := p.Check(publication.Fingerprint(signer.Key.Public().(ed25519.PublicKey))); !r.Agrees() {
		s.t.Errorf("publication %d: %+v", p.Info.Number, r.Findings)
	}
	return p
}

// refused returns what is said against a wish.
func (s *stage) refused(of db.Scope, wish db.Publishing) string {
	s.t.Helper()
	_, _, err := s.db.Publish(s.t.Context(), of, wish, signer)
	if _, ok := errors.AsType[db.Refusals](err); !ok {
		s.t.Fatalf("%v, want refusals", err)
	}
	return err.Error()
}

// record stores what an official does on the line.
func (s *stage) record(r line.Record) {
	s.t.Helper()
	r.Seq, r.ID = 1, newUUID()
	receipt, err := s.db.StoreRecords(s.t.Context(), s.contest, db.Delivery{
		Store: uuid.New(), Author: line.Author{Role: line.RoleOffice, Device: "office"}, Records: []db.Received{{Record: r}},
	})
	if err != nil || receipt.Answers[0].Result != db.ResultStored {
		s.t.Fatalf("%+v, %v", receipt, err)
	}
	s.read()
}

func newUUID() string { return uuid.Must(uuid.NewV7()).String() }

func (s *stage) flight(programme, i int) *db.FlightPart {
	return &s.part.Categories[0].Programmes[programme].Flights[i]
}

func in(d time.Duration) *time.Time {
	t := time.Now().Add(d)
	return &t
}

func TestPublishedResultsAreThoseOfTheBundle(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	p := s.publish(s.programme(0), db.Publishing{State: provisional, ProtestTime: time.Hour})
	want := scoring.ScoreProgramme(&s.part.Bundle.Categories[0], 0)
	parsed, err := p.Parse()
	if err != nil {
		t.Fatal(err)
	}
	_, got := parsed.Programme()
	for i, f := range got.Flights {
		if w := want.Flights[i]; f.Placing != nil && (f.Score != w.Score || *f.Rank != *w.Rank) {
			t.Errorf("%s: %v, want %v", f.Pilot, f.Placing, w.Placing)
		}
	}
	if until := p.Info.ProtestUntil; until == nil || !until.Equal(p.Info.PublishedAt.Add(time.Hour)) {
		t.Errorf("published at %v, to be protested until %v", p.Info.PublishedAt, until)
	}
	statement, err := publication.Read(string(p.Statement))
	if err != nil || statement.Number != 1 || statement.Preceding != (publication.Hash{}) || statement.JournalNumber != 1 {
		t.Errorf("%+v, %v", statement, err)
	}
}

// Publishing the same again, as a double click does, publishes nothing.
func TestTheSameIsPublishedOnce(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	wish := db.Publishing{State: provisional, ProtestTime: time.Hour}
	type answer struct {
		id    uuid.UUID
		fresh bool
		err   error
	}
	answers, fresh := make(chan answer), 0
	for range 4 {
		go func() {
			id, fresh, err := s.db.Publish(t.Context(), s.programme(0), wish, signer)
			answers <- answer{id, fresh, err}
		}()
	}
	first := uuid.Nil
	for range 4 {
		a := <-answers
		if a.err != nil || first != uuid.Nil && a.id != first {
			t.Errorf("%v, %v", a.id, a.err)
		}
		if first = a.id; a.fresh {
			fresh++
		}
	}
	if fresh != 1 {
		t.Errorf("published %d times", fresh)
	}
	again := s.publish(s.programme(0), db.Publishing{State: provisional, ProtestTime: 2 * time.Hour})
	if again.Info.Supersedes == nil || *again.Info.Supersedes != first || again.Info.Number != 2 {
		t.Errorf("%+v does not supersede %v", again.Info, first)
	}
	statement, err := publication.Read(string(again.Statement))
	before, beforeErr := s.db.Publication(t.Context(), first)
	if err = errors.Join(err, beforeErr); err != nil || statement.Preceding != publication.HashOf(before.Statement) {
		t.Errorf("%+v is not chained to the one before, %v", statement, err)
	}
}

// What is not closed or not released stays out of what is published.
func TestOnlyClosedFlightsArePublished(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	open := s.flight(0, 0)
	s.record(line.Record{Kind: line.KindStatus, Flight: open.ID.String(), Status: line.StatusLanded, Replaces: open.State.StatusHeads})
	p := s.publish(s.programme(0), db.Publishing{State: provisional})
	parsed, err := p.Parse()
	if err != nil {
		t.Fatal(err)
	}
	programme, _ := parsed.Programme()
	if f := programme.Flights[0]; f.Status != scoring.Scheduled || len(f.Sheets)+len(f.Rulings)+len(f.Penalties) > 0 {
		t.Errorf("a flight that is not closed is published as %+v", f)
	}
	if category, _ := parsed.Category(); len(category.Programmes) != 1 {
		t.Errorf("%d programmes are published", len(category.Programmes))
	}
}

func TestOfficialIsRefused(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	of, wish := s.programme(0), db.Publishing{State: official}
	if said := s.refused(of, wish); !strings.Contains(said, "nothing provisional") {
		t.Error(said)
	}
	s.publish(of, db.Publishing{State: provisional, ProtestTime: time.Hour})
	if said := s.refused(of, wish); !strings.Contains(said, "time for protests runs") {
		t.Error(said)
	}
	open := s.flight(0, 0)
	s.record(line.Record{Kind: line.KindStatus, Flight: open.ID.String(), Status: line.StatusLanded, Replaces: open.State.StatusHeads})
	s.record(line.Record{Kind: line.KindStatus, Flight: newUUID(), Status: line.StatusLanded})
	said := s.refused(of, wish)
	for _, want := range []string{"flight 1 (", "is not closed", "1 records are of flights that are not in the contest"} {
		if !strings.Contains(said, want) {
			t.Errorf("%s\ndoes not say %s", said, want)
		}
	}
	wish.Reason = "The weather ends the contest."
	p := s.publish(of, wish)
	if p.Info.State != official || p.Reason != wish.Reason {
		t.Errorf("%+v", p.Info)
	}
	if said := s.refused(of, db.Publishing{State: provisional}); !strings.Contains(said, "official already") {
		t.Error(said)
	}
}

// A category's standing is over the programmes as they were published, and
// names their statements.
func TestCategoryIsMadeOfItsProgrammes(t *testing.T) {
	t.Parallel()
	s := newStage(t, "101", nil)
	if said := s.refused(s.category(), db.Publishing{State: provisional, Reason: "Anyway."}); !strings.Contains(said, "no programme") {
		t.Error(said)
	}
	var hashes []publication.Hash
	programmes := s.part.Categories[0].Programmes
	for i := range programmes {
		p := s.publish(s.programme(i), db.Publishing{State: provisional, Reason: "First."})
		hashes = append(hashes, publication.HashOf(p.Statement))
	}
	p := s.publish(s.category(), db.Publishing{State: provisional})
	statement, err := publication.Read(string(p.Statement))
	if err != nil || len(statement.Programmes) != len(programmes) || p.Info.Programme != nil {
		t.Fatalf("%+v, %v", statement, err)
	}
	for i, source := range statement.Programmes {
		if source.Statement != hashes[i] || source.Programme != programmes[i].ID.String() {
			t.Errorf("source %d is %v", i, source)
		}
	}
	parsed, err := p.Parse()
	if err != nil {
		t.Fatal(err)
	}
	_, got := parsed.Category()
	want := scoring.ScoreCategory(&s.part.Bundle.Categories[0])
	for i, o := range got.Overall {
		if o.Total != want.Overall[i].Total {
			t.Errorf("%s has %v, want %v", o.Pilot, o.Total, want.Overall[i].Total)
		}
	}
	if said := s.refused(s.category(), db.Publishing{State: official}); !strings.Contains(said, "is provisional, by publication 1") {
		t.Error(said)
	}
}

// An abandoned programme is published as far as it was flown, with the reason.
func TestAbandonedProgramme(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	of, open := s.programme(0), s.flight(0, 0)
	s.record(line.Record{Kind: line.KindStatus, Flight: open.ID.String(), Status: line.StatusLanded, Replaces: open.State.StatusHeads})
	if err := s.db.SetCounting(t.Context(), of.Programme, db.Counting{Abandoned: true}); err == nil {
		t.Error("abandoned without a reason")
	}
	decision := db.Counting{Abandoned: true, Reason: "Fog.", By: "director"}
	for range 2 {
		if err := s.db.SetCounting(t.Context(), of.Programme, decision); err != nil {
			t.Fatal(err)
		}
	}
	s.publish(of, db.Publishing{State: provisional})
	p := s.publish(of, db.Publishing{State: official})
	if p.Reason != "Fog." || !bytes.Contains(p.Bundle, []byte(`"counts":false`)) {
		t.Errorf("reason %q, %s", p.Reason, p.Bundle[:200])
	}
	head, journal, err := s.db.Journal(t.Context(), s.contest)
	if err != nil || db.CheckJournal(head, journal) != nil || len(journal) != 5 { // import, status, counting, two publications
		t.Errorf("%d rows, %v", len(journal), err)
	}
}

func TestPublicationsAreKept(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	s.publish(s.programme(0), db.Publishing{State: provisional})
	for _, of := range []db.Scope{s.programme(0), {Contest: s.contest}} {
		list, err := s.db.Publications(t.Context(), of)
		if err != nil || len(list.Publications) != 1 {
			t.Errorf("%+v, %v", list, err)
		}
	}
	if list, err := s.db.Publications(t.Context(), s.category()); err != nil || len(list.Publications) != 0 {
		t.Errorf("of the category alone: %+v, %v", list, err)
	}
	if keys, err := s.db.PublicKeys(t.Context()); err != nil || len(keys) != 1 || !bytes.Equal(keys[0], signer.Key.Public().(ed25519.PublicKey)) {
		t.Errorf("%x, %v", keys, err)
	}
}

// BenchmarkPublish publishes a programme of 60 flights before 10 judges, of 15
// items each; each time for another reason.
func BenchmarkPublish(b *testing.B) {
	d := dbtest.New(b)
	_, programme := importLarge(b, d)
	for n := 0; b.Loop(); n++ {
		wish := db.Publishing{State: provisional, Reason: strings.Repeat("x", n+1)}
		if _, _, err := d.Publish(b.Context(), db.Scope{Programme: programme.ID}, wish, signer); err != nil {
			b.Fatal(err)
		}
	}
}
