package db_test

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgconn"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring/line"
)

// tablet is a judge's device before the first flight of a programme.
type tablet struct {
	t        testing.TB
	d        *db.DB
	contest  uuid.UUID
	sheets   *db.Sheets
	delivery db.Delivery
	seq      int64
}

// newTablet imports a bundle and sits down in the first seat of a programme of
// its first category, before a flight, both counted from 0.
func newTablet(t testing.TB, d *db.DB, path string, programme, flight int) *tablet {
	t.Helper()
	contest := imported(t, d, path)
	c, err := d.Contest(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	flights, err := d.Flights(t.Context(), c.Categories[0].Programmes[programme].ID)
	if err != nil {
		t.Fatal(err)
	}
	b := &tablet{t: t, d: d, contest: contest}
	b.look(flights.Flights[flight].ID)
	judge := b.sheets.Panel[0].Judge.String()
	b.delivery = db.Delivery{Store: uuid.New(), Author: line.Author{Role: line.RoleJudge, Seat: judge, Device: uuid.NewString()}}
	return b
}

func (b *tablet) look(flight uuid.UUID) {
	b.t.Helper()
	sheets, err := b.d.Sheets(b.t.Context(), flight)
	if err != nil {
		b.t.Fatal(err)
	}
	b.sheets = sheets
}

// grade is a new record of the tablet's.
func (b *tablet) grade(item int, grade string, replaces ...string) db.Received {
	b.seq++
	return db.Received{Record: line.Record{
		Seq: b.seq, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindGrade, Flight: b.sheets.Flight.ID.String(),
		Judge: b.sheets.Panel[0].Judge.String(), Item: item, Grade: grade, Sequence: b.sheets.Sequence.Digest, Replaces: replaces,
	}}
}

// send delivers records and returns what became of them.
func (b *tablet) send(records ...db.Received) (db.Receipt, []string) {
	b.t.Helper()
	b.delivery.Records = records
	receipt, err := b.d.StoreRecords(b.t.Context(), b.contest, b.delivery)
	if err != nil {
		b.t.Fatal(err)
	}
	var results []string
	for i, a := range receipt.Answers {
		if a.ID != records[i].ID {
			b.t.Errorf("answer %d is about %s, not %s", i, a.ID, records[i].ID)
		}
		results = append(results, a.Result)
	}
	return receipt, results
}

const everything = "testdata/everything.bundle.json"

func TestRecordsAreStoredOnce(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 1)
	before, err := b.d.Head(t.Context(), b.contest)
	if err != nil {
		t.Fatal(err)
	}
	one, two, three := b.grade(2, "6.5"), b.grade(1, "7.0"), b.grade(3, "HZ")
	receipt, results := b.send(one, three)
	if !slices.Equal(results, []string{db.ResultStored, db.ResultStored}) || receipt.Have != 1 || receipt.Version != before.Version+1 || receipt.Epoch != before.Epoch {
		t.Errorf("%v, %+v", results, receipt)
	}
	if receipt, results = b.send(one, three, one); !slices.Equal(results, []string{db.ResultRepeat, db.ResultRepeat, db.ResultRepeat}) || receipt.Version != before.Version+1 {
		t.Errorf("again: %v, %+v", results, receipt)
	}
	other := one
	other.Grade = "9.0"
	receipt, results = b.send(two, other, two)
	if !slices.Equal(results, []string{db.ResultStored, db.ResultRefused, db.ResultRepeat}) || receipt.Have != 3 || receipt.Answers[1].Faults[0].Field != "id" {
		t.Errorf("with another under a taken id: %v, %+v", results, receipt)
	}
	b.look(b.sheets.Flight.ID)
	recorded := b.sheets.Records[one.ID]
	if recorded.Grade != "6.5" || recorded.Author != b.delivery.Author || recorded.Standing.Standing == "" {
		t.Errorf("stored is %+v", recorded)
	}
}

// Body is kept as received: a repetition is told by what it says.
func TestBytesAreKept(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	b := newTablet(t, open(t, url), everything, 0, 1)
	r := b.grade(1, "7.0")
	text, err := json.MarshalIndent(r.Record, "", "   ")
	if err != nil {
		t.Fatal(err)
	}
	r.Body = text
	b.send(r)
	var body []byte
	if err := query(t, url).QueryRow(t.Context(), "SELECT body FROM line_record WHERE record_id = $1", r.ID).Scan(&body); err != nil || string(body) != string(text) {
		t.Errorf("%s, %v", body, err)
	}
	r.Body = nil
	if _, results := b.send(r); results[0] != db.ResultRepeat {
		t.Errorf("the same in other words is a %s", results[0])
	}
}

func TestABadRecordRefusesItselfAlone(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 1)
	off, nul, good := b.grade(1, "7.3"), b.grade(2, "7.0"), b.grade(3, "7.0")
	nul.Remark = "a\x00b"
	receipt, results := b.send(off, nul, good)
	if !slices.Equal(results, []string{db.ResultRefused, db.ResultRefused, db.ResultStored}) {
		t.Errorf("%v", results)
	}
	if receipt.Answers[0].Faults[0].Field != "grade" || receipt.Answers[1].Faults[0].Field != "remark" {
		t.Errorf("%+v", receipt.Answers)
	}
	if _, results = b.send(off); results[0] != db.ResultRefused {
		t.Errorf("a refused one, again: %v", results)
	}
}

// A well-formed record is stored whatever it speaks of, and whatever stands in
// fields that its kind does not use.
func TestAnyWellFormedRecordIsStored(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	b := newTablet(t, open(t, url), everything, 0, 1)
	here, id := b.sheets.Flight.ID.String(), func() string { return uuid.Must(uuid.NewV7()).String() }
	yes := true
	odd := line.Record{
		Judge: "no id", Item: 1 << 40, Grade: "none\x00", Digest: "none", Ruling: "none", Status: "none", Wind: "none",
		Penalty: &line.Penalty{Kind: "\x00", Count: 1 << 40, Points: -1}, Absent: &yes,
		Signature: "s\x00", Attempt: 20, Reason: "why", Remark: strings.Repeat("ü", 500), EnteredAt: "2026-06-12T10:14:03.120+02:00",
		Replaces: []string{id(), id()}, Adopts: []string{id()}, Covers: []string{id()}, After: []string{id()}, By: id(),
	}
	var all []db.Received
	add := func(kind line.Kind, change func(r *line.Record)) {
		r := odd
		r.Kind, r.ID, r.Flight, r.Seq = kind, id(), here, int64(len(all)+1)
		change(&r)
		all = append(all, db.Received{Record: r})
	}
	add(line.KindGrade, func(r *line.Record) { r.Judge, r.Item, r.Grade, r.Sequence, r.Flight = id(), 40, "", digest, id() })
	add(line.KindSign, func(r *line.Record) { r.Judge, r.Digest = id(), digest })
	add(line.KindReopen, func(r *line.Record) { r.Judge = id() })
	add(line.KindAbsent, func(r *line.Record) { r.Judge = id() })
	add(line.KindRuling, func(r *line.Record) { r.Item, r.Ruling, r.Grade = 2, line.GradeSet, "10.0" })
	add(line.KindPenalty, func(r *line.Record) {
		r.Penalty = &line.Penalty{Kind: strings.Repeat("ü", 60), Count: 99, Points: 1e300}
	})
	add(line.KindStatus, func(r *line.Record) { r.Status, r.Wind = line.StatusInterrupted, "left" })
	add(line.KindAside, func(r *line.Record) {})
	if _, results := b.send(all...); slices.Contains(results, db.ResultRefused) || slices.Contains(results, db.ResultRepeat) {
		t.Fatalf("%v", results)
	}
	if _, results := b.send(all...); slices.Contains(results, db.ResultRefused) || slices.Contains(results, db.ResultStored) {
		t.Errorf("again: %v", results)
	}
	b.look(b.sheets.Flight.ID)
	for _, sent := range all[1:] {
		got, ok := b.sheets.Records[sent.ID]
		if !ok {
			t.Errorf("no %s", sent.Kind)
			continue
		}
		if got.Reason != "why" || got.Attempt != 20 || len(got.Replaces) != 2 || got.Remark != sent.Remark || got.By != sent.By {
			t.Errorf("a %s comes back as %+v", sent.Kind, got)
		}
	}
	if got := b.sheets.Records[all[5].ID]; got.Penalty == nil || *got.Penalty != *all[5].Penalty {
		t.Errorf("the penalty is %+v", got.Penalty)
	}
}

// What arrives for a contest while something of it is stored is stored together, in
// one transaction more; where some of it is there already, none fails for another.
func TestDeliveriesTogether(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	b := newTablet(t, open(t, url), everything, 0, 1)
	first := b.grade(1, "7.0")
	b.send(first)
	for name, repeated := range map[string]bool{"all new": false, "with a repeat": true} {
		holder, err := query(t, url).Begin(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if _, err := holder.Exec(t.Context(), "SELECT FROM contest_head FOR UPDATE"); err != nil {
			t.Fatal(err)
		}
		var all sync.WaitGroup
		deliver := func(wants string, records ...db.Received) {
			d := b.delivery
			d.Store, d.Records = uuid.New(), records
			all.Go(func() {
				receipt, err := b.d.StoreRecords(t.Context(), b.contest, d)
				if err != nil || receipt.Answers[0].Result != wants || receipt.Answers[len(records)-1].Result != db.ResultStored {
					t.Errorf("%s: %+v, %v", name, receipt, err)
				}
			})
		}
		ids := []string{}
		grade := func() db.Received {
			r := b.grade(2+len(ids), "7.0")
			ids = append(ids, r.ID)
			return r
		}
		deliver(db.ResultStored, grade())
		awaitWaiting(t, query(t, url))
		for range 7 {
			deliver(db.ResultStored, grade())
		}
		if repeated {
			deliver(db.ResultRepeat, first, grade())
		} else {
			deliver(db.ResultStored, grade())
		}
		await(t, "eight deliveries to arrive", func() bool { return b.d.Arrived(b.contest) == 8 })
		if err := holder.Rollback(t.Context()); err != nil {
			t.Fatal(err)
		}
		all.Wait()
		var stored, transactions int
		if err := query(t, url).QueryRow(t.Context(), "SELECT count(*), count(DISTINCT xmin::text) FROM line_record WHERE record_id = ANY ($1)", ids).Scan(&stored, &transactions); err != nil {
			t.Fatal(err)
		}
		wants := 2
		if repeated {
			wants = len(ids) // each alone
		}
		if stored != len(ids) || transactions != wants {
			t.Errorf("%s: %d of %d stored in %d transactions, not %d", name, stored, len(ids), transactions, wants)
		}
		if b.d.Arrived(b.contest) != 0 {
			t.Errorf("%s: some still wait", name)
		}
	}
	if head, journal, err := b.d.Journal(t.Context(), b.contest); err != nil || int64(len(journal)) != head.JournalNumber {
		t.Errorf("the journal has %d rows, its head says %d, %v", len(journal), head.JournalNumber, err)
	}
}

// Judges send at once, and some the same again; each record is there once, the
// journal is whole, and the head counts every delivery that stored something.
func TestDeliveriesAtOnce(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 1)
	before, err := b.d.Head(t.Context(), b.contest)
	if err != nil {
		t.Fatal(err)
	}
	var shared []db.Received
	for range 20 {
		shared = append(shared, b.grade(1, "7.0"))
	}
	const judges = 6
	var all sync.WaitGroup
	stored := make(chan string, judges*len(shared))
	for n := range judges {
		all.Go(func() {
			d := b.delivery
			d.Records = slices.Clone(shared)
			if n%2 == 1 {
				slices.Reverse(d.Records)
			}
			for chunk := range slices.Chunk(d.Records, 7) {
				d.Records = chunk
				receipt, err := b.d.StoreRecords(t.Context(), b.contest, d)
				if err != nil {
					t.Error(err)
				}
				for _, a := range receipt.Answers {
					if a.Result == db.ResultStored {
						stored <- a.ID
					}
				}
			}
		})
	}
	all.Wait()
	close(stored)
	times := map[string]int{}
	for id := range stored {
		times[id]++
	}
	for _, r := range shared {
		if times[r.ID] != 1 {
			t.Errorf("%s was stored %d times", r.ID, times[r.ID])
		}
	}
	head, journal, err := b.d.Journal(t.Context(), b.contest)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.CheckJournal(head, journal); err != nil {
		t.Error(err)
	}
	if added := head.JournalNumber - before.JournalNumber; added < 3 || added > 18 || head.Version-before.Version != added {
		t.Errorf("from %+v to %+v", before, head)
	}
}

// The journal binds every record by the hash of its bytes.
func TestJournalNamesRecords(t *testing.T) {
	t.Parallel()
	b := newTablet(t, dbtest.New(t), everything, 0, 1)
	r := b.grade(1, "7.0")
	r.Body = []byte(fmt.Sprintf(`{"seq":1,"id":%q,"kind":"grade"}`, r.ID))
	b.send(r)
	if err := b.d.SetOpened(t.Context(), b.contest, db.Published, "director"); err != nil {
		t.Fatal(err)
	}
	head, journal, err := b.d.Journal(t.Context(), b.contest)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.CheckJournal(head, journal); err != nil {
		t.Error(err)
	}
	sum := sha256.Sum256(r.Body)
	for i, words := range [][]string{
		{`"what":"imported"`, `"opened":"closed"`, `"bundle_sha256":"`},
		{`"what":"records"`, r.ID, hex.EncodeToString(sum[:]), b.delivery.Author.Device},
		{`"what":"opened"`, `"opened":"published"`, `"by":"director"`},
	} {
		for _, word := range words {
			if !strings.Contains(string(journal[i].Body), word) {
				t.Errorf("row %d does not say %s: %s", i+1, word, journal[i].Body)
			}
		}
	}
}

func TestWhatIsKeptCannotBeChanged(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	small(t, open(t, url))
	conn := query(t, url)
	for _, sql := range []string{
		"UPDATE journal SET body = ''",
		"UPDATE journal SET body = '' WHERE false",
		"DELETE FROM line_record",
		"UPDATE line_record SET grade = '10.0'",
		"TRUNCATE publication CASCADE",
		"DELETE FROM publication",
		"DELETE FROM protest",
		"UPDATE protest_decision SET upheld = true",
		"TRUNCATE contest CASCADE",
		"SET session_replication_role = replica; DELETE FROM journal",
	} {
		_, err := conn.Exec(context.Background(), sql)
		refused, ok := errors.AsType[*pgconn.PgError](err)
		if !ok || refused.Code != "23001" { // restrict_violation
			t.Errorf("%s: %v", sql, err)
		}
	}
}

// A commit that fails is not answered as stored, and leaves nothing: here a trigger
// refuses when all statements are through.
func TestACommitThatFails(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	b := newTablet(t, d, everything, 0, 0)
	if _, err := query(t, url).Exec(t.Context(), `
		CREATE FUNCTION refuse() RETURNS trigger LANGUAGE plpgsql AS $$
		BEGIN
			RAISE EXCEPTION 'refused' USING ERRCODE = 'disk_full';
		END
		$$;
		CREATE CONSTRAINT TRIGGER refuse AFTER INSERT ON journal
			DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION refuse()`); err != nil {
		t.Fatal(err)
	}
	before, err := d.Head(t.Context(), b.contest)
	if err != nil {
		t.Fatal(err)
	}
	delivery := b.delivery
	delivery.Records = []db.Received{b.grade(1, "7.5")}
	if receipt, err := d.StoreRecords(t.Context(), b.contest, delivery); !errors.Is(err, db.ErrUnavailable) {
		t.Errorf("%+v, %v", receipt, err)
	}
	if after, err := d.Head(t.Context(), b.contest); err != nil || after.Version != before.Version {
		t.Errorf("version %d became %d, %v", before.Version, after.Version, err)
	}
}
