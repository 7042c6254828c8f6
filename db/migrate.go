package db

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"github.com/golang-migrate/migrate/v4"
	"github.com/golang-migrate/migrate/v4/database"
	driver "github.com/golang-migrate/migrate/v4/database/pgx/v5"
	"github.com/golang-migrate/migrate/v4/source/iofs"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/stdlib"

	"halfpoint/migrations"
)

// What keeps a schema from being brought up to date, for errors.Is.
var (
	// ErrNewer: a newer version of the program has been here.
	ErrNewer = errors.New("the database is newer than this program")
	// ErrDirty: a step was cut short; see [Repair].
	ErrDirty = errors.New("a migration of the database was cut short")
	// ErrBusy: another process is migrating, and did not finish in time.
	ErrBusy = errors.New("another process is migrating the database")
)

// lockTimeout bounds the wait for another process that is migrating, where the
// URL does not say otherwise.
const lockTimeout = 30 * time.Second

// A Schema says how far a database is.
type Schema struct {
	Version int  // of the last step; 0 for an empty database
	Latest  int  // of the last step that this program knows
	Dirty   bool // the last step was cut short
}

// Migrate brings a database up to date, one process at a time. It refuses with
// ErrNewer, ErrDirty or ErrBusy.
func Migrate(ctx context.Context, url string) error {
	return migrating(ctx, url, func(m *migrate.Migrate) error {
		schema, err := schemaOf(m)
		if err != nil {
			return err
		}
		if schema.Version > schema.Latest {
			return fmt.Errorf("%w: its version is %d, the program knows %d", ErrNewer, schema.Version, schema.Latest)
		}
		err = m.Up() // looks for a dirty version under the lock
		if dirty, ok := errors.AsType[migrate.ErrDirty](err); ok {
			return fmt.Errorf("%w in version %d: see halfpoint migrate --help", ErrDirty, dirty.Version)
		}
		if errors.Is(err, migrate.ErrNoChange) {
			return nil
		}
		return err
	})
}

// ReadSchema tells how far a database is.
func ReadSchema(ctx context.Context, url string) (schema Schema, err error) {
	err = migrating(ctx, url, func(m *migrate.Migrate) error {
		schema, err = schemaOf(m)
		return err
	})
	return schema, err
}

// Repair says of a database with a step cut short that it is at a version; 0 is
// an empty one. Each step is one transaction, so that one cut short usually did
// nothing, and the version before it is the right one.
func Repair(ctx context.Context, url string, version int) error {
	if version < 0 || version > migrations.Latest {
		return fmt.Errorf("there is no version %d: they are 0 to %d", version, migrations.Latest)
	}
	if version == 0 {
		version = -1 // the migrator's word for an empty database
	}
	return migrating(ctx, url, func(m *migrate.Migrate) error { return m.Force(version) })
}

// Rollback takes a database back to an earlier version, for an earlier program
// to work with it: what later steps added is gone, everything else stays. A
// database that is newer than this program is refused with ErrNewer, for only a
// program that knows a step can undo it.
func Rollback(ctx context.Context, url string, version int) error {
	return migrating(ctx, url, func(m *migrate.Migrate) error {
		schema, err := schemaOf(m)
		switch {
		case err != nil:
			return err
		case schema.Version > schema.Latest:
			return fmt.Errorf("%w: its version is %d, the program knows %d", ErrNewer, schema.Version, schema.Latest)
		case schema.Dirty:
			return fmt.Errorf("%w in version %d: see halfpoint migrate --help", ErrDirty, schema.Version)
		case version < 1 || version > schema.Version:
			return fmt.Errorf("there is no way back to version %d from version %d", version, schema.Version)
		case version == schema.Version:
			return nil
		}
		return m.Migrate(uint(version))
	})
}

func schemaOf(m *migrate.Migrate) (Schema, error) {
	version, dirty, err := m.Version()
	if err != nil && !errors.Is(err, migrate.ErrNilVersion) {
		return Schema{}, err
	}
	return Schema{Version: int(version), Latest: migrations.Latest, Dirty: dirty}, nil
}

// migrating runs f with a migrator on a connection of its own.
func migrating(ctx context.Context, url string, f func(m *migrate.Migrate) error) error {
	config, err := pgx.ParseConfig(url)
	if err != nil {
		return fmt.Errorf("the database's URL: %w", err)
	}
	if config.RuntimeParams["lock_timeout"] == "" {
		config.RuntimeParams["lock_timeout"] = fmt.Sprint(lockTimeout.Milliseconds())
	}
	followWriter(config)
	pool := stdlib.OpenDB(*config)
	defer pool.Close()
	if err := pool.PingContext(ctx); err != nil {
		return fmt.Errorf("reaching the database: %w", translate(err))
	}
	m, err := newMigrator(pool)
	if err != nil {
		return fmt.Errorf("migrating the database: %w", failure(err))
	}
	defer m.Close()
	stop := context.AfterFunc(ctx, func() { m.GracefulStop <- true })
	defer stop()
	if err := f(m); err != nil {
		return fmt.Errorf("migrating the database: %w", failure(err))
	}
	return ctx.Err()
}

func newMigrator(pool *sql.DB) (*migrate.Migrate, error) {
	source, err := iofs.New(migrations.Files, ".")
	if err != nil {
		return nil, err
	}
	schema, err := driver.WithInstance(pool, &driver.Config{})
	if err != nil {
		return nil, err
	}
	return migrate.NewWithInstance("iofs", source, "pgx5", schema)
}

// causeOf is the error inside one of the migrator, which comes with or without
// a pointer; nil for any other.
func causeOf(err error) error {
	if step, ok := errors.AsType[*database.Error](err); ok {
		return step.OrigErr
	}
	if step, ok := errors.AsType[database.Error](err); ok {
		return step.OrigErr
	}
	return nil
}

// failure translates an error of the migrator: it leaves out the text of the
// whole step, and names one who waited too long for the lock.
func failure(err error) error {
	err = cmp.Or(causeOf(err), err)
	refused, ok := errors.AsType[*pgconn.PgError](err)
	timedOut := ok && refused.Code == "55P03" // lock_not_available
	if timedOut || errors.Is(err, migrate.ErrLockTimeout) {
		return fmt.Errorf("%w: %w", ErrBusy, err)
	}
	return translate(err)
}
