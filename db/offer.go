package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// An Offer is what an invitation offers to whoever has its link.
type Offer struct {
	Contest Named
	Role    string
	Pilot   *Named // for a pilot's role
	Judge   *Named // for a judge's role
}

// Offer reads the invitation behind a link that is still good.
func (db *DB) Offer(ctx context.Context, link Hash) (o Offer, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		found, err := findInvitation(ctx, tx, link, "")
		o = Offer{Contest: Named{found.Contest, found.ContestName}, Role: found.Role}
		o.Pilot, o.Judge = found.named()
		return err
	})
	if err != nil {
		return Offer{}, fmt.Errorf("reading an invitation: %w", err)
	}
	return o, nil
}

// foundInvitation is an invitation that is still good.
type foundInvitation struct {
	ID          uuid.UUID
	Contest     uuid.UUID
	ContestName string
	Role        string
	personRow
}

func findInvitation(ctx context.Context, tx pgx.Tx, link Hash, lock string) (foundInvitation, error) {
	return row[foundInvitation](ctx, tx, `
		SELECT
			i.invitation_id AS id,
			i.contest_id AS contest,
			c.name AS contest_name,
			i.role,
			i.pilot_id AS pilot,
			p.name AS pilot_name,
			i.judge_id AS judge,
			o.name AS judge_name
		FROM invitation i
		JOIN contest c USING (contest_id)
		LEFT JOIN pilot p USING (contest_id, pilot_id)
		LEFT JOIN official o ON o.contest_id = i.contest_id AND o.official_id = i.judge_id
		WHERE i.hash = @hash
			AND i.withdrawn_at IS NULL
			AND i.accepted_at IS NULL
			AND i.expires_at > now()
		`+lock,
		pgx.StrictNamedArgs{"hash": link[:]})
}

// Accept uses an invitation's link to give its role to an account. It fails
// with ErrNotFound where the link is not good, with ErrConflict where the
// account has the role already.
func (db *DB) Accept(ctx context.Context, link Hash, account uuid.UUID) error {
	return db.accept(ctx, link, func(pgx.Tx) (uuid.UUID, error) { return account, nil })
}

// AcceptAsNew makes an account that accepts, and returns it. It fails with
// ErrTaken where another account has its address.
func (db *DB) AcceptAsNew(ctx context.Context, link Hash, a NewAccount) (account Account, err error) {
	err = db.accept(ctx, link, func(tx pgx.Tx) (uuid.UUID, error) {
		account, err = makeAccount(ctx, tx, a)
		return account.ID, err
	})
	return account, err
}

func (db *DB) accept(ctx context.Context, link Hash, who func(pgx.Tx) (uuid.UUID, error)) error {
	_, err := db.changeFound(ctx, func(tx pgx.Tx) (uuid.UUID, *act, error) {
		found, err := findInvitation(ctx, tx, link, "FOR UPDATE OF i")
		if err != nil {
			return uuid.Nil, nil, err
		}
		account, err := who(tx)
		if err != nil {
			return uuid.Nil, nil, err
		}
		given := roleAct{Account: account, Role: found.Role, Pilot: found.Pilot, Judge: found.Judge, Invitation: &found.ID}
		if err := giveRole(ctx, tx, found.Contest, given); err != nil {
			return uuid.Nil, nil, err
		}
		return found.Contest, newAct(actRoleGiven, account.String(), given), exec(ctx, tx, `
			UPDATE invitation
			SET accepted_at = now(),
				accepted_by = @account
			WHERE contest_id = @contest
				AND invitation_id = @id`,
			pgx.StrictNamedArgs{"contest": found.Contest, "id": found.ID, "account": account})
	})
	if err != nil {
		return fmt.Errorf("accepting an invitation: %w", err)
	}
	return nil
}
