package soak

import (
	"context"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"halfpoint/db/cluster"
	"halfpoint/db/dbtest"
)

// A pair is a primary and its synchronous hot standby, as they would be on two
// machines.
type pair struct {
	t                testing.TB
	primaryDir       string
	primary, standby *cluster.Cluster
}

// startPair returns when every commit waits for the standby.
func startPair(t testing.TB) *pair {
	t.Helper()
	dir := dbtest.Folder(t)
	p := &pair{t: t, primaryDir: filepath.Join(dir, "primary")}
	p.primary = startPostgres(t, p.primaryDir)
	standby := filepath.Join(dir, "standby")
	p.copyData(standby)
	p.standby = startPostgres(t, standby)
	await(t, "the standby to be synchronous", func() bool {
		return ask1(t, p.primary, "SELECT count(*)::text FROM pg_stat_replication WHERE sync_state = 'sync'") == "1"
	})
	return p
}

// startPostgres starts one that would lose what the machine itself had not written
// at a power cut. Nothing here cuts the power, and it is quicker.
func startPostgres(t testing.TB, dir string) *cluster.Cluster {
	t.Helper()
	c, err := cluster.Start(context.WithoutCancel(t.Context()), dir, "fsync=off")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.Stop)
	return c
}

// copyData makes the standby's data, for whoever owns the primary's.
func (p *pair) copyData(dir string) {
	p.t.Helper()
	if err := os.MkdirAll(dir, 0o711); err != nil {
		p.t.Fatal(err)
	}
	data := filepath.Join(dir, "postgres")
	copying := exec.CommandContext(p.t.Context(), "../../tools/standby", data, p.primary.URL())
	if out, err := copying.CombinedOutput(); err != nil {
		p.t.Fatalf("%v: %s", err, out)
	}
	give(p.t, data, filepath.Join(p.primaryDir, "postgres"))
}

// give gives a folder to the owner of another one.
func give(t testing.TB, dir, like string) {
	t.Helper()
	info, err := os.Stat(like)
	if err != nil {
		t.Fatal(err)
	}
	owner := info.Sys().(*syscall.Stat_t)
	err = filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		if err == nil {
			err = os.Chown(path, int(owner.Uid), int(owner.Gid))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// url names both servers, and wants the one that takes what is written.
func (p *pair) url() string {
	return fmt.Sprintf("postgres:///halfpoint?user=halfpoint&host=%s,%s&port=5432,5432&target_session_attrs=read-write",
		socketOf(p.t, p.primary), socketOf(p.t, p.standby))
}

func socketOf(t testing.TB, c *cluster.Cluster) string {
	t.Helper()
	u, err := url.Parse(c.URL())
	if err != nil {
		t.Fatal(err)
	}
	return u.Query().Get("host")
}

// losePrimary kills the primary for good: its data are not where they were.
func (p *pair) losePrimary() {
	p.t.Helper()
	data := filepath.Join(p.primaryDir, "postgres")
	pid := serverPid(p.t, data)
	if err := os.Rename(data, data+".lost"); err != nil {
		p.t.Fatal(err)
	}
	if err := syscall.Kill(pid, syscall.SIGKILL); err != nil {
		p.t.Fatal(err)
	}
}

// serverPid is the number of the process that serves a folder.
func serverPid(t testing.TB, data string) (pid int) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(data, "postmaster.pid"))
	if err == nil {
		_, err = fmt.Sscan(string(text), &pid)
	}
	if err != nil {
		t.Fatal(err)
	}
	return pid
}

// promote makes the standby the primary.
func (p *pair) promote() {
	p.t.Helper()
	run1(p.t, p.standby, "SELECT pg_promote()")
}

func run1(t testing.TB, c *cluster.Cluster, sql string) {
	t.Helper()
	conn := connect(t, c)
	defer conn.Close(context.WithoutCancel(t.Context()))
	if _, err := conn.Exec(t.Context(), sql); err != nil {
		t.Fatalf("%s: %v", sql, err)
	}
}

func ask1(t testing.TB, c *cluster.Cluster, sql string) (answer string) {
	t.Helper()
	conn := connect(t, c)
	defer conn.Close(context.WithoutCancel(t.Context()))
	if err := conn.QueryRow(t.Context(), sql).Scan(&answer); err != nil {
		t.Fatalf("%s: %v", sql, err)
	}
	return strings.TrimSpace(answer)
}

func connect(t testing.TB, c *cluster.Cluster) *pgx.Conn {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), c.URL())
	if err != nil {
		t.Fatal(err)
	}
	return conn
}

// await looks again and again until something is so, for a minute at most.
func await(t testing.TB, what string, so func() bool) {
	t.Helper()
	look := time.NewTicker(10 * time.Millisecond)
	defer look.Stop()
	for deadline := time.After(time.Minute); !so(); {
		select {
		case <-look.C:
		case <-deadline:
			t.Fatalf("waited in vain for %s", what)
		}
	}
}
