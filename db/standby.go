package db

import (
	"context"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"
)

// OpenStandby connects to a standby, or whatever else the URL names, to read from it
// alone. It need not be there now.
func OpenStandby(ctx context.Context, url string) (*DB, error) {
	config, err := poolConfig(url, boundConnect)
	if err != nil {
		return nil, err
	}
	pool, err := pgxpool.NewWithConfig(ctx, config)
	if err != nil {
		return nil, fmt.Errorf("opening the standby: %w", translate(err))
	}
	return &DB{pool: pool, hints: newHinter(pool), haves: &haves{}}, nil
}

// Written is how far the log of the server is on its disk.
func (db *DB) Written(ctx context.Context) (position string, err error) {
	found, err := only[struct{ Position string }](ctx, db, "SELECT pg_current_wal_flush_lsn()::text AS position", nil)
	if err != nil {
		return "", fmt.Errorf("reading how far the log is: %w", err)
	}
	return found.Position, nil
}

// Follows tells whether a standby has everything up to a position of the log, as a
// server that is no standby any more has.
func (db *DB) Follows(ctx context.Context, position string) (bool, error) {
	found, err := only[struct{ Follows bool }](ctx, db, `
		SELECT NOT pg_is_in_recovery() OR coalesce(pg_last_wal_replay_lsn() >= @position::text::pg_lsn, false) AS follows`,
		pgx.StrictNamedArgs{"position": position})
	if err != nil {
		return false, fmt.Errorf("reading how far the standby is: %w", err)
	}
	return found.Follows, nil
}
