package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// The roles of accounts in a contest.
const (
	RoleDirector = "director"
	RoleOffice   = "office"
	RoleJury     = "jury"
	RolePilot    = "pilot"
	RoleJudge    = "judge" // reads the own analysis; nothing of the line
)

// A Role is what somebody may do in a contest: an account, by one of the roles
// above, or a device, by the one that it was paired for.
type Role struct {
	Contest Named
	Role    string
	Pilot   uuid.UUID // whom a pilot's account belongs to; else uuid.Nil
	Judge   uuid.UUID // whom a judge's account belongs to, or whose seat a device has; else uuid.Nil
}

// A Member is an account with a role in a contest.
type Member struct {
	Account uuid.UUID
	Name    string
	Email   string
	Role    string
	Pilot   *Named `db:"-"` // whom a pilot's account belongs to
	Judge   *Named `db:"-"` // whom a judge's account belongs to
	GivenAt time.Time
}

// Members lists who has which role in a contest.
func (db *DB) Members(ctx context.Context, contest uuid.UUID) (members []Member, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		if _, err := readHead(ctx, tx, contest); err != nil {
			return err
		}
		list, err := rows[struct {
			Member
			personRow
		}](ctx, tx, `
			SELECT
				a.account_id AS account,
				a.name,
				a.email,
				r.role,
				r.pilot_id AS pilot,
				p.name AS pilot_name,
				r.judge_id AS judge,
				o.name AS judge_name,
				r.given_at
			FROM contest_role r
			JOIN account a USING (account_id)
			LEFT JOIN pilot p USING (contest_id, pilot_id)
			LEFT JOIN official o ON o.contest_id = r.contest_id AND o.official_id = r.judge_id
			WHERE r.contest_id = @contest
			ORDER BY r.role, lower(a.name), a.account_id`,
			pgx.StrictNamedArgs{"contest": contest})
		members = make([]Member, len(list))
		for i, r := range list {
			members[i] = r.Member
			members[i].Pilot, members[i].Judge = r.named()
		}
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing who has which role: %w", err)
	}
	return members, nil
}

// personRow says, as the database has it, which pilot or judge of a contest
// somebody with a role is.
type personRow struct {
	Pilot     *uuid.UUID
	PilotName *string
	Judge     *uuid.UUID
	JudgeName *string
}

func (r *personRow) named() (pilot, judge *Named) {
	return namedOrNil(r.Pilot, r.PilotName), namedOrNil(r.Judge, r.JudgeName)
}

func namedOrNil(id *uuid.UUID, name *string) *Named {
	if id == nil || name == nil {
		return nil
	}
	return &Named{ID: *id, Name: *name}
}

// roleAct is what the journal says of a role given or taken.
type roleAct struct {
	Account    uuid.UUID  `json:"account"`
	Role       string     `json:"role"`
	Pilot      *uuid.UUID `json:"pilot,omitempty"`
	Judge      *uuid.UUID `json:"judge,omitempty"`
	Invitation *uuid.UUID `json:"invitation,omitempty"` // by which it was given
}

// GiveRole gives an account a role in a contest; is says which pilot or judge of
// the contest the account is, uuid.Nil for every other role. It fails with
// ErrConflict where the account has it already.
func (db *DB) GiveRole(ctx context.Context, contest, account uuid.UUID, role string, is uuid.UUID, by string) error {
	given := roleAct{Account: account, Role: role}
	if role == RoleJudge {
		given.Judge = orNil(is)
	} else {
		given.Pilot = orNil(is)
	}
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		return newAct(actRoleGiven, by, given), giveRole(ctx, tx, contest, given)
	})
	if err != nil {
		return fmt.Errorf("giving a role: %w", err)
	}
	return nil
}

func giveRole(ctx context.Context, tx pgx.Tx, contest uuid.UUID, r roleAct) error {
	return exec(ctx, tx, `
		INSERT INTO contest_role (contest_id, account_id, role, pilot_id, judge_id)
		VALUES (@contest, @account, @role, @pilot, @judge)`,
		pgx.StrictNamedArgs{"contest": contest, "account": r.Account, "role": r.Role, "pilot": r.Pilot, "judge": r.Judge})
}

// TakeRole takes a role in a contest from an account.
func (db *DB) TakeRole(ctx context.Context, contest, account uuid.UUID, role, by string) error {
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		return newAct(actRoleTaken, by, roleAct{Account: account, Role: role}), exec(ctx, tx, `
			DELETE FROM contest_role
			WHERE contest_id = @contest
				AND account_id = @account
				AND role = @role`,
			pgx.StrictNamedArgs{"contest": contest, "account": account, "role": role})
	})
	if err != nil {
		return fmt.Errorf("taking a role: %w", err)
	}
	return nil
}

func orNil(id uuid.UUID) *uuid.UUID {
	if id == uuid.Nil {
		return nil
	}
	return &id
}
