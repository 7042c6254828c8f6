package db

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// NewPairing is an offer to become a device of the line.
type NewPairing struct {
	Role  string    // judge, assistant, chief or announcer
	Judge uuid.UUID // whose seat it is; uuid.Nil for none
	Code  Hash
	Link  Hash
	By    string // the account
	Lasts time.Duration
}

// A Pairing is an offer that is good.
type Pairing struct {
	ID        uuid.UUID
	Contest   Named
	Role      string
	Judge     *Named // nil where there is no seat
	ExpiresAt time.Time
}

// OfferPairing keeps an offer. It fails with ErrInvalid where the judge is none
// of the contest, and with ErrConflict where the code is one that another offer
// has.
func (db *DB) OfferPairing(ctx context.Context, contest uuid.UUID, n NewPairing) (p Pairing, err error) {
	err = db.write(ctx, func(tx pgx.Tx) error {
		if err := forgetPairings(ctx, tx, contest); err != nil {
			return err
		}
		if err := insertPairing(ctx, tx, contest, n); err != nil {
			return err
		}
		found, err := findPairing(ctx, tx, n.Link, "")
		p = found.pairing()
		return err
	})
	if err != nil {
		return Pairing{}, fmt.Errorf("offering a pairing: %w", err)
	}
	return p, nil
}

// forgetPairings deletes offers that are long over.
func forgetPairings(ctx context.Context, tx pgx.Tx, contest uuid.UUID) error {
	_, err := tx.Exec(ctx, `
		DELETE FROM pairing
		WHERE contest_id = @contest
			AND expires_at < now() - interval '1 hour'`,
		pgx.StrictNamedArgs{"contest": contest})
	return err
}

func insertPairing(ctx context.Context, tx pgx.Tx, contest uuid.UUID, n NewPairing) error {
	return exec(ctx, tx, `
		INSERT INTO pairing (contest_id, pairing_id, role, judge_id, code_hash, link_hash, made_by, expires_at)
		SELECT
			contest_id,
			@pairing,
			@role,
			@judge,
			@code,
			@link,
			@by,
			now() + @lasts
		FROM contest
		WHERE contest_id = @contest`,
		pgx.StrictNamedArgs{
			"contest": contest, "pairing": newID(), "role": n.Role, "judge": orNil(n.Judge),
			"code": n.Code[:], "link": n.Link[:], "by": n.By, "lasts": n.Lasts,
		})
}

// Pairing finds the offer of a code or a link. It fails with ErrNotFound where
// there is none, or it is good no more.
func (db *DB) Pairing(ctx context.Context, secret Hash) (p Pairing, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		found, err := findPairing(ctx, tx, secret, "")
		if err == nil && found.Device != nil {
			err = pgx.ErrNoRows
		}
		p = found.pairing()
		return err
	})
	if err != nil {
		return Pairing{}, fmt.Errorf("finding a pairing: %w", err)
	}
	return p, nil
}

// foundPairing is an offer whose time has not passed.
type foundPairing struct {
	ID          uuid.UUID
	Contest     uuid.UUID
	ContestName string
	Role        string
	Judge       *uuid.UUID
	JudgeName   *string
	ExpiresAt   time.Time
	Device      *uuid.UUID // that took it
}

func (f *foundPairing) pairing() Pairing {
	return Pairing{
		ID: f.ID, Contest: Named{f.Contest, f.ContestName}, Role: f.Role, Judge: namedOrNil(f.Judge, f.JudgeName), ExpiresAt: f.ExpiresAt,
	}
}

func findPairing(ctx context.Context, tx pgx.Tx, secret Hash, lock string) (foundPairing, error) {
	return row[foundPairing](ctx, tx, `
		SELECT
			p.pairing_id AS id,
			p.contest_id AS contest,
			c.name AS contest_name,
			p.role,
			p.judge_id AS judge,
			o.name AS judge_name,
			p.expires_at,
			p.device_id AS device
		FROM pairing p
		JOIN contest c USING (contest_id)
		LEFT JOIN official o ON o.contest_id = p.contest_id AND o.official_id = p.judge_id
		WHERE (p.code_hash = @secret OR p.link_hash = @secret)
			AND p.expires_at > now()
		`+lock, pgx.StrictNamedArgs{"secret": secret[:]})
}

// Claim is how a device takes an offer.
type Claim struct {
	Secret    Hash   // of the code or the link
	Key       []byte // the device's public key
	Session   Hash   // of the session that it gets
	UserAgent string // as the browser names itself
}

// Claimed is what a device gets.
type Claimed struct {
	Pairing

	Device  uuid.UUID
	Expires time.Time // of the session
}

// pairedAct is what the journal says of a pairing.
type pairedAct struct {
	Device uuid.UUID  `json:"device"`
	Role   string     `json:"role"`
	Judge  *uuid.UUID `json:"judge,omitempty"`
	Key    string     `json:"key"` // SHA-256 of the public key
}

// ClaimPairing takes an offer, once; the same key gets the same device again,
// with another session. It fails with ErrNotFound where there is no such offer,
// or it is good no more.
func (db *DB) ClaimPairing(ctx context.Context, c Claim) (claimed Claimed, err error) {
	_, err = db.changeFound(ctx, func(tx pgx.Tx) (uuid.UUID, *act, error) {
		found, err := findPairing(ctx, tx, c.Secret, "FOR UPDATE OF p")
		if err != nil {
			return uuid.Nil, nil, err
		}
		a, err := found.take(ctx, tx, c.Key)
		if err != nil {
			return uuid.Nil, nil, err
		}
		claimed = Claimed{Pairing: found.pairing(), Device: *found.Device}
		claimed.Expires, err = openDeviceSession(ctx, tx, &found, c)
		return found.Contest, a, err
	})
	if err != nil {
		return Claimed{}, fmt.Errorf("claiming a pairing: %w", err)
	}
	return claimed, nil
}

// take makes the device, where it is not there yet.
func (f *foundPairing) take(ctx context.Context, tx pgx.Tx, key []byte) (*act, error) {
	if f.Device != nil {
		return nil, f.checkKey(ctx, tx, key) // nothing that the journal does not know
	}
	device, sum := newID(), sha256.Sum256(key)
	f.Device = &device
	err := exec(ctx, tx, `
		WITH device AS (
			INSERT INTO device (contest_id, device_id, role, judge_id, public_key, last_contact_at)
			VALUES (@contest, @device, @role, @judge, @key, now())
		)
		UPDATE pairing
		SET device_id = @device
		WHERE contest_id = @contest
			AND pairing_id = @pairing`,
		pgx.StrictNamedArgs{"contest": f.Contest, "device": device, "role": f.Role, "judge": f.Judge, "key": key, "pairing": f.ID})
	return newAct(actPaired, device.String(), pairedAct{
		Device: device, Role: f.Role, Judge: f.Judge, Key: hex.EncodeToString(sum[:]),
	}), err
}

// checkKey fails with pgx.ErrNoRows unless the device that took the offer has the key
// and is not withdrawn. It looks after the offer is locked: where both come at once,
// the one that waited would not find the device of the other before.
func (f *foundPairing) checkKey(ctx context.Context, tx pgx.Tx, key []byte) error {
	return exec(ctx, tx, `
		SELECT
		FROM device
		WHERE contest_id = @contest
			AND device_id = @device
			AND public_key = @key
			AND withdrawn_at IS NULL`,
		pgx.StrictNamedArgs{"contest": f.Contest, "device": *f.Device, "key": key})
}

// openDeviceSession makes a session that ends two days after the contest, and
// not within the next.
func openDeviceSession(ctx context.Context, tx pgx.Tx, f *foundPairing, c Claim) (time.Time, error) {
	return value[time.Time](ctx, tx, `
		INSERT INTO session (session_id, hash, contest_id, device_id, user_agent, expires_at)
		SELECT
			@id,
			@hash,
			contest_id,
			@device,
			left(@agent, @agent_length),
			greatest(now() + interval '1 day', coalesce(ends + 3, now() + interval '30 days'))
		FROM contest
		WHERE contest_id = @contest
		RETURNING expires_at`,
		pgx.StrictNamedArgs{
			"id": newID(), "hash": c.Session[:], "contest": f.Contest, "device": *f.Device, "agent": c.UserAgent, "agent_length": maxAgent,
		})
}
