package cluster

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"syscall"
)

// A place is a folder with the data of a cluster, the programs that may read
// them and whom these run as.
type place struct {
	dir, data string
	programs  programs
	owner     *account
}

// TempDir makes a temporary folder for a cluster and whatever belongs to it: run
// as root, Postgres has a user of its own, who must get through. The caller
// removes it.
func TempDir(pattern string) (string, error) {
	dir, err := os.MkdirTemp("", pattern)
	if err != nil {
		return "", err
	}
	if err := os.Chmod(dir, 0o711); err != nil {
		return "", errors.Join(err, os.RemoveAll(dir))
	}
	return dir, nil
}

func findPlace(ctx context.Context, dir string) (*place, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("the folder of the data: %w", err)
	}
	if err := os.MkdirAll(dir, 0o711); err != nil {
		return nil, fmt.Errorf("making the folder of the data: %w", err)
	}
	p := &place{dir: dir, data: filepath.Join(dir, "postgres")}
	if p.owner, err = findAccount(); err != nil {
		return nil, err
	}
	if err := p.owner.canReach(dir); err != nil {
		return nil, err
	}
	found, err := findPrograms(ctx, installedIn)
	if err != nil {
		return nil, err
	}
	p.programs, err = pickPrograms(found, p.data)
	return p, err
}

// initialise makes the data where there are none. They are made aside and
// moved, so that one cut short leaves nothing that looks like a cluster.
func (p *place) initialise(ctx context.Context, settings []string) error {
	if _, err := os.Stat(p.data); !errors.Is(err, os.ErrNotExist) {
		return err
	}
	aside, err := os.MkdirTemp(p.dir, "new-")
	if err != nil {
		return fmt.Errorf("making the data: %w", err)
	}
	defer os.RemoveAll(aside)
	if err := p.owner.own(aside); err != nil {
		return err
	}
	if err := p.initdb(ctx, aside, settings); err != nil {
		return err
	}
	if err := os.Rename(aside, p.data); err != nil && !errors.Is(err, syscall.ENOTEMPTY) {
		return fmt.Errorf("making the data: %w", err)
	}
	return nil // where another process was faster, its data are used
}

// initdb makes data in an empty folder of the owner's.
func (p *place) initdb(ctx context.Context, folder string, settings []string) error {
	args := []string{
		"--pgdata", folder, "--username", name, "--auth", "trust",
		"--encoding", "UTF8", "--locale", "C.UTF-8", "--data-checksums",
	}
	if slices.Contains(settings, "fsync=off") {
		args = append(args, "--no-sync")
	}
	cmd := exec.CommandContext(ctx, filepath.Join(p.programs.dir, "initdb"), args...)
	p.prepare(cmd)
	runtime.LockOSThread() // it ends with the thread that started it
	defer runtime.UnlockOSThread()
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("initdb: %w\n%s", err, out)
	}
	return nil
}

// prepare makes a command run as the owner, in a world it knows.
func (p *place) prepare(cmd *exec.Cmd) {
	cmd.Dir = p.dir
	cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8", "TZ=UTC")
	cmd.SysProcAttr = attributes(p.owner)
}

// running returns the cluster where another process is running it, and nil
// where nobody is. It waits for one that is on its way up or down.
func (p *place) running(ctx context.Context) (*Cluster, error) {
	socket, up := p.lookUp()
	if !up {
		return nil, nil
	}
	c := &Cluster{socket: socket}
	err := c.await(ctx, func() error {
		if _, up := p.lookUp(); !up {
			return errStopped
		}
		return nil
	})
	if errors.Is(err, errStopped) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return c, nil
}

var errStopped = errors.New("the server stopped")

// lookUp reads the pid file of the data: the folder of the socket, and whether
// a server is up. After a kill the file is stale: its number may even be that
// of another program by now, which a server would take for one of its kind, so
// that the file is then removed.
func (p *place) lookUp() (socket string, up bool) {
	path := filepath.Join(p.data, "postmaster.pid")
	text, err := os.ReadFile(path)
	if err != nil {
		return "", false
	}
	// The lines: pid, data folder, start time, port, socket folder, …
	lines := strings.Split(string(text), "\n")
	pid, err := strconv.Atoi(strings.TrimSpace(lines[0]))
	if err != nil || !isServer(pid) {
		_ = os.Remove(path) // where that fails the server says so
		return "", false
	}
	if len(lines) < 5 {
		return "", true // still being written
	}
	return strings.TrimSpace(lines[4]), true
}

// isServer tells whether a process is a Postgres. A process that does not say
// what it is counts as one if it is there.
func isServer(pid int) bool {
	if err := syscall.Kill(pid, 0); errors.Is(err, syscall.ESRCH) {
		return false
	}
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/comm", pid))
	if err != nil {
		return !errors.Is(err, os.ErrNotExist)
	}
	return strings.HasPrefix(string(text), "postgres")
}
