package main

import (
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfpoint/db"
	"halfpoint/scoring"
)

// TestServeStopsWithAnOpenStream runs the service on a private Postgres, opens
// an event stream and stops it. Everything must be over within the ten seconds
// that whoever stops it gives it.
func TestServeStopsWithAnOpenStream(t *testing.T) {
	dir, err := os.MkdirTemp("", "halfpoint-test-") // one that the user of Postgres may pass
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.RemoveAll(dir) })
	if err := os.Chmod(dir, 0o711); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	started, ended := make(chan *running, 1), make(chan error, 1)
	c := &config{listen: "127.0.0.1:0", data: filepath.Join(dir, "data"), log: "error"}
	go func() { ended <- serve(ctx, c, func(r *running) { started <- r }) }()

	var r *running
	select {
	case r = <-started:
	case err := <-ended:
		t.Fatal(err)
	}
	stream := openStream(t, r)
	stop()
	begin := time.Now()
	if _, err := io.Copy(io.Discard, stream); err != nil {
		t.Errorf("the stream broke instead of ending: %v", err)
	}
	if err := <-ended; err != nil {
		t.Error(err)
	}
	if took := time.Since(begin); took > 10*time.Second {
		t.Errorf("stopping took %v", took)
	}
	if response, err := http.Get(r.url + "/healthz"); err == nil {
		response.Body.Close()
		t.Error("it still answers")
	}
	if pids, _ := filepath.Glob(filepath.Join(c.data, "*", "postmaster.pid")); len(pids) > 0 {
		t.Errorf("the private Postgres was left running: %v", pids)
	}
	checkToken(t, c, r)
}

// openStream follows a contest and waits for its first event.
func openStream(t *testing.T, r *running) io.Reader {
	t.Helper()
	b := &scoring.Bundle{Format: scoring.BundleFormat, Contest: scoring.Contest{Name: "Open"}}
	contest, err := r.db.Import(t.Context(), b, db.ImportOptions{Opened: db.Live})
	if err != nil {
		t.Fatal(err)
	}
	response, err := http.Get(r.url + "/api/v1/contests/" + contest.String() + "/events")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { response.Body.Close() })
	if _, err := io.ReadFull(response.Body, make([]byte, len("id: "))); err != nil {
		t.Fatal(err)
	}
	return response.Body
}

// checkToken holds the file of the office's token to what was served, and to
// be its owner's alone.
func checkToken(t *testing.T, c *config, r *running) {
	t.Helper()
	path := filepath.Join(c.data, "office-token")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if strings.TrimSpace(string(text)) != r.token || len(r.token) < leastToken {
		t.Errorf("the token is not the one in the file")
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file of the token: %v, %v", info.Mode(), err)
	}
	if again, err := officeToken(c); err != nil || again != r.token {
		t.Errorf("the next start has another token, %v", err)
	}
}
