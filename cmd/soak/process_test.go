package soak

import (
	"bytes"
	"context"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

const token = "a token for these tests only"

// A process is the program serving, which can be killed and started again at the
// same address.
type process struct {
	t       testing.TB
	address string // with its port
	args    []string

	mu  sync.Mutex
	log bytes.Buffer
	cmd *exec.Cmd
}

// newProcess serves a database out of a folder of its own. All processes share
// the key and the second folder for publications.
func newProcess(t testing.TB, shared, name, database string, more ...string) *process {
	t.Helper()
	p := &process{t: t, address: freeAddress(t)}
	p.args = []string{
		"serve", "--listen", p.address, "--database", database, "--data", filepath.Join(shared, name), "--log", "warn",
		"--key-file", filepath.Join(shared, "signing-key.pem"), "--publications-dir", filepath.Join(shared, "publications"),
	}
	p.args = append(p.args, more...)
	t.Cleanup(func() {
		p.kill()
		if t.Failed() {
			t.Logf("what %s logged last:\n%s", name, p.lastWords())
		}
	})
	return p
}

func freeAddress(t testing.TB) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address := l.Addr().String()
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	return address
}

// start starts it, and returns how long it took until it was ready.
func (p *process) start() time.Duration {
	p.t.Helper()
	began := time.Now()
	p.cmd = exec.CommandContext(context.WithoutCancel(p.t.Context()), program, p.args...)
	p.cmd.Env = append(os.Environ(), "HALFPOINT_OFFICE_TOKEN="+token)
	p.cmd.Stdout, p.cmd.Stderr = p, p
	if err := p.cmd.Start(); err != nil {
		p.t.Fatal(err)
	}
	await(p.t, "the program to serve", p.isReady)
	return time.Since(began)
}

func (p *process) isReady() bool {
	response, err := http.Get("http://" + p.address + "/readyz")
	if err != nil {
		return false
	}
	response.Body.Close()
	return response.StatusCode == http.StatusOK
}

// kill ends it at once, as a power cut would.
func (p *process) kill() {
	if p.cmd != nil {
		_ = p.cmd.Process.Kill() // it may be gone already
		_ = p.cmd.Wait()         // says that it was killed
		p.cmd = nil
	}
}

// Write keeps what the process says.
func (p *process) Write(text []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.log.Write(text)
}

func (p *process) lastWords() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	text := p.log.Bytes()
	return string(p.odd()) + string(text[max(0, len(text)-2000):])
}

// odd are the errors that no fault explains: the database was there.
func (p *process) odd() (found []byte) {
	for line := range bytes.Lines(p.log.Bytes()) {
		if bytes.Contains(line, []byte(`"level":"ERROR"`)) && !bytes.Contains(line, []byte("is not available")) {
			found = append(found, line...)
		}
	}
	return found
}

// runs runs a command of the program that must succeed.
func runs(t testing.TB, args ...string) {
	t.Helper()
	out, err := exec.CommandContext(t.Context(), program, args...).CombinedOutput()
	if err != nil {
		t.Errorf("halfpoint %s: %v\n%s", fmt.Sprint(args), err, out)
	}
}
