package db

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// What a link is good for, once.
const (
	LinkFirst    = "first"    // to make the first account
	LinkPassword = "password" // to choose a new password
	LinkSignIn   = "sign-in"  // to sign in
)

// A Hash is all that is kept of a secret: its SHA-256.
type Hash = [sha256.Size]byte

// OfferFirst keeps a link by which the first account can be made, and tells
// whether there is still none, so that it is good.
func (db *DB) OfferFirst(ctx context.Context, hash Hash, lasts time.Duration) (good bool, err error) {
	err = db.write(ctx, func(tx pgx.Tx) error {
		stored, err := tx.Exec(ctx, `
			INSERT INTO link (hash, purpose, expires_at)
			SELECT
				@hash,
				'first',
				now() + @lasts
			WHERE NOT EXISTS (SELECT FROM account)`,
			pgx.StrictNamedArgs{"hash": hash[:], "lasts": lasts})
		good = err == nil && stored.RowsAffected() > 0
		return err
	})
	if err != nil {
		return false, fmt.Errorf("offering the first account: %w", err)
	}
	return good, nil
}

// MakeFirstAccount uses a link to make the first account, which owns the
// server. It fails with ErrNotFound where the link is not good, or there is an
// account.
func (db *DB) MakeFirstAccount(ctx context.Context, link Hash, a NewAccount) (account Account, err error) {
	a.Owner = true
	err = db.write(ctx, func(tx pgx.Tx) error {
		// Of two who use two links at once, one makes the first account.
		if _, err := tx.Exec(ctx, `LOCK TABLE account IN SHARE ROW EXCLUSIVE MODE`); err != nil {
			return err
		}
		there, err := value[bool](ctx, tx, `SELECT EXISTS (SELECT FROM account)`, nil)
		if err != nil {
			return err
		}
		if there {
			return pgx.ErrNoRows
		}
		if _, err = useLink(ctx, tx, link, LinkFirst); err != nil {
			return err
		}
		account, err = makeAccount(ctx, tx, a)
		return err
	})
	if err != nil {
		return Account{}, fmt.Errorf("making the first account: %w", err)
	}
	return account, nil
}

// MakeLink keeps a link for an account, for LinkPassword or LinkSignIn.
func (db *DB) MakeLink(ctx context.Context, hash Hash, purpose string, account uuid.UUID, lasts time.Duration) error {
	err := db.write(ctx, func(tx pgx.Tx) error {
		return exec(ctx, tx, `
			INSERT INTO link (hash, purpose, account_id, expires_at)
			VALUES (@hash, @purpose, @account, now() + @lasts)`,
			pgx.StrictNamedArgs{"hash": hash[:], "purpose": purpose, "account": account, "lasts": lasts})
	})
	if err != nil {
		return fmt.Errorf("making a link: %w", err)
	}
	return nil
}

// LinkAccount finds whose a link is that is still good for a purpose. It does
// not use it.
func (db *DB) LinkAccount(ctx context.Context, hash Hash, purpose string) (account Account, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		account, err = row[Account](ctx, tx, `
			SELECT `+accountColumns+`
			FROM link l
			JOIN account a USING (account_id)
			WHERE l.hash = @hash
				AND l.purpose = @purpose
				AND l.used_at IS NULL
				AND l.expires_at > now()
				AND a.disabled_at IS NULL`,
			pgx.StrictNamedArgs{"hash": hash[:], "purpose": purpose})
		return err
	})
	if err != nil {
		return Account{}, fmt.Errorf("reading a link: %w", err)
	}
	return account, nil
}

// ResetPassword uses a link to give its account a password's hash, and ends all
// its sessions. It returns the account.
func (db *DB) ResetPassword(ctx context.Context, link Hash, hash string) (account uuid.UUID, err error) {
	err = db.write(ctx, func(tx pgx.Tx) error {
		if account, err = useAccountLink(ctx, tx, link, LinkPassword); err != nil {
			return err
		}
		return setPassword(ctx, tx, account, hash, uuid.Nil)
	})
	if err != nil {
		return uuid.Nil, fmt.Errorf("resetting a password: %w", err)
	}
	return account, nil
}

// useAccountLink uses a link up and returns the account whose it is.
func useAccountLink(ctx context.Context, tx pgx.Tx, hash Hash, purpose string) (uuid.UUID, error) {
	account, err := useLink(ctx, tx, hash, purpose)
	if err == nil && account == nil {
		err = errors.New("a link of no account")
	}
	if err != nil {
		return uuid.Nil, err
	}
	return *account, nil
}

// useLink uses a link up; pgx.ErrNoRows where it is not good.
func useLink(ctx context.Context, tx pgx.Tx, hash Hash, purpose string) (account *uuid.UUID, err error) {
	return value[*uuid.UUID](ctx, tx, `
		UPDATE link
		SET used_at = now()
		WHERE hash = @hash
			AND purpose = @purpose
			AND used_at IS NULL
			AND expires_at > now()
			AND (account_id IS NULL OR account_id IN (SELECT account_id FROM account WHERE disabled_at IS NULL))
		RETURNING account_id`,
		pgx.StrictNamedArgs{"hash": hash[:], "purpose": purpose})
}
