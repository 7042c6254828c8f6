package cluster

import (
	"log/slog"
	"sync"
	"time"
)

// How long a server that ended unasked is left alone: the sessions that it left
// behind end by themselves, and until then no other can start.
const (
	againAfter = 200 * time.Millisecond // doubled each time
	againMost  = 5 * time.Second
)

// A keeper starts a server again that ended without being asked to, as when the
// system killed it for its memory.
type keeper struct {
	once          sync.Once
	end           time.Time // by when; written before ending is closed
	ending, ended chan struct{}
}

// keep keeps a server until it is told to stop; spawn starts another one.
func keep(s *server, spawn func() (*server, error)) *keeper {
	k := &keeper{ending: make(chan struct{}), ended: make(chan struct{})}
	go func() {
		defer close(k.ended)
		for pause := againAfter; k.watch(s, pause); pause = min(2*pause, againMost) {
			slog.Warn("the private Postgres ended by itself; it is started again")
			next, err := spawn()
			if err != nil {
				slog.Error("the private Postgres does not start", "error", err)
				continue
			}
			s = next
		}
		s.stop(k.end)
	}()
	return k
}

// watch returns true a pause after the server has ended, and false when it is to.
func (k *keeper) watch(s *server, pause time.Duration) bool {
	select {
	case <-k.ending:
		return false
	case <-s.gone:
	}
	select {
	case <-k.ending:
		return false
	case <-time.After(pause):
		return true
	}
}

// stop stops the server by then, and returns when it has. The first to ask says
// by when.
func (k *keeper) stop(end time.Time) {
	k.once.Do(func() { k.end = end; close(k.ending) })
	<-k.ended
}
