package db

import (
	"context"
	"sync"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// readingHave reads the server's epoch, and how far a store's records are here: the
// highest seq up to which none is missing. Those up to a known one are not counted
// again, as long as the server is of the epoch at which that was known. It stands in a
// query of its own, so that the index is entered there: a join would go through all of
// the store.
const readingHave = `
	WITH known AS (
		SELECT
			epoch,
			CASE WHEN epoch = @epoch THEN @known::bigint ELSE 0 END AS seq
		FROM server
	), later AS (
		SELECT DISTINCT seq
		FROM line_record
		WHERE contest_id = @contest
			AND store = @store
			AND seq > (SELECT seq FROM known)
	), counted AS (
		SELECT
			seq,
			(SELECT seq FROM known) + row_number() OVER (ORDER BY seq) AS place
		FROM later
	)
	SELECT
		epoch,
		coalesce((SELECT max(seq) FROM counted WHERE seq = place), seq) AS seq
	FROM known`

func haveArgs(contest, store uuid.UUID, from have) pgx.StrictNamedArgs {
	return pgx.StrictNamedArgs{"contest": [16]byte(contest), "store": [16]byte(store), "epoch": [16]byte(from.epoch), "known": from.seq}
}

// readHave counts from the beginning.
func readHave(ctx context.Context, tx pgx.Tx, contest, store uuid.UUID) (seq int64, err error) {
	err = tx.QueryRow(ctx, readingHave, haveArgs(contest, store, have{})).Scan(nil, &seq)
	return seq, err
}

// A have is how far the records of a store were here, at an epoch.
type have struct {
	epoch uuid.UUID
	seq   int64
}

// maxHaves is of how many stores it is kept in mind.
const maxHaves = 20000

// haves keeps in mind how far the records of stores are here. Records are never
// deleted, so that what was once so stays so on the same server; it is forgotten with
// every new connection, which may lead to another one.
type haves struct {
	mu     sync.Mutex
	stores map[uuid.UUID]have
}

func (h *haves) of(store uuid.UUID) have {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.stores[store]
}

func (h *haves) keep(store uuid.UUID, now have) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.stores == nil || len(h.stores) >= maxHaves {
		h.stores = map[uuid.UUID]have{}
	}
	h.stores[store] = now
}

func (h *haves) forget() {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.stores = nil
}
