package cluster

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"syscall"
	"time"
)

// durable: what is answered as committed is on the disk.
var durable = []string{"fsync=on", "full_page_writes=on", "synchronous_commit=on"}

// reachable: by a socket that only the owner and root can open.
func reachable(socket string) []string {
	return []string{"listen_addresses=", "port=" + port, "unix_socket_directories=" + socket, "unix_socket_permissions=0700"}
}

// A server is the process of a Postgres that we started.
type server struct {
	process *os.Process
	gone    chan struct{} // closed when it has ended
}

// ended is errStopped once the process has ended.
func (s *server) ended() error {
	select {
	case <-s.gone:
		return errStopped
	default:
		return nil
	}
}

// launch starts the server and waits until it takes connections.
func (p *place) launch(ctx context.Context, settings []string) (*Cluster, error) {
	c := &Cluster{}
	var first *server
	err := c.makeSocket(p)
	if err == nil {
		first, err = p.spawn(c.socket, settings)
	}
	if err != nil {
		c.removeSocket()
		return nil, err
	}
	err = c.await(ctx, first.ended)
	if err == nil {
		c.keeper = keep(first, func() (*server, error) {
			p.lookUp() // removes a stale pid file
			return p.spawn(c.socket, settings)
		})
		return c, nil
	}
	first.stop(time.Now().Add(stopTimeout))
	c.removeSocket()
	// Another process may have been faster by a hair: then that one serves.
	if other, otherErr := p.running(ctx); other != nil || otherErr != nil {
		return other, otherErr
	}
	return nil, fmt.Errorf("starting Postgres: %w: %s", err, p.lastWords())
}

// spawn starts a process on the data.
func (p *place) spawn(socket string, settings []string) (*server, error) {
	log, err := os.OpenFile(p.log(), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return nil, fmt.Errorf("the log of Postgres: %w", err)
	}
	defer log.Close()
	args := []string{"-D", p.data}
	for _, setting := range slices.Concat(durable, settings, reachable(socket)) {
		args = append(args, "-c", setting) // of two the later one holds
	}
	cmd := exec.Command(filepath.Join(p.programs.dir, "postgres"), args...)
	cmd.Stderr = log
	p.prepare(cmd)
	return startProcess(cmd)
}

// startProcess starts a server's process. It is to end when we do, even by a kill, and the
// kernel knows us by the thread that started it: that thread is kept for as
// long as the server runs.
func startProcess(cmd *exec.Cmd) (*server, error) {
	s := &server{gone: make(chan struct{})}
	started := make(chan error)
	go func() {
		runtime.LockOSThread()
		defer close(s.gone)
		err := cmd.Start()
		s.process = cmd.Process
		started <- err
		if err == nil {
			_ = cmd.Wait() // how it ended stands in its log
		}
	}()
	if err := <-started; err != nil {
		return nil, fmt.Errorf("starting Postgres: %w", err)
	}
	return s, nil
}

// How long before its end a server that was asked to stop is told to leave its
// data as they are, and then killed.
const (
	quitBefore = 1500 * time.Millisecond
	killBefore = 500 * time.Millisecond
)

// stop ends the sessions and the server by then.
func (s *server) stop(end time.Time) {
	if !s.endsOn(syscall.SIGINT, end.Add(-quitBefore)) && !s.endsOn(syscall.SIGQUIT, end.Add(-killBefore)) {
		_ = s.process.Kill()
		<-s.gone
	}
}

// endsOn tells whether the server has ended on a signal by then.
func (s *server) endsOn(signal os.Signal, end time.Time) bool {
	_ = s.process.Signal(signal) // it may be gone already
	select {
	case <-s.gone:
		return true
	case <-time.After(time.Until(end)):
		return false
	}
}

func (p *place) log() string { return filepath.Join(p.dir, "postgres.log") }

// lastWords is the end of the server's log.
func (p *place) lastWords() string {
	text, err := os.ReadFile(p.log())
	if err != nil {
		return err.Error()
	}
	lines := bytes.Split(bytes.TrimSpace(text), []byte("\n"))
	return string(bytes.Join(lines[max(0, len(lines)-5):], []byte("\n")))
}
