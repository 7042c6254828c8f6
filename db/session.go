package db

import (
	"context"
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
		SELECT `+accountColumns+`
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

// confirmedFor is how long a password that was given is good, in a session.
const confirmedFor = "10 minutes"
