package db_test

import (
	"context"
	"database/sql"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/golang-migrate/migrate/v4"
	driver "github.com/golang-migrate/migrate/v4/database/pgx/v5"
	"github.com/golang-migrate/migrate/v4/source/iofs"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/migrations"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const (
	schemaFile    = "../migrations/schema.sql"
	schemaVersion = 15 // of the Postgres that wrote it: others write some things in other words
)

// TestSchema keeps schema.sql true: it is what the migrations make.
func TestSchema(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	var version int
	if err := query(t, url).QueryRow(t.Context(), "SELECT current_setting('server_version_num')::int / 10000").Scan(&version); err != nil {
		t.Fatal(err)
	}
	if version != schemaVersion {
		t.Skipf("schema.sql is as Postgres %d writes it, and this is %d", schemaVersion, version)
	}
	got := dump(t, url)
	if *update {
		if err := os.WriteFile(schemaFile, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("schema.sql is not what the migrations make; rewrite it with -update and read it:\n%s", difference([]byte(got), want))
	}
}

// session is what pg_dump writes of itself, of the server and of the session:
// it differs between versions and says nothing of the schema.
var session = regexp.MustCompile(`(?m)^(--.*|SET .*|SELECT pg_catalog\.set_config.*|\\(un)?restrict .*)\n`)

// dump is the schema of a database as text.
func dump(t *testing.T, url string) string {
	t.Helper()
	dumps, err := filepath.Glob("/usr/lib/postgresql/*/bin/pg_dump")
	program := "pg_dump"
	if err == nil && len(dumps) > 0 {
		program = dumps[len(dumps)-1]
	}
	out, err := exec.CommandContext(t.Context(), program, "--schema-only", "--no-owner", "--no-privileges",
		"--exclude-table=schema_migrations", "--dbname", url).Output()
	if err != nil {
		if failed, ok := errors.AsType[*exec.ExitError](err); ok {
			t.Fatalf("pg_dump: %v\n%s", err, failed.Stderr)
		}
		t.Fatalf("pg_dump: %v", err)
	}
	text := session.ReplaceAllString(string(out), "")
	return strings.TrimSpace(regexp.MustCompile(`\n{3,}`).ReplaceAllString(text, "\n\n")) + "\n"
}

func TestEverythingIsDescribed(t *testing.T) {
	t.Parallel()
	var lacking []string
	err := query(t, dbtest.URL(t)).QueryRow(t.Context(), `
		SELECT coalesce(array_agg(c.relname || coalesce('.' || a.attname, '')), '{}')
		FROM pg_class c
		JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum >= 0 AND NOT a.attisdropped
		WHERE c.relkind = 'r'
			AND c.relnamespace = 'public'::regnamespace
			AND c.relname <> 'schema_migrations'
			AND (col_description(c.oid, a.attnum) IS NULL OR obj_description(c.oid, 'pg_class') IS NULL)`).Scan(&lacking)
	if err != nil || len(lacking) > 0 {
		t.Errorf("no comment on %v, %v", lacking, err)
	}
}

// Every table of a contest has the contest first in its keys, so that contests
// can be spread over servers. Tables of the server as a whole would be on all of
// them, and may be referred to.
func TestContestIsFirstInEveryKey(t *testing.T) {
	t.Parallel()
	var lacking []string
	err := query(t, dbtest.URL(t)).QueryRow(t.Context(), `
		SELECT coalesce(array_agg(k.conname), '{}')
		FROM pg_constraint k
		JOIN pg_attribute a ON a.attrelid = k.conrelid AND a.attnum = k.conkey[1]
		WHERE k.contype IN ('p', 'u', 'f')
			AND k.connamespace = 'public'::regnamespace
			AND k.conrelid NOT IN ('server'::regclass, 'schema_migrations'::regclass, 'account'::regclass, 'link'::regclass, 'session'::regclass, 'season'::regclass)
			AND k.confrelid NOT IN ('account'::regclass, 'season'::regclass)
			AND a.attname <> 'contest_id'`).Scan(&lacking)
	if err != nil || len(lacking) > 0 {
		t.Errorf("another column is first in %v, %v", lacking, err)
	}
}

// migrator is the migrator itself, to go down with, which the program never
// does.
func migrator(t *testing.T, url string) *migrate.Migrate {
	t.Helper()
	pool, err := sql.Open("pgx/v5", url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { pool.Close() })
	source, err := iofs.New(migrations.Files, ".")
	if err != nil {
		t.Fatal(err)
	}
	schema, err := driver.WithInstance(pool, &driver.Config{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := migrate.NewWithInstance("iofs", source, "pgx5", schema)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { m.Close() })
	return m
}

func TestMigrateWaitsForOthersNotForEver(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	pool, err := sql.Open("pgx/v5", url)
	if err != nil {
		t.Fatal(err)
	}
	defer pool.Close()
	other, err := driver.WithInstance(pool, &driver.Config{})
	if err != nil {
		t.Fatal(err)
	}
	if err := other.Lock(); err != nil {
		t.Fatal(err)
	}
	if err := db.Migrate(t.Context(), url+"&lock_timeout=50"); !errors.Is(err, db.ErrBusy) {
		t.Errorf("%v, want %v", err, db.ErrBusy)
	}
	if err := other.Unlock(); err != nil {
		t.Fatal(err)
	}
	if err := db.Migrate(t.Context(), url); err != nil {
		t.Error(err)
	}
}

func TestMigrationsGoUpDownAndUp(t *testing.T) {
	t.Parallel()
	url := dbtest.Empty(t)
	if err := db.Migrate(t.Context(), url); err != nil {
		t.Fatal(err)
	}
	first := dump(t, url)
	if err := migrator(t, url).Down(); err != nil {
		t.Fatal(err)
	}
	if left := dump(t, url); strings.Contains(left, "CREATE") {
		t.Errorf("the way down leaves\n%s", left)
	}
	if err := db.Migrate(t.Context(), url); err != nil {
		t.Fatal(err)
	}
	if again := dump(t, url); again != first {
		t.Errorf("up, down and up makes another schema:\n%s", difference([]byte(again), []byte(first)))
	}
	if err := db.Migrate(t.Context(), url); err != nil {
		t.Errorf("with nothing to do: %v", err)
	}
}

func TestMigrationFiles(t *testing.T) {
	t.Parallel()
	files, err := migrations.Files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	last := files[len(files)-1].Name()
	if !strings.HasPrefix(last, fmt.Sprintf("%04d_", migrations.Latest)) {
		t.Errorf("the last file is %s, and Latest says %d", last, migrations.Latest)
	}
	for _, file := range files {
		text, err := migrations.Files.ReadFile(file.Name())
		if err != nil {
			t.Fatal(err)
		}
		words := strings.Fields(string(text))
		if i := slices.Index(words, "BEGIN;"); i >= 0 || slices.Contains(words, "COMMIT;") {
			t.Errorf("%s begins or commits a transaction; a file is one already", file.Name())
		}
	}
}

func TestMigrateRefuses(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		sql  string
		want error
	}{
		"a newer database": {"UPDATE schema_migrations SET version = 9999", db.ErrNewer},
		"one cut short":    {"UPDATE schema_migrations SET dirty = true", db.ErrDirty},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			url := dbtest.URL(t)
			if _, err := query(t, url).Exec(t.Context(), c.sql); err != nil {
				t.Fatal(err)
			}
			if err := db.Migrate(t.Context(), url); !errors.Is(err, c.want) {
				t.Errorf("%v, want %v", err, c.want)
			}
			if err := db.Rollback(t.Context(), url, 1); !errors.Is(err, c.want) {
				t.Errorf("back: %v, want %v", err, c.want)
			}
		})
	}
}

// A step that is cut short is repaired by saying which one stands.
func TestRepair(t *testing.T) {
	t.Parallel()
	url := dbtest.Empty(t)
	if _, err := query(t, url).Exec(t.Context(), "CREATE TABLE programme ()"); err != nil {
		t.Fatal(err)
	}
	if err := db.Migrate(t.Context(), url); err == nil || strings.Contains(err.Error(), "CREATE TABLE entry") {
		t.Errorf("over a table in the way: %v", err)
	}
	schema, err := db.ReadSchema(t.Context(), url)
	if want := (db.Schema{Version: 2, Latest: migrations.Latest, Dirty: true}); err != nil || schema != want {
		t.Fatalf("%+v, %v, want %+v", schema, err, want)
	}
	if err := db.Migrate(t.Context(), url); !errors.Is(err, db.ErrDirty) {
		t.Errorf("%v, want %v", err, db.ErrDirty)
	}
	if err := db.Repair(t.Context(), url, 9999); err == nil {
		t.Error("repaired to a version that does not exist")
	}
	if err := db.Repair(t.Context(), url, 1); err != nil {
		t.Fatal(err)
	}
	if _, err := query(t, url).Exec(t.Context(), "DROP TABLE programme"); err != nil {
		t.Fatal(err)
	}
	if err := db.Migrate(t.Context(), url); err != nil {
		t.Fatal(err)
	}
	if got := dump(t, url); got != dump(t, dbtest.URL(t)) {
		t.Error("another schema than without the accident")
	}
}

// Many processes start at once on an empty database.
func TestMigrateAtOnce(t *testing.T) {
	t.Parallel()
	url := dbtest.Empty(t)
	answers := make(chan error)
	for range 4 {
		go func() { answers <- db.Migrate(context.Background(), url) }()
	}
	for range 4 {
		if err := <-answers; err != nil {
			t.Error(err)
		}
	}
}
