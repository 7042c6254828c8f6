package cluster

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

// child is set in the environment of a process of this test that only runs a
// cluster until it is killed.
const child = "HALFPOINT_TEST_CLUSTER_CHILD"

func TestMain(m *testing.M) {
	if dir := os.Getenv(child); dir != "" {
		c, err := Start(context.Background(), dir)
		fmt.Println(c.URL(), err)
		select {}
	}
	os.Exit(runTests(m))
}

// shared is a folder whose data are made once, because that takes longest; the
// tests run one after the other and each leaves its server stopped.
var shared string

func runTests(m *testing.M) int {
	dir, err := TempDir("halfpoint-test-")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	shared = filepath.Join(dir, "data")
	return m.Run()
}

// folder is one that the server's account can reach.
func folder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.Chmod(filepath.Dir(dir), 0o711); err != nil {
		t.Fatal(err)
	}
	return dir
}

func start(t *testing.T, dir string, settings ...string) *Cluster {
	t.Helper()
	c, err := Start(t.Context(), dir, settings...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.Stop)
	return c
}

func ask(t *testing.T, c *Cluster, sql string) (answer string) {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), c.URL())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(t.Context())
	if err := conn.QueryRow(t.Context(), sql).Scan(&answer); err != nil {
		t.Fatalf("%s: %v", sql, err)
	}
	return answer
}

func do(t *testing.T, c *Cluster, sql string) {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), c.URL())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(t.Context())
	if _, err := conn.Exec(t.Context(), sql); err != nil {
		t.Fatalf("%s: %v", sql, err)
	}
}

func TestStartsAgainWithItsData(t *testing.T) {
	dir := shared
	c := start(t, dir)
	for setting, want := range map[string]string{
		"fsync": "on", "synchronous_commit": "on", "listen_addresses": "", "data_checksums": "on",
		"server_encoding": "UTF8", "unix_socket_permissions": "0700",
	} {
		if got := ask(t, c, "SHOW "+setting); got != want {
			t.Errorf("%s is %q, want %q", setting, got, want)
		}
	}
	conn, err := pgx.Connect(t.Context(), c.URL())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := conn.Exec(t.Context(), "CREATE TABLE kept AS SELECT 'here' AS word"); err != nil {
		t.Fatal(err)
	}
	c.Stop() // with a session open
	c.Stop()
	if got := ask(t, start(t, dir), "SELECT word FROM kept"); got != "here" {
		t.Errorf("read %q", got)
	}
}

// A folder with a long name has its socket elsewhere, and leaves none behind.
func TestALongName(t *testing.T) {
	dir := shared
	link := filepath.Join(filepath.Dir(shared), strings.Repeat("long", 30))
	if err := os.Symlink(dir, link); err != nil {
		t.Fatal(err)
	}
	c := start(t, link)
	ask(t, c, "SHOW fsync")
	c.Stop()
	if _, err := os.Stat(c.socket); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%s is left: %v", c.socket, err)
	}
}

func TestASecondProcessUsesTheFirst(t *testing.T) {
	dir := shared
	first := start(t, dir)
	second := start(t, dir)
	if first.URL() != second.URL() {
		t.Errorf("%s and %s", first.URL(), second.URL())
	}
	second.Stop()
	ask(t, first, "SHOW fsync")
}

// A kill of the program ends its Postgres, and leaves nothing that keeps the next
// one from starting.
func TestStartsAfterAKill(t *testing.T) {
	dir := shared
	killChild(t, dir)
	c := start(t, dir)
	if c.keeper == nil {
		t.Fatal("the killed child's server is still used")
	}
	ask(t, c, "SHOW fsync")
}

// killChild starts a cluster in a process of its own, kills that process, and
// waits for the end of its server.
func killChild(t *testing.T, dir string) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), child+"="+dir)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || !strings.Contains(line, "<nil>") {
		t.Fatalf("the child said %q, %v", line, err)
	}
	postgres := pidOf(t, dir)
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait() // says that it was killed
	awaitEnd(t, postgres)
}

// pidOf is the number of the process that serves a folder.
func pidOf(t *testing.T, dir string) (pid int) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "postgres", "postmaster.pid"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := fmt.Sscan(string(text), &pid); err != nil {
		t.Fatal(err)
	}
	return pid
}

// awaitEnd waits for the end of a process that is not our child.
func awaitEnd(t *testing.T, pid int) {
	t.Helper()
	look := time.NewTicker(10 * time.Millisecond)
	defer look.Stop()
	for deadline := time.After(20 * time.Second); isServer(pid); {
		select {
		case <-look.C:
		case <-deadline:
			t.Fatalf("process %d did not end with the one that started it", pid)
		}
	}
}

// TestAKilledServerIsStartedAgain: what was committed is there, at the same
// address, and the cluster still stops.
func TestAKilledServerIsStartedAgain(t *testing.T) {
	c := start(t, shared)
	defer c.Stop()
	do(t, c, "CREATE TABLE outlived ()")
	pid := pidOf(t, shared)
	if err := syscall.Kill(pid, syscall.SIGKILL); err != nil {
		t.Fatal(err)
	}
	awaitEnd(t, pid)
	if err := c.await(t.Context(), func() error { return nil }); err != nil {
		t.Fatal(err)
	}
	if got := ask(t, c, "SELECT to_regclass('outlived')::text"); got != "outlived" {
		t.Errorf("after the kill there is %q", got)
	}
}

// TestOneThatDoesNotStop: it is over by the time that was given, and what was
// committed is there.
func TestOneThatDoesNotStop(t *testing.T) {
	c := start(t, shared)
	do(t, c, "CREATE TABLE hung ()")
	pid := pidOf(t, shared)
	if err := syscall.Kill(pid, syscall.SIGSTOP); err != nil {
		t.Fatal(err)
	}
	end := time.Now().Add(2 * time.Second)
	c.StopBy(end)
	if over := time.Now(); over.After(end) {
		t.Errorf("over %v late", over.Sub(end))
	}
	awaitEnd(t, pid)
	if got := ask(t, start(t, shared), "SELECT to_regclass('hung')::text"); got != "hung" {
		t.Errorf("after the kill there is %q", got)
	}
}

func TestAStalePidOfAnotherProgram(t *testing.T) {
	dir := shared
	start(t, dir).Stop()
	pid := filepath.Join(dir, "postgres", "postmaster.pid")
	if err := os.WriteFile(pid, fmt.Appendf(nil, "%d\n%s\n1\n5432\n/nowhere\n", os.Getpid(), dir), 0o600); err != nil {
		t.Fatal(err)
	}
	ask(t, start(t, dir), "SHOW fsync")
}

func TestRefusals(t *testing.T) {
	t.Run("no programs", func(t *testing.T) {
		t.Setenv("PATH", t.TempDir())
		_, err := findPrograms(t.Context(), filepath.Join(t.TempDir(), "*"))
		if !errors.Is(err, errNoPrograms) || !strings.Contains(err.Error(), "apt install postgresql") {
			t.Errorf("%v", err)
		}
	})
	for version, word := range map[string]string{"99\n": "newer", "9\n": "older", "?": "no data of Postgres"} {
		t.Run("data of "+version, func(t *testing.T) {
			dir := folder(t)
			if err := os.Mkdir(filepath.Join(dir, "postgres"), 0o700); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, "postgres", "PG_VERSION"), []byte(version), 0o600); err != nil {
				t.Fatal(err)
			}
			if _, err := Start(t.Context(), dir); err == nil || !strings.Contains(err.Error(), word) {
				t.Errorf("%v, want one with %q", err, word)
			}
		})
	}
	t.Run("a folder in the way", func(t *testing.T) {
		dir := t.TempDir() // below one of mode 0700
		closed := filepath.Join(dir, "closed")
		if err := os.Mkdir(closed, 0o700); err != nil {
			t.Fatal(err)
		}
		_, err := Start(t.Context(), filepath.Join(closed, "data"))
		if os.Geteuid() == 0 && (err == nil || !strings.Contains(err.Error(), "cannot pass the folder "+closed)) {
			t.Errorf("%v", err)
		}
	})
	t.Run("a setting that does not exist", func(t *testing.T) {
		_, err := Start(t.Context(), shared, "no_such_setting=1")
		if err == nil || !strings.Contains(err.Error(), "no_such_setting") {
			t.Errorf("%v does not say what the server said", err)
		}
	})
}
