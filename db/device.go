package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/line"
)

// A Device is a tablet of the line, or another browser that was paired.
type Device struct {
	ID            uuid.UUID
	Role          string
	Judge         *Named `db:"-"` // whose seat it has; nil for none
	PairedAt      time.Time
	LastContactAt *time.Time // nil before it was heard of
	Unsent        *int       // how many records it last said were waiting there
	HandedOverAt  *time.Time // when another device last brought records of it; nil for never
	WithdrawnAt   *time.Time
}

// Devices lists the devices of a contest, in the order of their pairing.
func (db *DB) Devices(ctx context.Context, contest uuid.UUID) (devices []Device, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		if _, err := readContestInfo(ctx, tx, contest); err != nil {
			return err
		}
		devices, err = readDevices(ctx, tx, contest)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing devices: %w", err)
	}
	return devices, nil
}

func readDevices(ctx context.Context, tx pgx.Tx, contest uuid.UUID) ([]Device, error) {
	read, err := rows[struct {
		Device

		JudgeID   *uuid.UUID
		JudgeName *string
	}](ctx, tx, `
		SELECT
			d.device_id AS id,
			d.role,
			d.judge_id,
			o.name AS judge_name,
			d.paired_at,
			d.last_contact_at,
			d.unsent,
			d.handed_over_at,
			d.withdrawn_at
		FROM device d
		LEFT JOIN official o ON o.contest_id = d.contest_id AND o.official_id = d.judge_id
		WHERE d.contest_id = @contest
		ORDER BY d.device_id`,
		pgx.StrictNamedArgs{"contest": contest})
	devices := make([]Device, len(read))
	for i, r := range read {
		devices[i] = r.Device
		devices[i].Judge = namedOrNil(r.JudgeID, r.JudgeName)
	}
	return devices, err
}

// deviceAct is what the journal says of a device that was withdrawn.
type deviceAct struct {
	Device uuid.UUID `json:"device"`
}

// WithdrawDevice ends a device's sessions for good; what it delivers later is
// held. It fails with ErrNotFound where there is no such device, or it is
// withdrawn.
func (db *DB) WithdrawDevice(ctx context.Context, contest, device uuid.UUID, by string) error {
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		return newAct(actDeviceWithdrawn, by, deviceAct{device}), exec(ctx, tx, `
			UPDATE device
			SET withdrawn_at = now()
			WHERE contest_id = @contest
				AND device_id = @device
				AND withdrawn_at IS NULL`,
			pgx.StrictNamedArgs{"contest": contest, "device": device})
	})
	if err != nil {
		return fmt.Errorf("withdrawing a device: %w", err)
	}
	return nil
}

// A DeviceKey is what a device's records are held against.
type DeviceKey struct {
	Contest uuid.UUID
	Author  line.Author
	Key     []byte // public
}

// DeviceKey finds a device by its id alone, withdrawn or not.
func (db *DB) DeviceKey(ctx context.Context, device uuid.UUID) (k DeviceKey, err error) {
	found, err := only[struct {
		Contest   uuid.UUID
		Role      string
		Judge     *uuid.UUID
		Key       []byte
		Withdrawn bool
	}](ctx, db, `
		SELECT
			contest_id AS contest,
			role,
			judge_id AS judge,
			public_key AS key,
			withdrawn_at IS NOT NULL AS withdrawn
		FROM device
		WHERE device_id = @device`,
		pgx.StrictNamedArgs{"device": device})
	if err != nil {
		return DeviceKey{}, fmt.Errorf("finding a device: %w", err)
	}
	k = DeviceKey{found.Contest, line.Author{Role: found.Role, Device: device.String(), Withdrawn: found.Withdrawn}, found.Key}
	if found.Judge != nil {
		k.Author.Seat = found.Judge.String()
	}
	return k, nil
}

// A Contact is what a device says of itself when it is heard of.
type Contact struct {
	Device uuid.UUID
	Store  uuid.UUID // the id of its own database
	Unsent int       // records that are waiting there
	// HandedOver: another device brought its records, which is no sign that the
	// device itself works.
	HandedOver bool
}

const notingContact = `
	UPDATE device
	SET last_contact_at = now(),
		store = @store,
		unsent = @unsent
	WHERE contest_id = @contest
		AND device_id = @device`

const notingHandOver = `
	UPDATE device
	SET handed_over_at = now()
	WHERE contest_id = @contest
		AND device_id = @device`

// contactEvery is how old a contact may get that is not noted again, where the
// device says nothing new with it: a row is not written anew with every grade.
const contactEvery = 5 * time.Second

// notingNews is the statement that notes a contact that has news in it.
func (c Contact) notingNews(contest uuid.UUID) (sql string, args pgx.StrictNamedArgs) {
	sql, args = c.noting(contest)
	if c.HandedOver {
		return sql, args
	}
	args["every"] = contactEvery
	return sql + `
		AND (
			store IS DISTINCT FROM @store
			OR unsent IS DISTINCT FROM @unsent
			OR last_contact_at IS NULL
			OR last_contact_at < handed_over_at
			OR last_contact_at < now() - @every::interval
		)`, args
}

// noting is the statement that notes a contact, and its arguments.
func (c Contact) noting(contest uuid.UUID) (sql string, args pgx.StrictNamedArgs) {
	if c.HandedOver {
		return notingHandOver, pgx.StrictNamedArgs{"contest": [16]byte(contest), "device": [16]byte(c.Device)}
	}
	return notingContact, pgx.StrictNamedArgs{"contest": [16]byte(contest), "device": [16]byte(c.Device), "store": [16]byte(c.Store), "unsent": c.Unsent}
}

// NoteContact notes that a device was heard of. The journal does not say so.
func (db *DB) NoteContact(ctx context.Context, contest uuid.UUID, c Contact) error {
	sql, args := c.noting(contest)
	err := db.write(ctx, func(tx pgx.Tx) error { return exec(ctx, tx, sql, args) })
	if err != nil {
		return fmt.Errorf("noting a device's contact: %w", err)
	}
	return nil
}
