package api

import (
	"sync"

	"github.com/google/uuid"

	"halfpoint/db"
)

// A hub passes the changes of contests on to whoever watches them. A watcher
// that is slow gets the latest head with all that changed, never a queue.
type hub struct {
	mu       sync.Mutex
	watchers map[uuid.UUID]map[*watcher]struct{}
	closed   bool
}

// A watcher receives the changes of one contest, several as one. Its channel is
// closed when the service ends.
type watcher struct {
	contest uuid.UUID
	changes chan db.Change
}

func newHub() *hub {
	return &hub{watchers: map[uuid.UUID]map[*watcher]struct{}{}}
}

// watch begins to watch a contest; what it returns must be dropped.
func (h *hub) watch(contest uuid.UUID) *watcher {
	w := &watcher{contest: contest, changes: make(chan db.Change, 1)}
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed {
		close(w.changes)
		return w
	}
	if h.watchers[contest] == nil {
		h.watchers[contest] = map[*watcher]struct{}{}
	}
	h.watchers[contest][w] = struct{}{}
	return w
}

func (h *hub) drop(w *watcher) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.watchers[w.contest], w)
	if len(h.watchers[w.contest]) == 0 {
		delete(h.watchers, w.contest)
	}
}

// raise passes a change on. It never waits.
func (h *hub) raise(change db.Change) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed {
		return
	}
	for w := range h.watchers[change.Contest] {
		told := change
		select {
		case before := <-w.changes: // that nobody took
			told = change.After(before)
		default:
		}
		w.changes <- told // there is room: only raise sends, one at a time
	}
}

// close ends every watch, now and later.
func (h *hub) close() {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed {
		return
	}
	h.closed = true
	for _, watchers := range h.watchers {
		for w := range watchers {
			close(w.changes)
		}
	}
}
