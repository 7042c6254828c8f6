package db_test

import (
	"errors"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/identity"
	"halfpoint/scoring/line"
)

// offered is an offer with the secrets that only the office and the tablet know.
type offered struct {
	db.Pairing

	code, link db.Hash
}

func offer(t *testing.T, d *db.DB, contest uuid.UUID, role string, judge uuid.UUID, lasts time.Duration) offered {
	t.Helper()
	o := offered{code: identity.HashSecret(identity.NewPairingCode()), link: identity.HashSecret(identity.NewPairingLink())}
	made, err := d.OfferPairing(t.Context(), contest, db.NewPairing{
		Role: role, Judge: judge, Code: o.code, Link: o.link, By: "the office", Lasts: lasts,
	})
	if err != nil {
		t.Fatal(err)
	}
	o.Pairing = made
	return o
}

// firstJudge is the id of the first judge of a contest.
func firstJudge(t *testing.T, d *db.DB, contest uuid.UUID) uuid.UUID {
	t.Helper()
	part := partOf(t, d, contest)
	return part.Judges[part.Bundle.Judges[0].ID]
}

func TestPairingIsTakenOnce(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := small(t, d)
	judge := firstJudge(t, d, contest)
	o := offer(t, d, contest, "judge", judge, 15*time.Minute)
	for name, secret := range map[string]db.Hash{"code": o.code, "link": o.link} {
		found, err := d.Pairing(t.Context(), secret)
		if err != nil || found.ID != o.ID || found.Contest.ID != contest || found.Judge == nil || found.Judge.ID != judge {
			t.Errorf("by its %s: %+v, %v", name, found, err)
		}
	}
	claim := db.Claim{Secret: o.code, Key: []byte("a key"), Session: aHash(), UserAgent: "a tablet"}
	claimed, err := d.ClaimPairing(t.Context(), claim)
	if err != nil {
		t.Fatal(err)
	}
	session, err := d.Session(t.Context(), claim.Session)
	if err != nil || session.Device != claimed.Device || session.Roles[0].Judge != judge {
		t.Errorf("%+v, %v", session, err)
	}
	// The answer was lost: the same key may ask again, by the link too.
	again, err := d.ClaimPairing(t.Context(), db.Claim{Secret: o.link, Key: claim.Key, Session: aHash()})
	if err != nil || again.Device != claimed.Device {
		t.Errorf("again: %+v, %v", again, err)
	}
	if _, err := d.ClaimPairing(t.Context(), db.Claim{Secret: o.link, Key: []byte("another"), Session: aHash()}); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("by another key: %v", err)
	}
	if _, err := d.Pairing(t.Context(), o.code); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("a pairing that was taken: %v", err)
	}
	devices, err := d.Devices(t.Context(), contest)
	if err != nil || len(devices) != 1 || devices[0].ID != claimed.Device || devices[0].Judge.ID != judge || devices[0].Unsent != nil {
		t.Errorf("%+v, %v", devices, err)
	}
}

// TestPairingIsAskedForTwiceAtOnce: a second tap, or a request sent again while the
// first one is under way, gets the same device.
func TestPairingIsAskedForTwiceAtOnce(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := small(t, d)
	o := offer(t, d, contest, "chief", uuid.Nil, 15*time.Minute)
	var devices [6]uuid.UUID
	var all sync.WaitGroup
	for i := range devices {
		all.Go(func() {
			claimed, err := d.ClaimPairing(t.Context(), db.Claim{Secret: o.link, Key: []byte("a key"), Session: aHash()})
			if err != nil {
				t.Error(err)
			}
			devices[i] = claimed.Device
		})
	}
	all.Wait()
	if there, err := d.Devices(t.Context(), contest); err != nil || len(there) != 1 || len(slices.Compact(devices[:])) != 1 {
		t.Errorf("answered %v, there are %+v, %v", devices, there, err)
	}
	if err := d.WithdrawDevice(t.Context(), contest, devices[0], ""); err != nil {
		t.Fatal(err)
	}
	if _, err := d.ClaimPairing(t.Context(), db.Claim{Secret: o.link, Key: []byte("a key"), Session: aHash()}); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("after it was withdrawn: %v", err)
	}
}

func TestPairingsThatAreNotGood(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := small(t, d)
	late := offer(t, d, contest, "chief", uuid.Nil, time.Microsecond)
	if _, err := d.Pairing(t.Context(), late.code); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("too late: %v", err)
	}
	if _, err := d.ClaimPairing(t.Context(), db.Claim{Secret: late.code, Key: []byte("k"), Session: aHash()}); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("claimed too late: %v", err)
	}
	if _, err := d.Pairing(t.Context(), aHash()); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("a guess: %v", err)
	}
	n := db.NewPairing{Role: "judge", Code: aHash(), Link: aHash(), Lasts: time.Minute}
	if _, err := d.OfferPairing(t.Context(), contest, n); !errors.Is(err, db.ErrInvalid) {
		t.Errorf("a judge without a seat: %v", err)
	}
	n.Judge = uuid.New()
	if _, err := d.OfferPairing(t.Context(), contest, n); !errors.Is(err, db.ErrInvalid) {
		t.Errorf("a judge of another contest: %v", err)
	}
	n.Role, n.Judge = "chief", uuid.Nil
	if _, err := d.OfferPairing(t.Context(), uuid.New(), n); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("no contest: %v", err)
	}
	good := offer(t, d, contest, "chief", uuid.Nil, time.Minute)
	n.Code = good.code
	if _, err := d.OfferPairing(t.Context(), contest, n); !errors.Is(err, db.ErrConflict) {
		t.Errorf("a code that is there: %v", err)
	}
}

func TestDeviceIsWithdrawn(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := small(t, d)
	o := offer(t, d, contest, "judge", firstJudge(t, d, contest), time.Minute)
	claimed, err := d.ClaimPairing(t.Context(), db.Claim{Secret: o.code, Key: []byte("a key"), Session: aHash()})
	if err != nil {
		t.Fatal(err)
	}
	contact := db.Contact{Device: claimed.Device, Store: uuid.New(), Unsent: 3}
	if err := d.NoteContact(t.Context(), contest, contact); err != nil {
		t.Fatal(err)
	}
	key, err := d.DeviceKey(t.Context(), claimed.Device)
	if err != nil || key.Contest != contest || key.Author.Seat != claimed.Judge.ID.String() || string(key.Key) != "a key" || key.Author.Withdrawn {
		t.Errorf("%+v, %v", key, err)
	}
	if err := d.WithdrawDevice(t.Context(), contest, claimed.Device, "the office"); err != nil {
		t.Fatal(err)
	}
	devices, err := d.Devices(t.Context(), contest)
	if err != nil || devices[0].WithdrawnAt == nil || *devices[0].Unsent != 3 {
		t.Errorf("%+v, %v", devices, err)
	}
	if key, err = d.DeviceKey(t.Context(), claimed.Device); err != nil || !key.Author.Withdrawn {
		t.Errorf("withdrawn: %+v, %v", key, err)
	}
	if err := d.WithdrawDevice(t.Context(), contest, claimed.Device, "the office"); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("withdrawn again: %v", err)
	}
	if _, err := d.DeviceKey(t.Context(), uuid.New()); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("no device: %v", err)
	}
	head, journal, err := d.Journal(t.Context(), contest)
	if err != nil || db.CheckJournal(head, journal) != nil || len(journal) != 3 { // imported, paired, withdrawn
		t.Errorf("%d rows in the journal, %v", len(journal), err)
	}
}

// What a device says of itself with every grade is written where it is news, or the
// last of it is old.
func TestAContactIsNotedForItsNews(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	b := newTablet(t, open(t, url), everything, 0, 1)
	device, conn := pair(t, b.d, b.contest, "judge", b.sheets.Panel[0].Judge), query(t, url)
	written := func() (by string) {
		if err := conn.QueryRow(t.Context(), "SELECT xmin::text FROM device WHERE device_id = $1", device).Scan(&by); err != nil {
			t.Fatal(err)
		}
		return by
	}
	for _, step := range []struct {
		what, before string // what was done before, in SQL
		contact      db.Contact
		noted        bool
	}{
		{"the first", "", db.Contact{Unsent: 2}, true},
		{"the same", "", db.Contact{Unsent: 2}, false},
		{"fewer that wait", "", db.Contact{Unsent: 0}, true},
		{"the same", "", db.Contact{Unsent: 0}, false},
		{"handed over by another", "", db.Contact{HandedOver: true}, true},
		{"by itself again", "", db.Contact{Unsent: 0}, true},
		{"the same after a while", "UPDATE device SET last_contact_at = last_contact_at - interval '6 seconds'", db.Contact{Unsent: 0}, true},
	} {
		if _, err := conn.Exec(t.Context(), step.before); err != nil {
			t.Fatal(err)
		}
		before := written()
		step.contact.Device, step.contact.Store = device, b.delivery.Store
		b.delivery.Contact = &step.contact
		b.send(b.grade(1, "7.5"))
		if noted := written() != before; noted != step.noted {
			t.Errorf("%s: noted %v", step.what, noted)
		}
	}
}

// pair makes a device of a contest.
func pair(t *testing.T, d *db.DB, contest uuid.UUID, role string, judge uuid.UUID) uuid.UUID {
	t.Helper()
	o := offer(t, d, contest, role, judge, time.Minute)
	key := identity.HashSecret(o.ID.String())
	claimed, err := d.ClaimPairing(t.Context(), db.Claim{Secret: o.code, Key: key[:], Session: aHash()})
	if err != nil {
		t.Fatal(err)
	}
	return claimed.Device
}

func TestPlanIsWhatADeviceMaySee(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	b := newTablet(t, d, everything, 0, 0)
	judge := b.sheets.Panel[0].Judge
	b.send(b.grade(1, "7.5"))
	seat, twin, other, chief := pair(t, d, b.contest, "judge", judge), pair(t, d, b.contest, "judge", judge),
		pair(t, d, b.contest, "judge", b.sheets.Panel[1].Judge), pair(t, d, b.contest, "chief", uuid.Nil)
	plan := func(device, store uuid.UUID) *db.Plan {
		p, err := d.Plan(t.Context(), b.contest, device, store)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	holds := func(p *db.Plan) bool {
		return slices.ContainsFunc(p.Records, func(r line.Stored) bool { return r.Kind == line.KindGrade && r.Judge == judge.String() })
	}
	own, others, whole := plan(seat, b.delivery.Store), plan(other, uuid.New()), plan(chief, uuid.New())
	if !holds(own) || own.Have != 1 || own.SameSeat != 1 || own.Devices != nil || own.Penalties != nil {
		t.Errorf("the seat's own: grade %v, have %d, same seat %d", holds(own), own.Have, own.SameSeat)
	}
	if holds(others) || others.Have != 0 || others.SameSeat != 0 {
		t.Errorf("another seat's: grade %v, have %d", holds(others), others.Have)
	}
	if !holds(whole) || len(whole.Devices) != 4 {
		t.Errorf("the chief judge's: grade %v, %d devices", holds(whole), len(whole.Devices))
	}
	for _, p := range own.Programmes {
		if !slices.ContainsFunc(p.Panel, func(s db.Seat) bool { return s.Judge == judge }) {
			t.Errorf("%s is not the seat's", p.Name)
		}
	}
	at := slices.IndexFunc(own.Programmes[0].Flights, func(f db.PlannedFlight) bool { return f.ID == b.sheets.Flight.ID })
	if f := own.Programmes[0].Flights[at]; f.Number != b.sheets.Flight.Number || f.Sequence.Digest != b.sheets.Sequence.Digest || f.Sequence.Items != len(b.sheets.Sequence.Items) {
		t.Errorf("%+v", f)
	}
	if err := d.WithdrawDevice(t.Context(), b.contest, twin, ""); err != nil {
		t.Fatal(err)
	}
	if p := plan(seat, uuid.New()); p.SameSeat != 0 {
		t.Error("a withdrawn device has the seat")
	}
	if _, err := d.Plan(t.Context(), b.contest, uuid.New(), uuid.New()); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("no device: %v", err)
	}
}
