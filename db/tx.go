package db

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

const (
	// attempts is how often a transaction is tried that others keep from
	// succeeding.
	attempts    = 5
	firstPause  = 5 * time.Millisecond // doubled after each attempt
	rollbackMax = 5 * time.Second      // for the end of one that failed
)

// reading is how everything is read: at one version, whatever happens
// meanwhile.
var reading = pgx.TxOptions{IsoLevel: pgx.RepeatableRead, AccessMode: pgx.ReadOnly}

// read runs f in a transaction that sees one version and changes nothing.
func (db *DB) read(ctx context.Context, f func(tx pgx.Tx) error) error {
	return db.transact(ctx, reading, f)
}

// change runs f in a transaction that changes a contest. What f returns goes
// into the contest's journal, the contest's head is raised last, and whoever
// listens gets a hint after the commit. With nil nothing was changed, and
// neither happens. It returns the contest's new version, 0 for none.
func (db *DB) change(ctx context.Context, contest uuid.UUID, f func(tx pgx.Tx) (*act, error)) (version int64, err error) {
	return db.changeFound(ctx, func(tx pgx.Tx) (uuid.UUID, *act, error) {
		act, err := f(tx)
		return contest, act, err
	})
}

// changeFound is change where f finds out which contest it changes.
func (db *DB) changeFound(ctx context.Context, f func(tx pgx.Tx) (uuid.UUID, *act, error)) (version int64, err error) {
	var contest uuid.UUID
	err = db.transact(ctx, pgx.TxOptions{}, func(tx pgx.Tx) error {
		version = 0
		var act *act
		var err error
		contest, act, err = f(tx)
		if err == nil && act != nil {
			version, err = raise(ctx, tx, contest, *act)
		}
		return err
	})
	if err != nil {
		return 0, err
	}
	if version > 0 {
		db.tell(contest)
	}
	return version, nil
}

// write runs f in a transaction that changes what is no contest's.
func (db *DB) write(ctx context.Context, f func(tx pgx.Tx) error) error {
	return db.transact(ctx, pgx.TxOptions{}, f)
}

// transact runs f in a transaction and commits it; f must be ready to be run
// again. Errors are this package's.
func (db *DB) transact(ctx context.Context, options pgx.TxOptions, f func(tx pgx.Tx) error) error {
	return db.insist(ctx, func() error { return db.try(ctx, options, f) })
}

// insist runs what is one transaction, and again, from the start, where Postgres
// took it as the victim of a conflict with others.
func (db *DB) insist(ctx context.Context, run func() error) error {
	pause := firstPause
	for attempt := 1; ; attempt++ {
		err := run()
		if err == nil {
			return nil
		}
		if attempt == attempts || !isVictim(err) {
			return db.given(err)
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(pause):
			pause *= 2
		}
	}
}

// given is an error as this package gives it. Where the server went away, or
// takes nothing written any more, the other connections lead to the same one, and
// are not used again.
func (db *DB) given(err error) error {
	err = translate(err)
	if errors.Is(err, ErrUnavailable) {
		db.pool.Reset()
	}
	return err
}

// try runs f once. The rollback must reach the server even where the request
// that asked was called off, or its locks would wait for the connection to be
// closed.
func (db *DB) try(ctx context.Context, options pgx.TxOptions, f func(tx pgx.Tx) error) error {
	tx, err := db.pool.BeginTx(ctx, options)
	if err != nil {
		return fmt.Errorf("beginning a transaction: %w", err)
	}
	defer func() {
		last, cancel := context.WithTimeout(context.WithoutCancel(ctx), rollbackMax)
		defer cancel()
		_ = tx.Rollback(last) // does nothing after a commit
	}()
	if err := f(tx); err != nil {
		return err
	}
	if err := tx.Commit(ctx); err != nil {
		return fmt.Errorf("committing: %w", err)
	}
	return nil
}

// isVictim tells whether a transaction failed for a conflict with others alone.
func isVictim(err error) bool {
	refused, ok := errors.AsType[*pgconn.PgError](err)
	return ok && (refused.Code == "40001" || refused.Code == "40P01") // serialization_failure, deadlock_detected
}

// rows runs a query and collects what it finds, by the names of the columns.
func rows[T any](ctx context.Context, tx pgx.Tx, sql string, args pgx.StrictNamedArgs) ([]T, error) {
	found, err := tx.Query(ctx, sql, args)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(found, pgx.RowToStructByName[T])
}

// row runs a query that finds exactly one row; pgx.ErrNoRows where none.
func row[T any](ctx context.Context, tx pgx.Tx, sql string, args pgx.StrictNamedArgs) (T, error) {
	found, err := tx.Query(ctx, sql, args)
	if err != nil {
		var none T
		return none, err
	}
	return pgx.CollectExactlyOneRow(found, pgx.RowToStructByName[T])
}

// only is row for a query that is a transaction by itself: one way there and back.
func only[T any](ctx context.Context, db *DB, sql string, args pgx.StrictNamedArgs) (found T, err error) {
	err = db.insist(ctx, func() error {
		rows, err := db.pool.Query(ctx, sql, args)
		if err == nil {
			found, err = pgx.CollectExactlyOneRow(rows, pgx.RowToStructByName[T])
		}
		return err
	})
	return found, err
}

// value runs a query that finds one row of one column; pgx.ErrNoRows where none.
func value[T any](ctx context.Context, tx pgx.Tx, sql string, args pgx.StrictNamedArgs) (T, error) {
	found, err := tx.Query(ctx, sql, args)
	if err != nil {
		var none T
		return none, err
	}
	return pgx.CollectExactlyOneRow(found, pgx.RowTo[T])
}

// values runs a query of one column and collects what it finds.
func values[T any](ctx context.Context, tx pgx.Tx, sql string, args pgx.StrictNamedArgs) ([]T, error) {
	found, err := tx.Query(ctx, sql, args)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(found, pgx.RowTo[T])
}

// exec runs a statement that must change, or lock, exactly one row;
// pgx.ErrNoRows where it finds none.
func exec(ctx context.Context, tx pgx.Tx, sql string, args pgx.StrictNamedArgs) error {
	done, err := tx.Exec(ctx, sql, args)
	if err == nil && done.RowsAffected() == 0 {
		err = pgx.ErrNoRows
	}
	return err
}
