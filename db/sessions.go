package db

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// SessionInfo is what a list says of a session.
type SessionInfo struct {
	ID         uuid.UUID
	CreatedAt  time.Time
	LastSeenAt time.Time // to the minute
	ExpiresAt  time.Time
	UserAgent  string
}

// Sessions lists an account's sessions that hold, the one seen last first.
func (db *DB) Sessions(ctx context.Context, account uuid.UUID) (sessions []SessionInfo, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		sessions, err = rows[SessionInfo](ctx, tx, `
			SELECT
				session_id AS id,
				created_at,
				last_seen_at,
				expires_at,
				user_agent
			FROM session
			WHERE account_id = @account
				AND withdrawn_at IS NULL
				AND expires_at > now()
			ORDER BY last_seen_at DESC, session_id DESC`,
			pgx.StrictNamedArgs{"account": account})
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing sessions: %w", err)
	}
	return sessions, nil
}

// WithdrawSession ends a session of an account.
func (db *DB) WithdrawSession(ctx context.Context, account, session uuid.UUID) error {
	err := db.write(ctx, func(tx pgx.Tx) error {
		return exec(ctx, tx, `
			UPDATE session
			SET withdrawn_at = now()
			WHERE session_id = @session
				AND account_id = @account
				AND withdrawn_at IS NULL`,
			pgx.StrictNamedArgs{"session": session, "account": account})
	})
	if err != nil {
		return fmt.Errorf("withdrawing a session: %w", err)
	}
	return nil
}

// EndSession ends a session, of an account or a device, that has signed out.
func (db *DB) EndSession(ctx context.Context, session uuid.UUID) error {
	return db.touchSession(ctx, session, "ending a session", `
		UPDATE session
		SET withdrawn_at = coalesce(withdrawn_at, now())
		WHERE session_id = @session`)
}

// ConfirmSession notes that the password was given again in a session.
func (db *DB) ConfirmSession(ctx context.Context, session uuid.UUID) error {
	return db.touchSession(ctx, session, "confirming a session", `
		UPDATE session
		SET confirmed_at = now()
		WHERE session_id = @session`)
}

func (db *DB) touchSession(ctx context.Context, session uuid.UUID, doing, sql string) error {
	err := db.write(ctx, func(tx pgx.Tx) error {
		return exec(ctx, tx, sql, pgx.StrictNamedArgs{"session": session})
	})
	if err != nil {
		return fmt.Errorf("%s: %w", doing, err)
	}
	return nil
}

// endSessions ends the sessions of an account but one.
func endSessions(ctx context.Context, tx pgx.Tx, account, keep uuid.UUID) error {
	err := exec(ctx, tx, `
		UPDATE session
		SET withdrawn_at = now()
		WHERE account_id = @account
			AND session_id <> @keep
			AND withdrawn_at IS NULL`,
		pgx.StrictNamedArgs{"account": account, "keep": keep})
	if errors.Is(err, pgx.ErrNoRows) {
		return nil // there was no other
	}
	return err
}
