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
	Pilot     *Named `db:"-"` // for a pilot's role
	Judge     *Named `db:"-"` // for a judge's role
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
	return checkJudge(ctx, tx, contest, n.Role, n.Judge)
}

// checkJudge holds a judge's role, and no other, to a judge of the contest.
func checkJudge(ctx context.Context, tx pgx.Tx, contest uuid.UUID, role string, judge uuid.UUID) error {
	if (role == RoleJudge) != (judge != uuid.Nil) {
		return ErrJudge
	}
	there, err := value[bool](ctx, tx, `
		SELECT EXISTS (SELECT FROM official WHERE contest_id = @contest AND official_id = @judge AND duty = 'judge')`,
		pgx.StrictNamedArgs{"contest": contest, "judge": judge})
	if err == nil && !there && judge != uuid.Nil {
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
		Invitation
		personRow
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
	for i, r := range found {
		list[i] = r.Invitation
		list[i].Pilot, list[i].Judge = r.named()
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
