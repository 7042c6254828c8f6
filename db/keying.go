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

// A ShutError says why no paper sheet can be keyed for a seat. It is an
// ErrConflict.
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

func (k *Keying) compared() (before, last line.Reading) {
	readings := make([]line.Reading, len(k.Readings))
	for i := range k.Readings {
		readings[i] = k.Readings[i].Reading
	}
	return line.Compared(readings)
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
	sheets, err := readSheets(ctx, tx, flight)
	if err != nil {
		return nil, err
	}
	k := &Keying{Sheets: sheets}
	at := slices.IndexFunc(sheets.Panel, func(s Seat) bool { return s.Judge == judge })
	if at < 0 {
		return nil, pgx.ErrNoRows
	}
	k.Seat = sheets.Panel[at]
	for _, attempt := range sheets.State.Attempts {
		for _, sheet := range attempt.Sheets {
			if attempt.Attempt == sheets.State.Counting && sheet.Judge == judge.String() {
				k.Sheet = sheet
			}
		}
	}
	k.Shut = k.shut()
	if k.Shut != "" {
		return k, nil
	}
	return k, k.readReadings(ctx, tx)
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

func (k *Keying) readReadings(ctx context.Context, tx pgx.Tx) error {
	read, err := rows[struct {
		ID      uuid.UUID
		Grades  []string
		Remarks []string
		Signed  bool
		By      string
	}](ctx, tx, `
		SELECT
			reading_id AS id,
			grades,
			remarks,
			signed,
			keyed_by AS by
		FROM keyed_reading
		WHERE contest_id = @contest
			AND flight_id = @flight
			AND judge_id = @judge
			AND attempt = @attempt
			AND sequence = @sequence
			AND NOT used
		ORDER BY number`, k.place())
	if err != nil {
		return fmt.Errorf("reading what was keyed: %w", err)
	}
	for _, r := range read {
		entries := make([]line.Entry, len(r.Grades))
		for i := range entries {
			entries[i] = line.Entry{Grade: r.Grades[i], Remark: r.Remarks[i]}
		}
		k.Readings = append(k.Readings, KeyedReading{r.ID, line.Reading{Entries: entries, Signed: r.Signed}, r.By})
	}
	return nil
}

// place says which readings belong together: those of one sequence as it is now.
func (k *Keying) place() pgx.StrictNamedArgs {
	return pgx.StrictNamedArgs{
		"contest": k.Sheets.Contest.ID, "flight": k.Sheets.Flight.ID, "judge": k.Seat.Judge,
		"attempt": k.Sheets.State.Counting, "sequence": k.Sheets.Sequence.Digest,
	}
}
