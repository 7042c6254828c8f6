package db

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// togetherMax is how long storing some deliveries in one transaction may take.
const togetherMax = 8 * time.Second

// errNotNew: some of a delivery is there already, or its contest is not.
var errNotNew = errors.New("not all of it is new")

// storeNew stores a delivery of which nothing is there yet, as nearly all are, with
// those that come for the same contest meanwhile. It fails with errNotNew, and stores
// nothing, where anything is there.
func (db *DB) storeNew(ctx context.Context, s *storer) (Receipt, error) {
	if len(s.sound) == 0 {
		return Receipt{}, errNotNew
	}
	w, err := newWaiting(s)
	if err != nil {
		return Receipt{}, err
	}
	if db.arrived.add(w) {
		db.storeArrived(s.contest)
	}
	select {
	case <-w.done:
		return w.receipt, w.err
	case <-ctx.Done(): // it may be stored all the same
		return Receipt{}, ctx.Err()
	}
}

// storeArrived stores what has arrived for a contest. What arrives meanwhile is
// stored after it by another, so that nobody's own answer waits for it.
func (db *DB) storeArrived(contest uuid.UUID) {
	defer func() {
		if db.arrived.more(contest) {
			go db.storeArrived(contest)
		}
	}()
	db.storeSome(db.arrived.take(contest))
}

// storeSome stores deliveries of a contest: all together, or each alone where the
// database takes one of them amiss, so that none fails for another.
func (db *DB) storeSome(some []*waiting) {
	err := db.storeTogether(some)
	if _, amiss := errors.AsType[*pgconn.PgError](err); amiss && len(some) > 1 {
		for _, w := range some {
			db.storeSome([]*waiting{w})
		}
		return
	}
	for _, w := range some {
		w.err = err
		close(w.done)
	}
}

// storeTogether stores all of some deliveries of a contest, or nothing. All the
// statements go to the server in one piece, which makes them one transaction, and
// are answered in one: many grades are one way there and back, and one commit, and
// their contest's head is held for no other. It locks as [storer.store] does.
func (db *DB) storeTogether(some []*waiting) error {
	ctx, cancel := context.WithTimeout(context.Background(), togetherMax)
	defer cancel()
	err := db.insist(ctx, func() error { return known(db.pool.SendBatch(ctx, db.batch(some)).Close()) })
	if errors.Is(err, context.DeadlineExceeded) {
		err = fmt.Errorf("%w: it did not answer within %v", ErrUnavailable, togetherMax)
	}
	if err != nil {
		return err
	}
	for _, w := range some {
		db.haves.keep(w.delivery.Store, have{w.receipt.Epoch, w.receipt.Have})
	}
	db.tell(some[0].contest)
	return nil
}

// known tells what is there already, or refers to what is not, from other
// failures.
func known(err error) error {
	refused, ok := errors.AsType[*pgconn.PgError](err)
	if ok && (refused.Code == "23505" || refused.Code == "23503") { // unique_violation, foreign_key_violation
		return fmt.Errorf("%w: %w", errNotNew, err)
	}
	return err
}

// batch are the statements. None of them may depend on what another one finds, and
// nothing but the server may find that they fail: it would have committed.
func (db *DB) batch(some []*waiting) *pgx.Batch {
	b := &pgx.Batch{}
	var lock flightLock
	for _, w := range some {
		lock.add(w.storer)
	}
	sql, args := lock.statement(some[0].contest)
	b.Queue(sql, args)
	for _, r := range rowsOf(some) {
		b.Queue(insertDelivered, r...)
	}
	for _, w := range byDevice(some) {
		sql, args := w.delivery.Contact.notingNews(w.contest)
		b.Queue(sql, args)
	}
	for _, w := range some {
		from := db.haves.of(w.delivery.Store)
		b.Queue(readingHave, haveArgs(w.contest, w.delivery.Store, from)).QueryRow(into(&w.receipt.Epoch, &w.receipt.Have))
	}
	for _, w := range some {
		b.Queue(raising, w.raised).QueryRow(into(&w.receipt.Version))
	}
	return b
}

// rowsOf are the rows of all records, by the records' ids.
func rowsOf(some []*waiting) (rows [][]any) {
	for _, w := range some {
		for n := range w.rows {
			rows = append(rows, w.insertArgs(n))
		}
	}
	slices.SortFunc(rows, func(a, b []any) int {
		x, y := a[idColumn].([16]byte), b[idColumn].([16]byte)
		return bytes.Compare(x[:], y[:])
	})
	return rows
}

// byDevice are those that a device sends for itself, by the device.
func byDevice(some []*waiting) []*waiting {
	own := slices.DeleteFunc(slices.Clone(some), func(w *waiting) bool { return w.delivery.Contact == nil })
	slices.SortFunc(own, func(a, b *waiting) int {
		return cmp.Compare(a.delivery.Contact.Device.String(), b.delivery.Contact.Device.String())
	})
	return own
}

func into(values ...any) func(pgx.Row) error {
	return func(row pgx.Row) error { return row.Scan(values...) }
}
