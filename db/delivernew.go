package db

import (
	"context"
	"errors"
	"slices"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// errNotNew: some of a delivery is there already, or its contest is not.
var errNotNew = errors.New("not all of it is new")

// storeNew stores a delivery of which nothing is there yet, as nearly all are. All
// its statements go to the server in one piece, which makes them one transaction,
// and are answered in one: a grade is one way there and back, and its contest's
// head is held for no other. It locks as [storer.store] does. It fails with
// errNotNew, and stores nothing, where anything is there.
func (db *DB) storeNew(ctx context.Context, s *storer) (receipt Receipt, err error) {
	if len(s.sound) == 0 {
		return Receipt{}, errNotNew
	}
	err = db.insist(ctx, func() error {
		receipt = Receipt{Answers: slices.Clone(s.answers)}
		batch, err := s.batch(&receipt, db.haves.of(s.delivery.Store))
		if err != nil {
			return err
		}
		return known(db.pool.SendBatch(ctx, batch).Close())
	})
	if err != nil {
		return Receipt{}, err
	}
	db.haves.keep(s.delivery.Store, have{receipt.Epoch, receipt.Have})
	db.tell(s.contest)
	return receipt, nil
}

// known tells what is there already, or refers to what is not, from other
// failures.
func known(err error) error {
	refused, ok := errors.AsType[*pgconn.PgError](err)
	if ok && (refused.Code == "23505" || refused.Code == "23503") { // unique_violation, foreign_key_violation
		return errNotNew
	}
	return err
}

// batch are the statements. None of them may depend on what another one finds, and
// nothing but the server may find that they fail: it would have committed.
func (s *storer) batch(receipt *Receipt, from have) (*pgx.Batch, error) {
	raised, err := raisingArgs(s.contest, *s.act(receipt))
	if err != nil {
		return nil, err
	}
	b := &pgx.Batch{}
	sql, locked := s.flightLock()
	b.Queue(sql, locked)
	for n := range s.rows {
		b.Queue(insertDelivered, s.insertArgs(n)...)
	}
	if c := s.delivery.Contact; c != nil {
		sql, args := c.noting(s.contest)
		b.Queue(sql, args)
	}
	b.Queue(readingHave, haveArgs(s.contest, s.delivery.Store, from)).QueryRow(into(&receipt.Have))
	b.Queue("SELECT epoch FROM server").QueryRow(into(&receipt.Epoch))
	b.Queue(raising, raised).QueryRow(into(&receipt.Version))
	return b, nil
}

func into(value any) func(pgx.Row) error {
	return func(row pgx.Row) error { return row.Scan(value) }
}
