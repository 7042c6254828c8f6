package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// NewSession is what a session is made of. The secret behind its hash is known
// to the browser alone.
type NewSession struct {
	Hash      Hash
	UserAgent string // as the browser names itself
	Password  bool   // a password was given for it
}

// maxAgent is how much is kept of what a browser says of itself, in characters.
const maxAgent = 200

// OpenSession makes a session of an account and returns when it ends: two days
// after the last of its contests, within 30 days, and not within the next.
func (db *DB) OpenSession(ctx context.Context, account uuid.UUID, s NewSession) (expires time.Time, err error) {
	err = db.write(ctx, func(tx pgx.Tx) error {
		expires, err = openSession(ctx, tx, account, s)
		return err
	})
	if err != nil {
		return time.Time{}, fmt.Errorf("opening a session: %w", err)
	}
	return expires, nil
}

// OpenSessionByLink uses a link up to make a session of its account. It fails
// with ErrNotFound where the link is not good.
func (db *DB) OpenSessionByLink(ctx context.Context, link Hash, s NewSession) (expires time.Time, err error) {
	err = db.write(ctx, func(tx pgx.Tx) error {
		account, err := useAccountLink(ctx, tx, link, LinkSignIn)
		if err == nil {
			expires, err = openSession(ctx, tx, account, s)
		}
		return err
	})
	if err != nil {
		return time.Time{}, fmt.Errorf("opening a session by a link: %w", err)
	}
	return expires, nil
}

func openSession(ctx context.Context, tx pgx.Tx, account uuid.UUID, s NewSession) (time.Time, error) {
	return value[time.Time](ctx, tx, `
		WITH old AS (
			DELETE FROM session
			WHERE account_id = @account
				AND least(expires_at, coalesce(withdrawn_at, expires_at)) < now() - interval '30 days'
		), contests AS (
			SELECT max(c.ends) AS ends
			FROM contest_role r
			JOIN contest c USING (contest_id)
			WHERE r.account_id = @account
		)
		INSERT INTO session (session_id, hash, account_id, user_agent, confirmed_at, expires_at)
		SELECT
			@id,
			@hash,
			@account,
			left(@agent, @agent_length),
			CASE WHEN @password THEN now() END,
			least(now() + interval '30 days', greatest(now() + interval '1 day', coalesce(ends + 3, 'infinity')))
		FROM contests
		RETURNING expires_at`,
		pgx.StrictNamedArgs{
			"id": newID(), "hash": s.Hash[:], "account": account, "agent": s.UserAgent, "agent_length": maxAgent, "password": s.Password,
		})
}
