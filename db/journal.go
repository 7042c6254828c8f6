package db

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// act is a row of the journal: what was done to a contest. It is stored as
// JSON.
type act struct {
	What string    `json:"what"`
	At   time.Time `json:"at"`
	By   string    `json:"by,omitempty"` // the device or account
	// Details is a struct of the act's own.
	Details any `json:"details,omitempty"`
}

// The acts.
const (
	actImported = "imported" // a contest was made from a bundle
	actMade     = "made"     // a contest was made
	actOpened   = "opened"   // who may see the contest was changed
	actRecords  = "records"  // records of the line were stored
	actSetup    = "set-up"   // rows of the set-up were changed

	actKeyed     = "paper-keyed"     // a paper sheet was read once, or not as before
	actForgotten = "paper-forgotten" // what was keyed of one was thrown away

	actPaired          = "paired"           // a device took an offer
	actDeviceWithdrawn = "device-withdrawn" // what it delivers from now on is held

	actInvited             = "invited"              // somebody was invited to a role
	actInvitationWithdrawn = "invitation-withdrawn" // an invitation is good no more
	actRoleGiven           = "role-given"           // an account has a role from now on
	actRoleTaken           = "role-taken"           // an account has it no more

	actRegistered = "sequence-registered"
	actSignedOff  = "sequence-signed-off"
	actReleased   = "sequence-released"
	actLimits     = "limits"  // what the sequences of a category must keep was changed
	actNumbers    = "numbers" // the organiser's table of numbers was changed

	actNoted     = "noted"     // a line about a pilot was written, for the announcer
	actDescribed = "described" // a free style was, in its pilot's own words

	actOrder = "order" // the running order of a programme was changed

	actPublished = "published"  // results were published
	actProtested = "protested"  // a protest was filed
	actDecided   = "decided"    // a protest was decided
	actCounting  = "counting"   // whether a programme counts was decided
	actAnalysis  = "analysis"   // the analysis of a programme's judges was opened to everyone
	actRestored  = "restored"   // the server was restored from a backup
	actTakenBack = "taken-back" // results published before that are here again
)

func newAct(what, by string, details any) *act {
	return &act{What: what, At: time.Now().UTC(), By: by, Details: details}
}

// raising raises a contest's head and adds a row to its journal.
const raising = `
	WITH head AS (
		UPDATE contest_head
		SET version = version + 1,
			journal_number = journal_number + 1,
			journal_hash = sha256(journal_hash || int8send(journal_number + 1) || @body)
		WHERE contest_id = @contest
		RETURNING
			contest_id,
			version,
			journal_number,
			journal_hash
	), written AS (
		INSERT INTO journal (contest_id, number, body, hash)
		SELECT
			contest_id,
			journal_number,
			@body,
			journal_hash
		FROM head
	)
	SELECT version
	FROM head`

// raise is the last statement of every change. Others that change the contest
// wait from here until the commit, so that nothing but the hash is computed under
// it.
func raise(ctx context.Context, tx pgx.Tx, contest uuid.UUID, a act) (version int64, err error) {
	args, err := raisingArgs(contest, a)
	if err == nil {
		version, err = value[int64](ctx, tx, raising, args)
	}
	if err != nil {
		return 0, fmt.Errorf("raising the contest's head: %w", err)
	}
	return version, nil
}

func raisingArgs(contest uuid.UUID, a act) (pgx.StrictNamedArgs, error) {
	body, err := json.Marshal(a)
	return pgx.StrictNamedArgs{"contest": [16]byte(contest), "body": body}, err
}

// A JournalRow is a row of a contest's journal.
type JournalRow struct {
	Number int64
	Body   []byte // JSON
	Hash   []byte
}

// Journal reads a contest's whole journal, in order.
func (db *DB) Journal(ctx context.Context, contest uuid.UUID) (head Head, journal []JournalRow, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		if head, err = readHead(ctx, tx, contest); err != nil {
			return err
		}
		journal, err = readJournal(ctx, tx, contest)
		return err
	})
	if err != nil {
		return Head{}, nil, fmt.Errorf("reading the journal: %w", err)
	}
	return head, journal, nil
}

func readJournal(ctx context.Context, tx pgx.Tx, contest uuid.UUID) ([]JournalRow, error) {
	return rows[JournalRow](ctx, tx, `
		SELECT
			number,
			body,
			hash
		FROM journal
		WHERE contest_id = @contest
		ORDER BY number`,
		pgx.StrictNamedArgs{"contest": contest})
}

// CheckJournal says what is wrong with a journal that must end at head: the
// number of the first row that is not bound to all before it, or a missing end.
func CheckJournal(head Head, journal []JournalRow) error {
	hash := make([]byte, sha256.Size)
	for i, row := range journal {
		number := int64(i + 1)
		hash = chain(hash, number, row.Body)
		if row.Number != number {
			return fmt.Errorf("row %d of the journal is missing", number)
		}
		if !bytes.Equal(row.Hash, hash) {
			return fmt.Errorf("row %d of the journal is not the one that was written", number)
		}
	}
	if head.JournalNumber != int64(len(journal)) || !bytes.Equal(head.JournalHash, hash) {
		return fmt.Errorf("the journal ends at row %d, the contest's head says %d, or another one of that number", len(journal), head.JournalNumber)
	}
	return nil
}

// chain is the hash of a row of the journal.
func chain(previous []byte, number int64, body []byte) []byte {
	text := binary.BigEndian.AppendUint64(bytes.Clone(previous), uint64(number))
	sum := sha256.Sum256(append(text, body...))
	return sum[:]
}
