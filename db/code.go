package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// PrepareCode notes the key of a second factor that is being set up; it is not
// asked for before ConfirmCode. It fails with ErrNotFound where a second factor
// is set up already.
func (db *DB) PrepareCode(ctx context.Context, account uuid.UUID, key []byte) error {
	return db.setCode(ctx, "preparing a second factor", `
		UPDATE account
		SET code_key = @key
		WHERE account_id = @account
			AND code_since IS NULL`,
		pgx.StrictNamedArgs{"account": account, "key": key})
}

// ConfirmCode makes a prepared second factor one that is asked for, by the step
// of a right code. It fails with ErrNotFound where none is prepared.
func (db *DB) ConfirmCode(ctx context.Context, account uuid.UUID, step int64) error {
	return db.setCode(ctx, "confirming a second factor", `
		UPDATE account
		SET code_since = now(),
			code_step = @step
		WHERE account_id = @account
			AND code_key IS NOT NULL
			AND code_since IS NULL`,
		pgx.StrictNamedArgs{"account": account, "step": step})
}

// TakeCode takes the code of a step. Each is taken once: it fails with
// ErrNotFound for the step taken last and those before it.
func (db *DB) TakeCode(ctx context.Context, account uuid.UUID, step int64) error {
	return db.setCode(ctx, "taking a code", `
		UPDATE account
		SET code_step = @step
		WHERE account_id = @account
			AND code_step < @step`,
		pgx.StrictNamedArgs{"account": account, "step": step})
}

// RemoveCode forgets the second factor of an account, where there is one.
func (db *DB) RemoveCode(ctx context.Context, account uuid.UUID) error {
	return db.setCode(ctx, "removing a second factor", `
		UPDATE account
		SET code_key = NULL,
			code_since = NULL
		WHERE account_id = @account`,
		pgx.StrictNamedArgs{"account": account})
}

func (db *DB) setCode(ctx context.Context, doing, sql string, args pgx.StrictNamedArgs) error {
	err := db.write(ctx, func(tx pgx.Tx) error { return exec(ctx, tx, sql, args) })
	if err != nil {
		return fmt.Errorf("%s: %w", doing, err)
	}
	return nil
}
