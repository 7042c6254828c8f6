// Package db is the database and nothing else: a contest is kept in Postgres
// as its set-up, the records of its line, its journal and its publications, and
// read back as what scoring takes.
//
// Every exported method is one transaction. What is read together is of one
// version, and comes with the [Head] that says which.
package db

import (
	"context"
	"fmt"
	"sync"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"
)

// A DB is a pool of connections to one database. It is safe for concurrent use.
type DB struct {
	pool  *pgxpool.Pool
	hints *hinter
	haves *haves

	arrived arrived

	scores scores

	mu      sync.RWMutex
	changed []func(contest uuid.UUID)
}

// Open connects to a database whose schema is as [Migrate] leaves it. It fails
// with ErrUnavailable where the database cannot be reached.
func Open(ctx context.Context, url string) (*DB, error) {
	config, err := poolConfig(url, followWriter)
	if err != nil {
		return nil, err
	}
	known := &haves{}
	config.AfterConnect = func(context.Context, *pgx.Conn) error { known.forget(); return nil }
	pool, err := pgxpool.NewWithConfig(ctx, config)
	if err != nil {
		return nil, fmt.Errorf("opening the database: %w", translate(err))
	}
	db := &DB{pool: pool, hints: newHinter(pool), haves: known}
	if err := db.Ping(ctx); err != nil {
		db.Close()
		return nil, err
	}
	return db, nil
}

// poolConfig makes sure that a commit is on the disk before it is answered,
// whatever the server does by itself.
func poolConfig(url string, tune func(*pgx.ConnConfig)) (*pgxpool.Config, error) {
	config, err := pgxpool.ParseConfig(url)
	if err != nil {
		return nil, fmt.Errorf("the database's URL: %w", err)
	}
	parameters := config.ConnConfig.RuntimeParams
	parameters["synchronous_commit"] = "on"
	if parameters["application_name"] == "" {
		parameters["application_name"] = "halfpoint"
	}
	if config.MaxConns, err = maxConns(url, config.MaxConns); err != nil {
		return nil, err
	}
	config.PingTimeout = pingTime
	tune(config.ConnConfig)
	return config, nil
}

// OnChange has f called for each change of a contest that is made through this
// DB, when it is committed and before whoever made it is answered. What others
// change is told by [DB.Listen] alone. f must not wait.
func (db *DB) OnChange(f func(contest uuid.UUID)) {
	db.mu.Lock()
	defer db.mu.Unlock()
	db.changed = append(db.changed, f)
}

// tell tells of a change that is committed: here at once, elsewhere by a hint.
func (db *DB) tell(contest uuid.UUID) {
	db.mu.RLock()
	defer db.mu.RUnlock()
	for _, f := range db.changed {
		f(contest)
	}
	db.hints.give(contest)
}

// Close gives all connections back.
func (db *DB) Close() {
	db.hints.close()
	db.pool.Close()
}

// Ping asks whether the database can be reached: nil, or ErrUnavailable.
func (db *DB) Ping(ctx context.Context) error {
	if err := db.pool.Ping(ctx); err != nil {
		return fmt.Errorf("reaching the database: %w", translate(err))
	}
	return nil
}
