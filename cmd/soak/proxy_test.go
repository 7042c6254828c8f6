package soak

import (
	"math/rand/v2"
	"net"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// A proxy is the network between tablets and processes: one address for all, a
// connection goes to any process that takes it. It can be slow, and be cut.
type proxy struct {
	listener net.Listener
	targets  []string
	delay    atomic.Int64 // before each piece is carried, in nanoseconds

	mu    sync.Mutex
	conns map[net.Conn]struct{}
	all   sync.WaitGroup
}

func newProxy(t testing.TB, targets ...string) *proxy {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	p := &proxy{listener: listener, targets: targets, conns: map[net.Conn]struct{}{}}
	p.all.Go(func() {
		for {
			conn, err := listener.Accept()
			if err != nil {
				return
			}
			p.all.Go(func() { p.carry(conn) })
		}
	})
	t.Cleanup(func() {
		_ = listener.Close()
		p.cut()
		p.all.Wait()
	})
	return p
}

func (p *proxy) address() string { return p.listener.Addr().String() }

// carry connects one who asks with a process, which sees the asker's own address.
func (p *proxy) carry(from net.Conn) {
	defer end(from)
	dialer := net.Dialer{LocalAddr: &net.TCPAddr{IP: from.RemoteAddr().(*net.TCPAddr).IP}, Timeout: time.Second}
	for _, n := range rand.Perm(len(p.targets)) {
		to, err := dialer.Dial("tcp", p.targets[n])
		if err != nil {
			continue
		}
		p.hold(from, to)
		var ways sync.WaitGroup
		ways.Go(func() { p.copy(to, from) })
		ways.Go(func() { p.copy(from, to) })
		ways.Wait()
		p.drop(from, to)
		return
	}
}

func (p *proxy) copy(to, from net.Conn) {
	defer end(to, from)
	for piece := make([]byte, 16<<10); ; {
		n, err := from.Read(piece)
		if delay := p.delay.Load(); delay > 0 {
			<-time.After(time.Duration(delay))
		}
		if n > 0 {
			if _, err := to.Write(piece[:n]); err != nil {
				return
			}
		}
		if err != nil {
			return
		}
	}
}

func (p *proxy) hold(conns ...net.Conn) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, c := range conns {
		p.conns[c] = struct{}{}
	}
}

func (p *proxy) drop(conns ...net.Conn) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, c := range conns {
		delete(p.conns, c)
	}
}

// cut cuts all connections, in the middle of whatever they carry.
func (p *proxy) cut() {
	p.mu.Lock()
	defer p.mu.Unlock()
	for c := range p.conns {
		end(c)
	}
}

// end closes connections, which the other side may have done already.
func end(conns ...net.Conn) {
	for _, c := range conns {
		_ = c.Close()
	}
}
