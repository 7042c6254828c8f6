package db

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// ErrTaken: another account has this e-mail address.
var ErrTaken = errors.New("another account has the e-mail address")

// An Account is a person who signs in.
type Account struct {
	ID           uuid.UUID
	Email        string
	Name         string
	Owner        bool // of the server: may do everything
	SecondFactor bool // a code is asked for beside the password
	CreatedAt    time.Time
	DisabledAt   *time.Time // nil for not
}

// accountColumns are those of an Account.
const accountColumns = `
			account_id AS id,
			email,
			name,
			owner,
			code_since IS NOT NULL AS second_factor,
			created_at,
			disabled_at`

// NewAccount is what an account is made of.
type NewAccount struct {
	Email    string
	Name     string
	Password string // its hash; empty for none yet
	Owner    bool
}

// Credentials are what an account proves itself by.
type Credentials struct {
	Account
	Password string // its hash; empty where there is none
	CodeKey  []byte // of the second factor, set up or being set up; nil for none
}

// CredentialsByEmail finds an account by its address, in any case of letters.
func (db *DB) CredentialsByEmail(ctx context.Context, email string) (Credentials, error) {
	return db.credentials(ctx, `lower(email) = lower(@key)`, email)
}

// Credentials finds an account.
func (db *DB) Credentials(ctx context.Context, account uuid.UUID) (Credentials, error) {
	return db.credentials(ctx, `account_id = @key`, account)
}

func (db *DB) credentials(ctx context.Context, where string, key any) (c Credentials, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		c, err = row[Credentials](ctx, tx, `
			SELECT `+accountColumns+`,
				password,
				code_key
			FROM account
			WHERE `+where,
			pgx.StrictNamedArgs{"key": key})
		return err
	})
	if err != nil {
		return Credentials{}, fmt.Errorf("reading an account: %w", err)
	}
	return c, nil
}

// Accounts lists all accounts, by address.
func (db *DB) Accounts(ctx context.Context) (accounts []Account, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		accounts, err = rows[Account](ctx, tx, `
			SELECT `+accountColumns+`
			FROM account
			ORDER BY lower(email)`, nil)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing accounts: %w", err)
	}
	return accounts, nil
}

// MakeAccount makes an account. It fails with ErrTaken where another has its
// address.
func (db *DB) MakeAccount(ctx context.Context, a NewAccount) (account Account, err error) {
	err = db.write(ctx, func(tx pgx.Tx) error {
		account, err = makeAccount(ctx, tx, a)
		return err
	})
	if err != nil {
		return Account{}, fmt.Errorf("making an account: %w", err)
	}
	return account, nil
}

// makeAccount stores an account. Where another has the address nothing is
// stored and no row comes back, so that the transaction is not broken.
func makeAccount(ctx context.Context, tx pgx.Tx, a NewAccount) (Account, error) {
	made, err := row[Account](ctx, tx, `
		INSERT INTO account (account_id, email, name, password, owner)
		VALUES (@id, @email, @name, @password, @owner)
		ON CONFLICT (lower(email)) DO NOTHING
		RETURNING `+accountColumns,
		pgx.StrictNamedArgs{"id": newID(), "email": a.Email, "name": a.Name, "password": a.Password, "owner": a.Owner})
	if errors.Is(err, pgx.ErrNoRows) {
		return Account{}, ErrTaken
	}
	return made, err
}

// SetPassword gives an account another password's hash, and ends its sessions
// but the one that is to be kept; uuid.Nil keeps none.
func (db *DB) SetPassword(ctx context.Context, account uuid.UUID, hash string, keep uuid.UUID) error {
	err := db.write(ctx, func(tx pgx.Tx) error { return setPassword(ctx, tx, account, hash, keep) })
	if err != nil {
		return fmt.Errorf("setting a password: %w", err)
	}
	return nil
}

func setPassword(ctx context.Context, tx pgx.Tx, account uuid.UUID, hash string, keep uuid.UUID) error {
	err := exec(ctx, tx, `
		UPDATE account
		SET password = @hash
		WHERE account_id = @account`,
		pgx.StrictNamedArgs{"account": account, "hash": hash})
	if err != nil {
		return err
	}
	return endSessions(ctx, tx, account, keep)
}

// Disable keeps an account from signing in and ends its sessions, or lets it
// sign in again.
func (db *DB) Disable(ctx context.Context, account uuid.UUID, disabled bool) error {
	err := db.write(ctx, func(tx pgx.Tx) error {
		err := exec(ctx, tx, `
			UPDATE account
			SET disabled_at = CASE WHEN @disabled THEN coalesce(disabled_at, now()) END
			WHERE account_id = @account`,
			pgx.StrictNamedArgs{"account": account, "disabled": disabled})
		if err != nil || !disabled {
			return err
		}
		return endSessions(ctx, tx, account, uuid.Nil)
	})
	if err != nil {
		return fmt.Errorf("disabling an account: %w", err)
	}
	return nil
}
