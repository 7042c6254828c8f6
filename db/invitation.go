package db

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// ErrPilot: a pilot's role needs a pilot of the contest, and no other role has
// one. ErrJudge: a judge's needs a judge.
var (
	ErrPilot = errors.New("the role and the pilot do not go together")
	ErrJudge = errors.New("the role and the judge do not go together")
)

// NewInvitation is what an invitation is made of. The secret behind its hash is
// in the link alone.
type NewInvitation struct {
	Hash  Hash
	Role  string
	Pilot uuid.UUID // uuid.Nil for every role but a pilot's
	Judge uuid.UUID // uuid.Nil for every role but a judge's
	Note  string    // whom it is for; may be empty
	By    string    // the account that invites; empty for the machine's own operator
	Lasts time.Duration
}

// An Invitation is a link by which somebody gets a role in a contest.
type Invitation struct {
	ID        uuid.UUID
	Role      string
	Pilot     *Named // for a pilot's role
	Judge     *Named // for a judge's role
	Note      string
	MadeAt    time.Time
	ExpiresAt time.Time
	Accepted  *time.Time
}

// invitedAct is what the journal says of an invitation.
type invitedAct struct {
	Invitation uuid.UUID  `json:"invitation"`
	Role       string     `json:"role,omitempty"`
	Pilot      *uuid.UUID `json:"pilot,omitempty"`
	Judge      *uuid.UUID `json:"judge,omitempty"`
}

// Invite keeps an invitation to a contest. It fails with ErrNotFound where
// there is no such contest, with ErrPilot or ErrJudge where there is no such
// pilot or judge in it.
func (db *DB) Invite(ctx context.Context, contest uuid.UUID, n NewInvitation) (invitation Invitation, err error) {
	details := invitedAct{Invitation: newID(), Role: n.Role, Pilot: orNil(n.Pilot), Judge: orNil(n.Judge)}
	_, err = db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		if _, err := readHead(ctx, tx, contest); err != nil {
			return nil, err
		}
		if err := checkPerson(ctx, tx, contest, n); err != nil {
			return nil, err
		}
		if err := insertInvitation(ctx, tx, contest, details, n); err != nil {
			return nil, err
		}
		invitation, err = readInvitation(ctx, tx, contest, details.Invitation)
		return newAct(actInvited, n.By, details), err
	})
	if err != nil {
		return Invitation{}, fmt.Errorf("inviting: %w", err)
	}
	return invitation, nil
}

// checkPerson holds a pilot's role, and no other, to a pilot of the contest, and
// a judge's to a judge.
func checkPerson(ctx context.Context, tx pgx.Tx, contest uuid.UUID, n NewInvitation) error {
	if err := checkPilot(ctx, tx, contest, n.Role, n.Pilot); err != nil {
		return err
	}
	if (n.Role == RoleJudge) != (n.Judge != uuid.Nil) {
		return ErrJudge
	}
	there, err := value[bool](ctx, tx, `
		SELECT EXISTS (SELECT FROM official WHERE contest_id = @contest AND official_id = @judge AND duty = 'judge')`,
		pgx.StrictNamedArgs{"contest": contest, "judge": n.Judge})
	if err == nil && !there && n.Judge != uuid.Nil {
		err = ErrJudge
	}
	return err
}

// checkPilot holds a pilot's role, and no other, to a pilot of the contest.
func checkPilot(ctx context.Context, tx pgx.Tx, contest uuid.UUID, role string, pilot uuid.UUID) error {
	if (role == RolePilot) != (pilot != uuid.Nil) {
		return ErrPilot
	}
	there, err := value[bool](ctx, tx, `
		SELECT EXISTS (SELECT FROM pilot WHERE contest_id = @contest AND pilot_id = @pilot)`,
		pgx.StrictNamedArgs{"contest": contest, "pilot": pilot})
	if err == nil && !there && pilot != uuid.Nil {
		err = ErrPilot
	}
	return err
}

func insertInvitation(ctx context.Context, tx pgx.Tx, contest uuid.UUID, a invitedAct, n NewInvitation) error {
	return exec(ctx, tx, `
		INSERT INTO invitation (contest_id, invitation_id, hash, role, pilot_id, judge_id, note, made_by, expires_at)
		VALUES (@contest, @id, @hash, @role, @pilot, @judge, @note, @by, now() + @lasts)`,
		pgx.StrictNamedArgs{
			"contest": contest, "id": a.Invitation, "hash": n.Hash[:], "role": a.Role, "pilot": a.Pilot, "judge": a.Judge,
			"note": n.Note, "by": n.By, "lasts": n.Lasts,
		})
}

func readInvitation(ctx context.Context, tx pgx.Tx, contest, id uuid.UUID) (Invitation, error) {
	list, err := readInvitations(ctx, tx, contest, &id)
	if err != nil || len(list) == 0 {
		return Invitation{}, errors.Join(err, pgx.ErrNoRows)
	}
	return list[0], nil
}

// readInvitations reads those of a contest that were not withdrawn and wait or
// were accepted, the latest first; or the one with an id.
func readInvitations(ctx context.Context, tx pgx.Tx, contest uuid.UUID, id *uuid.UUID) ([]Invitation, error) {
	found, err := rows[struct {
		ID        uuid.UUID
		Role      string
		Pilot     *uuid.UUID
		PilotName *string
		Judge     *uuid.UUID
		JudgeName *string
		Note      string
		MadeAt    time.Time
		ExpiresAt time.Time
		Accepted  *time.Time
	}](ctx, tx, `
		SELECT
			i.invitation_id AS id,
			i.role,
			i.pilot_id AS pilot,
			p.name AS pilot_name,
			i.judge_id AS judge,
			o.name AS judge_name,
			i.note,
			i.made_at,
			i.expires_at,
			i.accepted_at AS accepted
		FROM invitation i
		LEFT JOIN pilot p USING (contest_id, pilot_id)
		LEFT JOIN official o ON o.contest_id = i.contest_id AND o.official_id = i.judge_id
		WHERE i.contest_id = @contest
			AND (@id::uuid IS NULL OR i.invitation_id = @id)
			AND i.withdrawn_at IS NULL
		ORDER BY i.invitation_id DESC`,
		pgx.StrictNamedArgs{"contest": contest, "id": id})
	list := make([]Invitation, len(found))
	for n, f := range found {
		list[n] = Invitation{
			f.ID, f.Role, namedOrNil(f.Pilot, f.PilotName), namedOrNil(f.Judge, f.JudgeName), f.Note, f.MadeAt, f.ExpiresAt, f.Accepted,
		}
	}
	return list, err
}

// Invitations lists the invitations to a contest that were not withdrawn, the
// latest first.
func (db *DB) Invitations(ctx context.Context, contest uuid.UUID) (list []Invitation, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		if _, err := readHead(ctx, tx, contest); err != nil {
			return err
		}
		list, err = readInvitations(ctx, tx, contest, nil)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing invitations: %w", err)
	}
	return list, nil
}

// WithdrawInvitation makes an invitation that was not accepted good no more.
func (db *DB) WithdrawInvitation(ctx context.Context, contest, id uuid.UUID, by string) error {
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		return newAct(actInvitationWithdrawn, by, invitedAct{Invitation: id}), exec(ctx, tx, `
			UPDATE invitation
			SET withdrawn_at = now()
			WHERE contest_id = @contest
				AND invitation_id = @id
				AND withdrawn_at IS NULL
				AND accepted_at IS NULL`,
			pgx.StrictNamedArgs{"contest": contest, "id": id})
	})
	if err != nil {
		return fmt.Errorf("withdrawing an invitation: %w", err)
	}
	return nil
}

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
		o = Offer{Named{found.Contest, found.ContestName}, found.Role, namedOrNil(found.Pilot, found.PilotName), namedOrNil(found.Judge, found.JudgeName)}
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
	Pilot       *uuid.UUID
	PilotName   *string
	Judge       *uuid.UUID
	JudgeName   *string
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
