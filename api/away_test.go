package api_test

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfpoint/db"
	"halfpoint/db/cluster"
)

// TestDatabaseAwayAndBack stops the Postgres under a running service and starts
// it again.
func TestDatabaseAwayAndBack(t *testing.T) {
	t.Parallel()
	dir := folderForPostgres(t)
	at := filepath.Join(dir, "socket") // leads to the folder of the socket, a new one at each start
	private := startPostgres(t, dir, at)
	address := through(t, private, at)
	if err := db.Migrate(t.Context(), address); err != nil {
		t.Fatal(err)
	}
	d, err := db.Open(t.Context(), address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.Close)
	s := startOn(t, d)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	events := s.follow(contest)
	first := events.next()

	private.Stop()
	for _, path := range []string{"/readyz", "/api/v1/contests", "/api/v1/contests/" + contest.String()} {
		a := s.send(request{path: path})
		if p := problemOf(t, a); a.status != http.StatusServiceUnavailable || !strings.HasSuffix(p.Type, "#database-away") {
			t.Errorf("%s without a database: %d %s", path, a.status, a.body)
		}
	}
	if a := s.send(request{path: "/healthz"}); a.status != http.StatusOK {
		t.Errorf("the process itself is well, and says %d", a.status)
	}

	again := startPostgres(t, dir, at)
	t.Cleanup(again.Stop)
	deadline := time.Now().Add(patience)
	for s.send(request{path: "/readyz"}).status != http.StatusOK {
		if time.Now().After(deadline) {
			t.Fatal("the service did not come back")
		}
	}
	s.storesAPenalty(contest)
	if head := events.next(); head.Version <= first.Version {
		t.Errorf("the stream went on with version %d after %d", head.Version, first.Version)
	}
}

// folderForPostgres can be passed by the user that Postgres runs as.
func folderForPostgres(t *testing.T) string {
	t.Helper()
	dir, err := cluster.TempDir("halfpoint-test-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.RemoveAll(dir) })
	return dir
}

func startPostgres(t *testing.T, dir, at string) *cluster.Cluster {
	t.Helper()
	private, err := cluster.Start(t.Context(), filepath.Join(dir, "data"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(private.Stop)
	_ = os.Remove(at) // the one of an earlier start
	if err := os.Symlink(socketOf(t, private), at); err != nil {
		t.Fatal(err)
	}
	return private
}

func socketOf(t *testing.T, private *cluster.Cluster) string {
	t.Helper()
	u, err := url.Parse(private.URL())
	if err != nil {
		t.Fatal(err)
	}
	return u.Query().Get("host")
}

// through is the URL of a Postgres by another name of its socket's folder.
func through(t *testing.T, private *cluster.Cluster, at string) string {
	t.Helper()
	return strings.Replace(private.URL(), url.QueryEscape(socketOf(t, private)), url.QueryEscape(at), 1)
}
