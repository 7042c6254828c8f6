package db

import (
	"slices"
	"sync"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// mostTogether is how many deliveries are stored in one transaction.
const mostTogether = 32

// waiting is a delivery that is to be stored; when done is closed, its receipt is
// there, or an error.
type waiting struct {
	*storer
	raised pgx.StrictNamedArgs // what the contest's head is raised with

	done    chan struct{}
	receipt Receipt
	err     error
}

func newWaiting(s *storer) (*waiting, error) {
	w := &waiting{storer: s, done: make(chan struct{}), receipt: Receipt{Answers: slices.Clone(s.answers)}}
	var err error
	w.raised, err = raisingArgs(s.contest, *s.act(&w.receipt))
	return w, err
}

// arrived are the deliveries that wait to be stored. Those of one contest wait for
// one another in any case, by their contest's head: so they go together, and a line
// whose judges all press a key at once waits for the disk once or twice, not once for
// each of them. Contests do not wait for each other.
type arrived struct {
	mu       sync.Mutex
	contests map[uuid.UUID][]*waiting // an entry, if empty, where somebody stores them
}

// add adds a delivery, and tells whether nobody stores those of its contest yet.
func (a *arrived) add(w *waiting) (first bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.contests == nil {
		a.contests = map[uuid.UUID][]*waiting{}
	}
	there, stored := a.contests[w.contest]
	a.contests[w.contest] = append(there, w)
	return !stored
}

// take takes the deliveries of a contest that have waited longest.
func (a *arrived) take(contest uuid.UUID) []*waiting {
	a.mu.Lock()
	defer a.mu.Unlock()
	there := a.contests[contest]
	n := min(len(there), mostTogether)
	a.contests[contest] = there[n:]
	return slices.Clip(there[:n])
}

// more tells whether there are more of a contest; where not, nobody stores them any
// more.
func (a *arrived) more(contest uuid.UUID) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	if len(a.contests[contest]) > 0 {
		return true
	}
	delete(a.contests, contest)
	return false
}
