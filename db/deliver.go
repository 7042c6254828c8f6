package db

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"halfpoint/scoring/line"
)

// A Delivery is what one device sends at once.
type Delivery struct {
	// Store is the id of the device's own database.
	Store uuid.UUID
	// Author is who sends it, as the session says.
	Author  line.Author
	Records []Received
	// Contact is noted with it, where a device sends for itself; what a withdrawn
	// one sends is stored as such, whatever Author says.
	Contact *Contact
}

// Received is a record with its bytes as received, signature included. Without
// bytes it is stored as the record's JSON.
type Received struct {
	line.Record
	Body []byte
}

// What became of a record.
const (
	ResultStored  = "stored"  // it is here from now on
	ResultRepeat  = "repeat"  // it was here already
	ResultRefused = "refused" // it is malformed, or its id is another record's
)

// An Answer says what became of a record.
type Answer struct {
	ID     string
	Result string
	Faults []line.Fault // why it was refused
}

// A Receipt answers a delivery.
type Receipt struct {
	Epoch   uuid.UUID
	Version int64    // of the contest, after it
	Have    int64    // the highest seq of the store up to which none is missing
	Answers []Answer // parallel to the delivery's records
}

// StoreRecords stores what a device sends, and answers when it is committed.
// Each record is stored once, whatever is sent how often; a bad one refuses only
// itself. Who may do what is not asked: a well-formed record is stored, and
// line.Resolve holds what its author had no business to do.
func (db *DB) StoreRecords(ctx context.Context, contest uuid.UUID, d Delivery) (receipt Receipt, err error) {
	s, err := newStorer(contest, &d)
	if err != nil {
		return Receipt{}, fmt.Errorf("storing records: %w", err)
	}
	receipt, err = db.storeNew(ctx, s)
	if errors.Is(err, errNotNew) {
		receipt, err = db.storeWhatIsNew(ctx, s)
	}
	if err != nil {
		return Receipt{}, fmt.Errorf("storing records: %w", err)
	}
	return receipt, nil
}

// storeWhatIsNew stores what is not there yet, step by step.
func (db *DB) storeWhatIsNew(ctx context.Context, s *storer) (receipt Receipt, err error) {
	version, err := db.change(ctx, s.contest, func(tx pgx.Tx) (*act, error) {
		receipt = Receipt{Answers: slices.Clone(s.answers)}
		return s.store(ctx, tx, &receipt)
	})
	receipt.Version = max(receipt.Version, version)
	return receipt, err
}

// storer is a delivery that was looked at and can be stored.
type storer struct {
	contest  uuid.UUID
	delivery *Delivery
	answers  []Answer // those that do not depend on what is there
	sound    []int    // places of the others, in the order in which they are locked
	rows     [][]any  // of the sound ones
}

func newStorer(contest uuid.UUID, d *Delivery) (*storer, error) {
	s := &storer{contest: contest, delivery: d, answers: make([]Answer, len(d.Records))}
	for i := range d.Records {
		r := &d.Records[i]
		s.answers[i] = Answer{ID: r.ID, Result: ResultStored}
		if faults := faultsOf(line.Stored{Record: r.Record, Author: d.Author}); len(faults) > 0 {
			s.answers[i] = Answer{ID: r.ID, Result: ResultRefused, Faults: faults}
			continue
		}
		s.sound = append(s.sound, i)
	}
	slices.SortStableFunc(s.sound, func(a, b int) int { return cmp.Compare(d.Records[a].ID, d.Records[b].ID) })
	for _, i := range s.sound {
		row, err := recordRow(contest, d.Store, d.Author, &d.Records[i])
		if err != nil {
			return nil, err
		}
		s.rows = append(s.rows, row)
	}
	return s, nil
}

// faultsOf is what makes a record one that cannot be stored. Postgres holds no
// text with the character U+0000.
func faultsOf(s line.Stored) []line.Fault {
	faults := line.Check(s)
	faults = append(faults, nulIn("remark", s.Remark)...)
	faults = append(faults, nulIn("reason", s.Reason)...)
	if s.Kind == line.KindPenalty && s.Penalty != nil {
		faults = append(faults, nulIn("penalty/kind", s.Penalty.Kind)...)
	}
	return faults
}

func nulIn(field, text string) []line.Fault {
	if strings.ContainsRune(text, 0) {
		return []line.Fault{{Field: field, Text: "has no character U+0000"}}
	}
	return nil
}

// store adds the records that are not there yet. It locks in one order: flights
// by id, records by id, and the contest's head last.
func (s *storer) store(ctx context.Context, tx pgx.Tx, receipt *Receipt) (*act, error) {
	head, err := readHead(ctx, tx, s.contest)
	if err != nil {
		return nil, err
	}
	receipt.Epoch, receipt.Version = head.Epoch, head.Version
	if err := s.lockFlights(ctx, tx); err != nil {
		return nil, err
	}
	if err := s.insert(ctx, tx, receipt); err != nil {
		return nil, err
	}
	if err := s.answerRepeats(ctx, tx, receipt); err != nil {
		return nil, err
	}
	if c := s.delivery.Contact; c != nil {
		sql, args := c.notingNews(s.contest)
		if _, err := tx.Exec(ctx, sql, args); err != nil {
			return nil, err
		}
	}
	if receipt.Have, err = readHave(ctx, tx, s.contest, s.delivery.Store); err != nil {
		return nil, err
	}
	return s.act(receipt), nil
}

// lockFlights locks the flights of what is to be stored.
func (s *storer) lockFlights(ctx context.Context, tx pgx.Tx) error {
	var lock flightLock
	lock.add(s)
	sql, args := lock.statement(s.contest)
	_, err := tx.Exec(ctx, sql, args)
	return err
}

// A flightLock keeps flights from being closed or ruled on under the records that
// come in for them, and those apart from one another. A flight that is not here yet
// cannot be locked, and need not be.
type flightLock struct {
	flights []string
	alone   bool // some are ruled on, or begun or closed
}

// add adds the flights that sound records speak of.
func (l *flightLock) add(s *storer) {
	for _, i := range s.sound {
		r := &s.delivery.Records[i]
		if !slices.Contains(l.flights, r.Flight) {
			l.flights = append(l.flights, r.Flight)
		}
		l.alone = l.alone || r.Kind == line.KindStatus || r.Kind == line.KindRuling
	}
}

// statement locks them, and its arguments. One flight, as nearly all deliveries are
// of, is found without a list.
func (l *flightLock) statement(contest uuid.UUID) (sql string, args pgx.StrictNamedArgs) {
	args = pgx.StrictNamedArgs{"contest": [16]byte(contest)}
	which, strength := "= ANY (@flights) ORDER BY flight_id", "SHARE"
	if len(l.flights) == 1 {
		which, args["flight"] = "= @flight", l.flights[0]
	} else {
		args["flights"] = l.flights
	}
	if l.alone {
		strength = "UPDATE"
	}
	return `
		SELECT
		FROM flight
		WHERE contest_id = @contest
			AND flight_id ` + which + `
		FOR ` + strength, args
}

// insert adds what is not there; what is there is marked as a repetition.
func (s *storer) insert(ctx context.Context, tx pgx.Tx, receipt *Receipt) error {
	batch := &pgx.Batch{}
	for n, i := range s.sound {
		batch.Queue(insertMissing, s.insertArgs(n)...).Exec(func(done pgconn.CommandTag) error {
			if done.RowsAffected() == 0 {
				receipt.Answers[i].Result = ResultRepeat
			}
			return nil
		})
	}
	return tx.SendBatch(ctx, batch).Close()
}

// insertArgs are a sound record and the device that sends it.
func (s *storer) insertArgs(n int) []any {
	var device any
	if c := s.delivery.Contact; c != nil {
		device = [16]byte(c.Device)
	}
	return append(slices.Clip(s.rows[n]), device)
}

// answerRepeats tells repetitions from other records under an id that is taken.
func (s *storer) answerRepeats(ctx context.Context, tx pgx.Tx, receipt *Receipt) error {
	var ids []string
	for _, a := range receipt.Answers {
		if a.Result == ResultRepeat {
			ids = append(ids, a.ID)
		}
	}
	if len(ids) == 0 {
		return nil
	}
	there, err := readBodies(ctx, tx, s.contest, ids)
	if err != nil {
		return err
	}
	for i := range receipt.Answers {
		a := &receipt.Answers[i]
		if a.Result == ResultRepeat && !s.delivery.Records[i].Same(there[a.ID]) {
			a.Result = ResultRefused
			a.Faults = []line.Fault{{Field: "id", Text: "is that of another record"}}
		}
	}
	return nil
}

// readBodies reads records as they were received, by id.
func readBodies(ctx context.Context, tx pgx.Tx, contest uuid.UUID, ids []string) (map[string]line.Record, error) {
	bodies, err := values[[]byte](ctx, tx, `
		SELECT body
		FROM line_record
		WHERE contest_id = @contest
			AND record_id = ANY (@ids)`,
		pgx.StrictNamedArgs{"contest": contest, "ids": ids})
	records := make(map[string]line.Record, len(bodies))
	for _, b := range bodies {
		var r line.Record
		if err := json.Unmarshal(b, &r); err != nil {
			return nil, fmt.Errorf("reading a record's bytes: %w", err)
		}
		records[r.ID] = r
	}
	return records, err
}

// recordsAct is what the journal says of records: by their hashes they are
// bound to it.
type recordsAct struct {
	Store   uuid.UUID    `json:"store"`
	Records []recordHash `json:"records"`
}

type recordHash struct {
	ID     string `json:"id"`
	SHA256 string `json:"sha256"` // of the bytes as received
}

// act is the journal's row, nil where nothing was stored.
func (s *storer) act(receipt *Receipt) *act {
	details := recordsAct{Store: s.delivery.Store}
	for n, i := range s.sound {
		if receipt.Answers[i].Result == ResultStored {
			sum := sha256.Sum256(s.rows[n][bodyColumn].([]byte))
			details.Records = append(details.Records, recordHash{receipt.Answers[i].ID, hex.EncodeToString(sum[:])})
		}
	}
	if len(details.Records) == 0 {
		return nil
	}
	return newAct(actRecords, s.delivery.Author.Device, details)
}
