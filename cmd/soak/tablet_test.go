package soak

import (
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/scoring/line"
)

// A tablet makes records, keeps them, and sends them until they are stored.
type tablet struct {
	*client

	contest, judge uuid.UUID
	key            *ecdsa.PrivateKey
	device, store  uuid.UUID
	seq            int64
	clock          atomic.Int64 // how far it goes wrong, in nanoseconds

	waiting []json.RawMessage

	mu     sync.Mutex
	stored []string // ids of the records that were answered as stored
}

// pair pairs a tablet for a role and a judge's seat.
func pairTablet(ctx context.Context, c *client, contest uuid.UUID, role string, judge uuid.UUID) (*tablet, error) {
	t := &tablet{client: c, contest: contest, judge: judge, store: uuid.New()}
	offer := map[string]any{"role": role}
	if judge != uuid.Nil {
		offer["judge"] = judge
	}
	var made api.PairingMade
	if _, err := c.ask(ctx, http.MethodPost, "/api/v1/contests/"+contest.String()+"/pairings", offer, &made); err != nil {
		return nil, err
	}
	var err error
	if t.key, err = ecdsa.GenerateKey(elliptic.P256(), rand.Reader); err != nil {
		return nil, err
	}
	public, err := t.key.PublicKey.Bytes()
	if err != nil {
		return nil, err
	}
	var paired api.PairedDevice
	claim := map[string]string{"link": made.Link, "public_key": base64.RawURLEncoding.EncodeToString(public)}
	header, err := c.ask(ctx, http.MethodPost, "/api/v1/pairings/claim", claim, &paired)
	if err != nil {
		return nil, err
	}
	t.device = paired.Device
	c.session, _, _ = strings.Cut(header.Get("Set-Cookie"), ";")
	return t, nil
}

// plan is what a tablet is told.
func (t *tablet) plan(ctx context.Context) (plan api.LinePlan, err error) {
	_, err = t.ask(ctx, http.MethodGet, "/api/v1/line?unsent=0&store="+t.store.String(), nil, &plan)
	return plan, err
}

// enter makes a record and returns its id; it is sent later.
func (t *tablet) enter(r line.Record) (string, error) {
	now := time.Now().Add(time.Duration(t.clock.Load()))
	t.seq++
	r.Seq, r.ID, r.EnteredAt = t.seq, idAt(now), now.Format(time.RFC3339Nano)
	sum := sha256.Sum256(line.RecordText(t.contest.String(), r))
	x, y, err := ecdsa.Sign(rand.Reader, t.key, sum[:])
	if err != nil {
		return "", err
	}
	both := append(x.FillBytes(make([]byte, 32)), y.FillBytes(make([]byte, 32))...)
	r.Signature = base64.RawURLEncoding.EncodeToString(both)
	text, err := json.Marshal(r)
	t.waiting = append(t.waiting, text)
	return r.ID, err
}

// idAt is a UUIDv7 by a clock of the tablet's own.
func idAt(at time.Time) string {
	id := uuid.Must(uuid.NewV7())
	for i, ms := 5, at.UnixMilli(); i >= 0; i, ms = i-1, ms>>8 {
		id[i] = byte(ms)
	}
	return id.String()
}

// most is how much a tablet sends at once.
const most = 50

// send sends all that waits, until it is stored.
func (t *tablet) send(ctx context.Context) error {
	for len(t.waiting) > 0 {
		part := t.waiting[:min(most, len(t.waiting))]
		var receipt api.LineReceipt
		sent := map[string]any{"device": t.device, "store": t.store, "unsent": len(t.waiting), "records": part}
		if _, err := t.ask(ctx, http.MethodPost, "/api/v1/line/records", sent, &receipt); err != nil {
			return err
		}
		if err := t.note(&receipt, len(part)); err != nil {
			return err
		}
		t.waiting = t.waiting[len(part):]
	}
	return nil
}

func (t *tablet) note(receipt *api.LineReceipt, sent int) error {
	if len(receipt.Records) != sent {
		return fmt.Errorf("%d records were sent, and %d answered", sent, len(receipt.Records))
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, answer := range receipt.Records {
		if answer.Result != "stored" && answer.Result != "repeat" {
			return fmt.Errorf("record %s: %+v", answer.ID, answer)
		}
		t.stored = append(t.stored, answer.ID)
	}
	return nil
}

// count is how many records were answered as stored.
func (t *tablet) count() int {
	t.mu.Lock()
	defer t.mu.Unlock()
	return len(t.stored)
}
