package demo

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

// A tablet is a paired device that makes records in the order in which things
// are done on it, and signs them.
type tablet struct {
	device, store uuid.UUID
	author        line.Author
	key           *ecdsa.PrivateKey
	seq           int64
	heard         time.Time // when it last said that it is there
}

// sayEvery is how often a tablet says that it is there, as a real one does.
const sayEvery = 5 * time.Second

// pairTablet pairs a simulated tablet for a role and a judge's seat, or finds
// that of an earlier start: its key is made from what it is for, so that it is
// known again.
func (l *Line) pairTablet(ctx context.Context, devices []db.Device, role string, judge uuid.UUID) (*tablet, error) {
	store, err := uuid.NewV7()
	if err != nil {
		return nil, err
	}
	t := &tablet{store: store}
	seed := sha256.Sum256([]byte("tablet " + l.Contest.String() + role + judge.String()))
	if t.key, err = ecdsa.ParseRawPrivateKey(elliptic.P256(), seed[:]); err != nil {
		return nil, fmt.Errorf("the key of a simulated tablet: %w", err)
	}
	if t.device, err = l.find(ctx, devices, t); err == nil && t.device == uuid.Nil {
		t.device, err = l.claim(ctx, t, role, judge)
	}
	if err != nil {
		return nil, err
	}
	known, err := l.DB.DeviceKey(ctx, t.device)
	t.author = known.Author
	return t, err
}

// find finds the device that has a tablet's key, uuid.Nil where there is none.
func (l *Line) find(ctx context.Context, devices []db.Device, t *tablet) (uuid.UUID, error) {
	public, err := t.key.PublicKey.Bytes()
	if err != nil {
		return uuid.Nil, err
	}
	for _, d := range devices {
		known, err := l.DB.DeviceKey(ctx, d.ID)
		if err != nil {
			return uuid.Nil, err
		}
		if d.WithdrawnAt == nil && bytes.Equal(known.Key, public) {
			return d.ID, nil
		}
	}
	return uuid.Nil, nil
}

func (l *Line) claim(ctx context.Context, t *tablet, role string, judge uuid.UUID) (uuid.UUID, error) {
	link := secret()
	offer := db.NewPairing{Role: role, Judge: judge, Code: secret(), Link: link, By: officeName, Lasts: time.Minute}
	if _, err := l.DB.OfferPairing(ctx, l.Contest, offer); err != nil {
		return uuid.Nil, err
	}
	public, err := t.key.PublicKey.Bytes()
	if err != nil {
		return uuid.Nil, err
	}
	claimed, err := l.DB.ClaimPairing(ctx, db.Claim{Secret: link, Key: public, Session: secret(), UserAgent: "simulated"})
	return claimed.Device, err
}

// secret is the hash of a secret that nobody needs to know.
func secret() db.Hash { return sha256.Sum256([]byte(rand.Text())) }

// sign numbers a record and signs it with the tablet's key.
func (t *tablet) sign(contest string, r *line.Record) error {
	id, err := uuid.NewV7()
	if err != nil {
		return err
	}
	t.seq++
	r.ID, r.Seq = id.String(), t.seq
	sum := sha256.Sum256(line.RecordText(contest, *r))
	x, y, err := ecdsa.Sign(rand.Reader, t.key, sum[:])
	if err != nil {
		return err
	}
	const half = 32 // of a signature, in bytes
	both := append(x.FillBytes(make([]byte, half)), y.FillBytes(make([]byte, half))...)
	r.Signature = base64.RawURLEncoding.EncodeToString(both)
	return nil
}

// stayAlive is what the tablets do beside the flight that is flown.
func (l *Line) stayAlive(ctx context.Context) error {
	if err := l.sayHere(ctx); err != nil {
		return err
	}
	return l.signAgain(ctx)
}

// sayHere has the tablets say that they are there, where it is time.
func (l *Line) sayHere(ctx context.Context) error {
	for _, t := range l.tablets() {
		if time.Since(t.heard) < sayEvery {
			continue
		}
		t.heard = time.Now()
		if err := l.DB.NoteContact(ctx, l.Contest, db.Contact{Device: t.device, Store: t.store}); err != nil {
			return err
		}
	}
	return nil
}

func (l *Line) tablets() []*tablet {
	all := []*tablet{l.chief}
	for _, t := range l.seats {
		all = append(all, t)
	}
	return all
}

// taken tells whether somebody's own tablet has a role and a seat: the simulated
// one then does nothing.
func (l *Line) taken(plan *db.Plan, own *tablet) bool {
	return slices.ContainsFunc(plan.Devices, func(d db.Device) bool {
		seat := ""
		if d.Judge != nil {
			seat = d.Judge.ID.String()
		}
		return d.ID != own.device && d.Role == own.author.Role && seat == own.author.Seat
	})
}
