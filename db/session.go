package db

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// A Session is a sign-in that holds: of an account or of a paired device.
type Session struct {
	ID        uuid.UUID
	Account   *Account  // nil for a device
	Device    uuid.UUID // uuid.Nil for an account
	Roles     []Role    // an account's, in each of its contests, or a device's one
	ExpiresAt time.Time
	Confirmed bool // the password was given within the last ten minutes
}

// NewSession is what a session is made of. The secret behind its hash is known
// to the browser alone.
type NewSession struct {
	Hash      Hash
	UserAgent string // as the browser names itself
	Password  bool   // a password was given for it
}

// maxAgent is how much is kept of what a browser says of itself, in characters.
const maxAgent = 200

// confirmedFor is how long a password that was given is good, in a session.
const confirmedFor = "10 minutes"

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

// Session finds the session that a secret opens, with what it may do where, and
// notes that it was seen. It fails with ErrNotFound where there is none, or it
// is over, or its account is disabled or its device withdrawn.
func (db *DB) Session(ctx context.Context, hash Hash) (s Session, err error) {
	err = db.write(ctx, func(tx pgx.Tx) error {
		found, err := seeSession(ctx, tx, hash)
		if err != nil {
			return err
		}
		s = Session{ID: found.ID, ExpiresAt: found.ExpiresAt, Confirmed: found.Confirmed}
		if found.Account == nil {
			s.Device = *found.Device
			s.Roles, err = readDeviceRole(ctx, tx, s.ID)
			return err
		}
		if s.Account, err = readAccount(ctx, tx, *found.Account); err != nil {
			return err
		}
		s.Roles, err = readRoles(ctx, tx, *found.Account)
		return err
	})
	if err != nil {
		return Session{}, fmt.Errorf("reading a session: %w", err)
	}
	return s, nil
}

// foundSession is a session that holds, and what is read with it of a device.
type foundSession struct {
	ID        uuid.UUID
	Account   *uuid.UUID
	Device    *uuid.UUID
	ExpiresAt time.Time
	Confirmed bool
	Stale     bool // it is time to note that it was seen
}

// seeSession finds a session that holds. That it was seen is noted once a
// minute, so that reading costs no writing.
func seeSession(ctx context.Context, tx pgx.Tx, hash Hash) (foundSession, error) {
	found, err := row[foundSession](ctx, tx, `
		SELECT
			s.session_id AS id,
			s.account_id AS account,
			s.device_id AS device,
			s.expires_at,
			coalesce(s.confirmed_at > now() - interval '`+confirmedFor+`', false) AS confirmed,
			s.last_seen_at < now() - interval '1 minute' AS stale
		FROM session s
		LEFT JOIN account a USING (account_id)
		LEFT JOIN device d ON d.contest_id = s.contest_id AND d.device_id = s.device_id
		WHERE s.hash = @hash
			AND s.withdrawn_at IS NULL
			AND s.expires_at > now()
			AND a.disabled_at IS NULL
			AND d.withdrawn_at IS NULL`,
		pgx.StrictNamedArgs{"hash": hash[:]})
	if err != nil || !found.Stale {
		return found, err
	}
	return found, exec(ctx, tx, `
		UPDATE session
		SET last_seen_at = now()
		WHERE session_id = @id`,
		pgx.StrictNamedArgs{"id": found.ID})
}

func readAccount(ctx context.Context, tx pgx.Tx, account uuid.UUID) (*Account, error) {
	a, err := row[Account](ctx, tx, `
		SELECT
			account_id AS id,
			email,
			name,
			owner,
			code_since IS NOT NULL AS second_factor,
			created_at,
			disabled_at
		FROM account
		WHERE account_id = @account`,
		pgx.StrictNamedArgs{"account": account})
	return &a, err
}

// readRoles reads what an account may do where, the latest contest first.
func readRoles(ctx context.Context, tx pgx.Tx, account uuid.UUID) ([]Role, error) {
	return collectRoles(ctx, tx, `
		SELECT
			r.contest_id AS contest,
			c.name,
			r.role,
			r.pilot_id AS pilot,
			r.judge_id AS judge
		FROM contest_role r
		JOIN contest c USING (contest_id)
		WHERE r.account_id = @id
		ORDER BY r.contest_id DESC, r.role`, account)
}

func readDeviceRole(ctx context.Context, tx pgx.Tx, session uuid.UUID) ([]Role, error) {
	return collectRoles(ctx, tx, `
		SELECT
			d.contest_id AS contest,
			c.name,
			d.role,
			NULL::uuid AS pilot,
			d.judge_id AS judge
		FROM session s
		JOIN device d USING (contest_id, device_id)
		JOIN contest c USING (contest_id)
		WHERE s.session_id = @id`, session)
}

func collectRoles(ctx context.Context, tx pgx.Tx, sql string, of uuid.UUID) ([]Role, error) {
	found, err := rows[struct {
		Contest uuid.UUID
		Name    string
		Role    string
		Pilot   *uuid.UUID
		Judge   *uuid.UUID
	}](ctx, tx, sql, pgx.StrictNamedArgs{"id": of})
	list := make([]Role, len(found))
	for i, f := range found {
		list[i] = Role{Contest: Named{f.Contest, f.Name}, Role: f.Role, Pilot: orNone(f.Pilot), Judge: orNone(f.Judge)}
	}
	return list, err
}

func orNone(id *uuid.UUID) uuid.UUID {
	if id == nil {
		return uuid.Nil
	}
	return *id
}

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
