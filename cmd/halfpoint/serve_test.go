package main

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
)

// TestServeStopsWithAnOpenStream runs the service on a private Postgres, opens
// an event stream and stops it. Everything must be over within the ten seconds
// that whoever stops it gives it.
func TestServeStopsWithAnOpenStream(t *testing.T) {
	c := ownConfig(t)
	r, stop, ended := serving(t, c)
	stream := openStream(t, r)
	stop()
	begin := time.Now()
	if _, err := io.Copy(io.Discard, stream); err != nil {
		t.Errorf("the stream broke instead of ending: %v", err)
	}
	if err := <-ended; err != nil {
		t.Error(err)
	}
	// Two seconds are for a machine that is busy; one after the other they would take fourteen.
	if took := time.Since(begin); took > endTime+2*time.Second {
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

// TestServeStopsInTimeWhateverHangs: a request whose body does not come, and a
// Postgres that does nothing more, together have the ten seconds that one has.
func TestServeStopsInTimeWhateverHangs(t *testing.T) {
	t.Parallel()
	c := ownConfig(t)
	r, stop, ended := serving(t, c)
	hangs := hangingImport(t, r)
	hang(t, filepath.Join(c.data, "postgres", "postmaster.pid"))
	stop()
	begin := time.Now()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	// Two seconds are for a machine that is busy; one after the other they would take fourteen.
	if took := time.Since(begin); took > endTime+2*time.Second {
		t.Errorf("stopping took %v", took)
	}
	if rest, err := io.ReadAll(hangs); err == nil && strings.Contains(string(rest), " 201 ") {
		t.Errorf("the request that had not come was answered: %q", rest)
	}
}

// hangingImport begins a request that the service is reading when it returns, and
// whose end is never sent.
func hangingImport(t *testing.T, r *running) net.Conn {
	t.Helper()
	conn, err := net.Dial("tcp", strings.TrimPrefix(r.url, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = conn.Close() })
	fmt.Fprintf(conn, "POST /api/v1/bundles HTTP/1.1\r\nHost: localhost\r\nAuthorization: Bearer %s\r\n"+
		"Content-Type: application/json\r\nContent-Length: 100\r\nExpect: 100-continue\r\n\r\n", r.token)
	const asked = "HTTP/1.1 100 Continue\r\n\r\n"
	answer := make([]byte, len(asked))
	if _, err := io.ReadFull(conn, answer); err != nil || string(answer) != asked {
		t.Fatalf("%q, %v", answer, err)
	}
	return conn
}

// hang stops the process that a pid file names from doing anything, its end
// included.
func hang(t *testing.T, pidFile string) {
	t.Helper()
	text, err := os.ReadFile(pidFile)
	if err != nil {
		t.Fatal(err)
	}
	var pid int
	if _, err := fmt.Sscan(string(text), &pid); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Kill(pid, syscall.SIGSTOP); err != nil {
		t.Fatal(err)
	}
}

// ownConfig is of a service on a private Postgres in a folder of the test's own.
func ownConfig(t *testing.T) *config {
	t.Helper()
	return &config{listen: "127.0.0.1:0", data: filepath.Join(dbtest.Folder(t), "data"), log: "error"}
}

// serving runs the service until stop is called; then ended tells how it ended.
func serving(t *testing.T, c *config) (r *running, stop context.CancelFunc, ended <-chan error) {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	started, over := make(chan *running, 1), make(chan error, 1)
	go func() { over <- serve(ctx, c, func(r *running) { started <- r }) }()
	select {
	case r = <-started:
	case err := <-over:
		t.Fatal(err)
	}
	return r, stop, over
}

// Whoever sends a request by drips, to hold a connection for ever, has it ended.
func TestSlowRequestsAreEnded(t *testing.T) {
	t.Parallel()
	r, stop, ended := serving(t, ownConfig(t))
	defer func() {
		stop()
		if err := <-ended; err != nil {
			t.Error(err)
		}
	}()
	address := strings.TrimPrefix(r.url, "http://")
	var drips sync.WaitGroup
	for part, bound := range map[string]time.Duration{
		"GET / HTTP/1.1\r\nHost: localhost\r\nX-Slow: ": headerTime,
		"POST /api/v1/sessions HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{": readTime,
	} {
		drips.Go(func() { endsWithin(t, address, part, 2*bound) })
	}
	drips.Wait()
}

// endsWithin sends a part of a request and waits for the other side to hang up.
func endsWithin(t *testing.T, address, part string, bound time.Duration) {
	conn, err := net.Dial("tcp", address)
	if err != nil {
		t.Error(err)
		return
	}
	defer func() { _ = conn.Close() }()
	if _, err = conn.Write([]byte(part)); err == nil {
		err = conn.SetReadDeadline(time.Now().Add(bound))
	}
	if err == nil {
		_, err = io.Copy(io.Discard, conn)
	}
	if err != nil {
		t.Errorf("%.40q: %v", part, err)
	}
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
