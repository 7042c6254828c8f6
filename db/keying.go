package db

import (
	"context"
	"fmt"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/line"
)

// A Keying is what is keyed of a seat's paper sheet, beside the sheet as it
// stands, of the attempt that counts.
type Keying struct {
	Sheets   *Sheets
	Seat     Seat
	Sheet    line.Sheet
	Readings []KeyedReading // that are held against one another, the first keyed first
	// Shut says why nothing can be keyed now; empty where something can.
	Shut string
}

// A KeyedReading is what one person read off a paper sheet.
type KeyedReading struct {
	ID uuid.UUID // chosen by who keyed: what is sent twice is one reading
	line.Reading
	By string // the account
}

// A Difference is an item that two readings of a paper give differently.
type Difference struct {
	Item        int // from 1; 0 for the signature
	First, Last string
}

// A ShutError says why something cannot be done to what is there, as a paper
// sheet keyed for a seat that has signed. It is an ErrConflict.
type ShutError struct{ Why string }

// Error says why.
func (e *ShutError) Error() string { return e.Why }

// Unwrap makes it an ErrConflict.
func (e *ShutError) Unwrap() error { return ErrConflict }

// Differences are what the readings leave open; none where there are fewer than
// two.
func (k *Keying) Differences() []Difference {
	if len(k.Readings) < 2 {
		return nil
	}
	before, last := k.compared()
	var list []Difference
	for _, item := range line.Unlike(before, last) {
		if item == 0 {
			list = append(list, Difference{Item: 0, First: signedWord(before.Signed), Last: signedWord(last.Signed)})
			continue
		}
		list = append(list, Difference{item, before.Entries[item-1].Grade, last.Entries[item-1].Grade})
	}
	return list
}

func signedWord(signed bool) string {
	if signed {
		return "signed"
	}
	return "not signed"
}

// Agreed is what the readings agree on: a grade for each item, empty where they
// differ, and whether the paper is signed as the last one says. There is nothing
// of it before there are two.
func (k *Keying) Agreed() (grades []string, signed bool) {
	if len(k.Readings) < 2 {
		return nil, false
	}
	before, last := k.compared()
	grades = make([]string, len(last.Entries))
	for i, e := range last.Entries {
		if before.Entries[i].Grade == e.Grade {
			grades[i] = e.Grade
		}
	}
	return grades, last.Signed
}

func (k *Keying) compared() (before, last line.Reading) {
	readings := make([]line.Reading, len(k.Readings))
	for i := range k.Readings {
		readings[i] = k.Readings[i].Reading
	}
	return line.Compared(readings)
}

// Keyings is what is keyed of a flight, seat by seat.
type Keyings struct {
	Sheets *Sheets
	Seats  []Keying // of the panel, in its order
}

// Keyings reads what is keyed of a flight's paper sheets.
func (db *DB) Keyings(ctx context.Context, flight uuid.UUID) (all *Keyings, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		all, err = readKeyings(ctx, tx, flight)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading what is keyed of a flight: %w", err)
	}
	return all, nil
}

// Keying reads what is keyed of a seat's paper sheet.
func (db *DB) Keying(ctx context.Context, flight, judge uuid.UUID) (k *Keying, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		k, err = readKeying(ctx, tx, flight, judge)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading what is keyed of a paper sheet: %w", err)
	}
	return k, nil
}

func readKeying(ctx context.Context, tx pgx.Tx, flight, judge uuid.UUID) (*Keying, error) {
	all, err := readKeyings(ctx, tx, flight)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(all.Seats, func(k Keying) bool { return k.Seat.Judge == judge })
	if at < 0 {
		return nil, pgx.ErrNoRows
	}
	return &all.Seats[at], nil
}

func readKeyings(ctx context.Context, tx pgx.Tx, flight uuid.UUID) (*Keyings, error) {
	sheets, err := readSheets(ctx, tx, flight)
	if err != nil {
		return nil, err
	}
	all := &Keyings{Sheets: sheets, Seats: make([]Keying, len(sheets.Panel))}
	readings, err := readReadings(ctx, tx, sheets)
	if err != nil {
		return nil, err
	}
	for i, seat := range sheets.Panel {
		k := Keying{Sheets: sheets, Seat: seat}
		k.findSheet()
		if k.Shut = k.shut(); k.Shut == "" {
			k.Readings = readings[seat.Judge]
		}
		all.Seats[i] = k
	}
	return all, nil
}

// findSheet finds the seat's sheet of the attempt that counts.
func (k *Keying) findSheet() {
	if sheet := k.Sheets.State.Sheet(k.Seat.Judge.String()); sheet != nil {
		k.Sheet = *sheet
	}
}

// Graded is how many items of the sheet have a grade.
func (k *Keying) Graded() int {
	graded := 0
	for _, c := range k.Sheet.Cells {
		if c.Grade != "" {
			graded++
		}
	}
	return graded
}

// shut tells why nothing can be keyed. Whatever a person can do about it is
// said.
func (k *Keying) shut() string {
	state := &k.Sheets.State
	switch {
	case k.Sheets.Sequence == nil:
		return "there is no sequence yet to key grades against"
	case state.Counting == 0:
		return "it is not decided yet which attempt of the flight counts"
	case state.Status == line.StatusClosed:
		return "the flight is closed: the chief judge opens it again first"
	case state.Status == line.StatusWithdrawn, state.Status == line.StatusNotFlown:
		return "the flight was not flown"
	case k.Sheet.Absent:
		return "the seat is absent: the chief judge says first that it is not"
	case k.Sheet.Signature.State == line.Signed:
		return "the sheet is signed: the chief judge reopens it first"
	}
	return ""
}

// readReadings reads what is keyed of the attempt that counts, by seat, in the
// order keyed. Readings against another sequence are none.
func readReadings(ctx context.Context, tx pgx.Tx, sheets *Sheets) (map[uuid.UUID][]KeyedReading, error) {
	if sheets.Sequence == nil {
		return map[uuid.UUID][]KeyedReading{}, nil
	}
	read, err := rows[readingRow](ctx, tx, `
		SELECT
			reading_id AS id,
			judge_id AS judge,
			grades,
			remarks,
			signed,
			keyed_by AS by
		FROM keyed_reading
		WHERE contest_id = @contest
			AND flight_id = @flight
			AND attempt = @attempt
			AND sequence = @sequence
			AND NOT used
		ORDER BY judge_id, number`,
		pgx.StrictNamedArgs{
			"contest": sheets.Contest.ID, "flight": sheets.Flight.ID,
			"attempt": sheets.State.Counting, "sequence": sheets.Sequence.Digest,
		})
	if err != nil {
		return nil, fmt.Errorf("reading what was keyed: %w", err)
	}
	readings := map[uuid.UUID][]KeyedReading{}
	for _, r := range read {
		readings[r.Judge] = append(readings[r.Judge], r.reading())
	}
	return readings, nil
}

// readingRow is a reading as the database has it.
type readingRow struct {
	ID      uuid.UUID
	Judge   uuid.UUID
	Grades  []string
	Remarks []string // parallel to the grades
	Signed  bool
	By      string
}

func (r *readingRow) reading() KeyedReading {
	entries := make([]line.Entry, len(r.Grades))
	for i := range entries {
		entries[i] = line.Entry{Grade: r.Grades[i], Remark: r.Remarks[i]}
	}
	return KeyedReading{r.ID, line.Reading{Entries: entries, Signed: r.Signed}, r.By}
}
