// Package dbtest gives each test a database of its own: a clone of one migrated
// template, on a throwaway server of the test process, or on the server that
// HALFPOINT_TEST_DATABASE names.
//
// A test package calls [Main] from TestMain.
package dbtest

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/db"
	"halfpoint/db/cluster"
)

// variable names a server to use instead of a throwaway one, by the URL of any
// database on it that its user may connect to.
const variable = "HALFPOINT_TEST_DATABASE"

// server is the one of this process.
type server struct {
	url      string // of a database that is only connected to
	template string
	close    func()
}

// theServer is started by the first test that needs it.
var theServer = sync.OnceValues(startServer)

var started bool

// Main runs the tests of a package, ends the server, and exits.
func Main(m *testing.M) { os.Exit(run(m)) }

func run(m *testing.M) int {
	defer func() {
		if s, err := stopServer(); err == nil && s != nil {
			s.close()
		}
	}()
	return m.Run()
}

func stopServer() (*server, error) {
	if !started {
		return nil, nil
	}
	return theServer()
}

// New gives a test a database of its own, with the schema of today and nothing
// in it.
func New(t testing.TB) *db.DB {
	t.Helper()
	d, err := db.Open(t.Context(), URL(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.Close)
	return d
}

// URL is that of a database as New opens it.
func URL(t testing.TB) string {
	t.Helper()
	s := start(t)
	return s.create(t, "TEMPLATE "+s.template)
}

// Empty is the URL of a database without a schema.
func Empty(t testing.TB) string {
	t.Helper()
	return start(t).create(t, "TEMPLATE template0")
}

// Folder is one for the data of a private Postgres: whoever that runs as can
// reach it.
func Folder(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.Chmod(filepath.Dir(dir), 0o711); err != nil {
		t.Fatal(err)
	}
	return dir
}

func start(t testing.TB) *server {
	t.Helper()
	s, err := theServer()
	if err != nil {
		t.Fatalf("starting a Postgres for tests: %v", err)
	}
	return s
}

// create makes a database that is dropped after the test.
func (s *server) create(t testing.TB, as string) string {
	t.Helper()
	name := newName()
	if err := s.exec(t.Context(), "CREATE DATABASE "+name+" "+as); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.exec(context.Background(), "DROP DATABASE "+name+" WITH (FORCE)"); err != nil {
			t.Error(err)
		}
	})
	return named(s.url, name)
}

func newName() string { return "halfpoint_test_" + uuid.NewString()[24:] }

func startServer() (*server, error) {
	started = true
	s := &server{url: os.Getenv(variable), close: func() {}}
	if s.url == "" {
		if err := s.startOwn(); err != nil {
			return nil, err
		}
	}
	s.template = newName()
	err := s.exec(context.Background(), "CREATE DATABASE "+s.template)
	if err == nil {
		err = db.Migrate(context.Background(), named(s.url, s.template))
	}
	if err != nil {
		s.close()
		return nil, err
	}
	stop := s.close
	s.close = func() {
		_ = s.exec(context.Background(), "DROP DATABASE "+s.template) // a server of others keeps it
		stop()
	}
	return s, nil
}

// startOwn starts a server that may lose everything, which is quicker.
func (s *server) startOwn() error {
	dir, err := cluster.TempDir("halfpoint-test-")
	if err != nil {
		return err
	}
	c, err := cluster.Start(context.Background(), filepath.Join(dir, "data"),
		"fsync=off", "full_page_writes=off", "max_connections=300", "autovacuum=off")
	if err != nil {
		return errors.Join(err, os.RemoveAll(dir))
	}
	s.url = c.URL()
	s.close = func() {
		c.Stop()
		os.RemoveAll(dir)
	}
	return nil
}

func (s *server) exec(ctx context.Context, sql string) error {
	conn, err := pgx.Connect(ctx, s.url)
	if err != nil {
		return fmt.Errorf("connecting to the Postgres for tests: %w", err)
	}
	defer conn.Close(ctx)
	if _, err := conn.Exec(ctx, sql); err != nil {
		return fmt.Errorf("%s: %w", sql, err)
	}
	return nil
}

// named is the URL of another database on the same server.
func named(server, database string) string {
	u, err := url.Parse(server)
	if err != nil {
		return server
	}
	u.Path = "/" + database
	return u.String()
}
