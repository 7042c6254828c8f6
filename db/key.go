package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"golang.org/x/text/unicode/norm"

	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
)

// keyedAct is what the journal says of a reading that did not become records.
type keyedAct struct {
	Reading uuid.UUID `json:"reading"`
	Flight  uuid.UUID `json:"flight"`
	Judge   uuid.UUID `json:"judge"`
}

// Key takes a reading of a seat's paper sheet. The first one waits for another;
// as soon as two agree they become records of the line, and entered is true.
// The same reading again does nothing. It fails with a *ShutError where nothing
// can be keyed, and with document.Complaints about what was read.
func (db *DB) Key(ctx context.Context, flight, judge uuid.UUID, r KeyedReading) (entered bool, err error) {
	_, err = db.changeFound(ctx, func(tx pgx.Tx) (uuid.UUID, *act, error) {
		k, err := lockKeying(ctx, tx, flight, judge)
		if err != nil {
			return uuid.Nil, nil, err
		}
		contest := k.Sheets.Contest.ID
		var there bool
		if entered, there, err = k.repeated(ctx, tx, r.ID); there || err != nil {
			return contest, nil, err
		}
		act, err := k.take(ctx, tx, r)
		entered = err == nil && k.settled()
		return contest, act, err
	})
	if err != nil {
		return false, fmt.Errorf("keying a paper sheet: %w", err)
	}
	return entered, nil
}

// ForgetKeyed throws away what was keyed of a seat's paper sheet and did not
// become records.
func (db *DB) ForgetKeyed(ctx context.Context, flight, judge uuid.UUID, by string) error {
	_, err := db.changeFound(ctx, func(tx pgx.Tx) (uuid.UUID, *act, error) {
		k, err := lockKeying(ctx, tx, flight, judge)
		if err != nil || len(k.Readings) == 0 {
			return uuid.Nil, nil, err
		}
		last := k.Readings[len(k.Readings)-1].ID
		return k.Sheets.Contest.ID, newAct(actForgotten, by, keyedAct{last, flight, judge}), k.use(ctx, tx)
	})
	if err != nil {
		return fmt.Errorf("forgetting what was keyed: %w", err)
	}
	return nil
}

// lockKeying reads what is keyed and keeps the flight as it is meanwhile.
func lockKeying(ctx context.Context, tx pgx.Tx, flight, judge uuid.UUID) (*Keying, error) {
	err := exec(ctx, tx, `
		SELECT
		FROM flight
		WHERE flight_id = @flight
		FOR UPDATE`,
		pgx.StrictNamedArgs{"flight": flight})
	if err != nil {
		return nil, err
	}
	return readKeying(ctx, tx, flight, judge)
}

// repeated tells whether a reading is here already, and whether it became
// records.
func (k *Keying) repeated(ctx context.Context, tx pgx.Tx, id uuid.UUID) (used, there bool, err error) {
	found, err := values[bool](ctx, tx, `
		SELECT used
		FROM keyed_reading
		WHERE contest_id = @contest
			AND reading_id = @reading`,
		pgx.StrictNamedArgs{"contest": k.Sheets.Contest.ID, "reading": id})
	if err != nil || len(found) == 0 {
		return false, false, err
	}
	return found[0], true, nil
}

// take stores a reading, and enters the paper where it agrees with the one
// before.
func (k *Keying) take(ctx context.Context, tx pgx.Tx, r KeyedReading) (*act, error) {
	if k.Shut != "" {
		return nil, &ShutError{k.Shut}
	}
	if err := k.check(&r); err != nil {
		return nil, err
	}
	if err := k.insert(ctx, tx, r); err != nil {
		return nil, err
	}
	k.Readings = append(k.Readings, r)
	keyed := newAct(actKeyed, r.By, keyedAct{r.ID, k.Sheets.Flight.ID, k.Seat.Judge})
	if !k.settled() {
		return keyed, nil
	}
	if err := k.use(ctx, tx); err != nil {
		return nil, err
	}
	entered, err := k.enter(ctx, tx, r.By)
	if entered == nil { // the sheet said it all already
		entered = keyed
	}
	return entered, err
}

func (k *Keying) settled() bool { return len(k.Readings) > 1 && len(k.Differences()) == 0 }

// check brings remarks into the form NFC and complains about what no paper can
// say.
func (k *Keying) check(r *KeyedReading) error {
	var report document.Report
	if items := len(k.Sheet.Cells); len(r.Entries) != items {
		report.Add("entries", "are %d, and the sheet has %d items", len(r.Entries), items)
		return report.Err()
	}
	for i := range r.Entries {
		e := &r.Entries[i]
		e.Remark = norm.NFC.String(e.Remark)
		if e.Grade != "" && !line.IsGrade(e.Grade) {
			report.Add(fmt.Sprintf("entries[%d].grade", i), `is 0.0 to 10.0 in halves, "HZ", "PZ" or "A"`)
		}
		NoteBound.Check(&report, fmt.Sprintf("entries[%d].remark", i), e.Remark)
	}
	if r.Signed {
		for _, item := range k.paper(r.Reading).Empty() {
			report.Add(fmt.Sprintf("entries[%d].grade", item-1), "is missing: a signed sheet has a grade for every item")
		}
	}
	return report.Err()
}

func (k *Keying) insert(ctx context.Context, tx pgx.Tx, r KeyedReading) error {
	grades, remarks := make([]string, len(r.Entries)), make([]string, len(r.Entries))
	for i, e := range r.Entries {
		grades[i], remarks[i] = e.Grade, e.Remark
	}
	_, err := tx.Exec(ctx, `
		INSERT INTO keyed_reading (
			contest_id,
			reading_id,
			flight_id,
			judge_id,
			attempt,
			number,
			sequence,
			grades,
			remarks,
			signed,
			keyed_by
		)
		SELECT
			@contest,
			@reading,
			@flight,
			@judge,
			@attempt,
			count(*) + 1,
			@sequence,
			@grades,
			@remarks,
			@signed,
			@by
		FROM keyed_reading
		WHERE contest_id = @contest
			AND flight_id = @flight
			AND judge_id = @judge`,
		pgx.StrictNamedArgs{
			"contest": k.Sheets.Contest.ID, "reading": r.ID, "flight": k.Sheets.Flight.ID, "judge": k.Seat.Judge,
			"attempt": k.Sheets.State.Counting, "sequence": k.Sheets.Sequence.Digest,
			"grades": grades, "remarks": remarks, "signed": r.Signed, "by": r.By,
		})
	return err
}

// use marks the readings of the sheet: they are held against no others.
func (k *Keying) use(ctx context.Context, tx pgx.Tx) error {
	_, err := tx.Exec(ctx, `
		UPDATE keyed_reading
		SET used = true
		WHERE contest_id = @contest
			AND flight_id = @flight
			AND judge_id = @judge
			AND NOT used`,
		pgx.StrictNamedArgs{"contest": k.Sheets.Contest.ID, "flight": k.Sheets.Flight.ID, "judge": k.Seat.Judge})
	return err
}

// paper is the sheet with what was read.
func (k *Keying) paper(r line.Reading) *line.Paper {
	return &line.Paper{
		Contest: k.Sheets.Contest.ID.String(), Flight: k.Sheets.Flight.ID.String(), Sequence: k.Sheets.Sequence.Digest,
		Attempt: k.Sheets.State.Counting, Sheet: &k.Sheet, Reading: r,
	}
}

// enter makes records of what two readings agree on, as the office's.
func (k *Keying) enter(ctx context.Context, tx pgx.Tx, by string) (*act, error) {
	_, last := k.compared()
	now := time.Now().UTC().Format(time.RFC3339Nano)
	delivery := &Delivery{Store: newID(), Author: line.Author{Role: line.RoleOffice, Device: by}}
	made := k.paper(last).Records(func() line.Record {
		delivery.Records = append(delivery.Records, Received{})
		return line.Record{Seq: int64(len(delivery.Records)), ID: newID().String(), EnteredAt: now}
	})
	for i, r := range made {
		delivery.Records[i] = Received{Record: r}
	}
	s, err := newStorer(k.Sheets.Contest.ID, delivery)
	if err != nil {
		return nil, err
	}
	receipt := Receipt{Answers: s.answers}
	act, err := s.store(ctx, tx, &receipt)
	if err != nil {
		return nil, err
	}
	return act, refusedOf(receipt.Answers)
}

// refusedOf is an error where a record that the program itself made was refused.
func refusedOf(answers []Answer) error {
	for _, a := range answers {
		if a.Result == ResultRefused {
			return fmt.Errorf("a record made of a paper sheet was refused: %v", a.Faults)
		}
	}
	return nil
}
