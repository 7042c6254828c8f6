package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// A Head says where a contest stands. What is read at the same epoch and
// version is the same.
type Head struct {
	Contest       uuid.UUID
	Epoch         uuid.UUID // the server's: new at each restore
	Version       int64     // counts the contest's changes from 1
	JournalNumber int64     // of the last row of the journal
	JournalHash   []byte    // of that row, 32 bytes
}

// Head reads where a contest stands.
func (db *DB) Head(ctx context.Context, contest uuid.UUID) (head Head, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		head, err = readHead(ctx, tx, contest)
		return err
	})
	if err != nil {
		return Head{}, fmt.Errorf("reading a contest's head: %w", err)
	}
	return head, nil
}

const selectHeads = `
	SELECT
		h.contest_id AS contest,
		s.epoch,
		h.version,
		h.journal_number,
		h.journal_hash
	FROM contest_head h
	CROSS JOIN server s`

func readHead(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (Head, error) {
	return row[Head](ctx, tx, selectHeads+" WHERE h.contest_id = @contest",
		pgx.StrictNamedArgs{"contest": contest})
}

// Heads reads where all contests stand.
func (db *DB) Heads(ctx context.Context) (heads []Head, err error) {
	if heads, err = db.headsOf(ctx, nil); err != nil {
		return nil, fmt.Errorf("reading the contests' heads: %w", err)
	}
	return heads, nil
}

// headsOf reads where some contests stand, all of them where nil is given.
func (db *DB) headsOf(ctx context.Context, contests []uuid.UUID) (heads []Head, err error) {
	sql, args := selectHeads, pgx.StrictNamedArgs{}
	if contests != nil {
		sql += " WHERE h.contest_id = ANY (@contests)"
		args["contests"] = contests
	}
	err = db.insist(ctx, func() error {
		found, err := db.pool.Query(ctx, sql+" ORDER BY h.contest_id", args)
		if err == nil {
			heads, err = pgx.CollectRows(found, pgx.RowToStructByName[Head])
		}
		return err
	})
	return heads, err
}
