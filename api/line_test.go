package api_test

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/line"
)

// aLine is a contest whose first flight is still to be flown.
type aLine struct {
	*service

	contest uuid.UUID
	flight  api.LineFlight
	panel   []api.Seat
}

func startLine(t *testing.T) *aLine {
	t.Helper()
	s := start(t)
	bundle := bundleOf(t, "108")
	first := &bundle.Categories[0].Programmes[0].Flights[0]
	first.Status, first.Sheets, first.Rulings, first.Penalties = "scheduled", nil, nil, nil
	return lineOf(s, s.imports(bundle, db.Closed))
}

// lineOf is the line of a contest, as a chief judge's tablet is told.
func lineOf(s *service, contest uuid.UUID) *aLine {
	s.t.Helper()
	l := &aLine{service: s, contest: contest}
	programme := l.tablet("chief", uuid.Nil).plan().Programmes[0]
	l.flight, l.panel = programme.Flights[0], programme.Panel
	return l
}

// A tablet is a paired device with the key that it signs with.
type tablet struct {
	*aLine

	key     *ecdsa.PrivateKey
	session string
	paired  api.PairedDevice
	store   uuid.UUID
	seq     int64
	latest  string // of its status records
}

// offer makes an offer as the office.
func (l *aLine) offer(role string, judge uuid.UUID) (made api.PairingMade) {
	l.t.Helper()
	wanted := map[string]any{"role": role}
	if judge != uuid.Nil {
		wanted["judge"] = judge
	}
	body, err := json.Marshal(wanted)
	if err != nil {
		l.t.Fatal(err)
	}
	path := "/api/v1/contests/" + l.contest.String() + "/pairings"
	a := l.send(request{method: "POST", path: path, token: token, body: string(body), contentType: json1})
	if a.status != http.StatusCreated {
		l.t.Fatalf("%d %s", a.status, a.body)
	}
	read(l.t, a, &made)
	return made
}

func read(t testing.TB, a answer, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(a.body), into); err != nil {
		t.Fatalf("%d %s: %v", a.status, a.body, err)
	}
}

func newKey(t testing.TB) *ecdsa.PrivateKey {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	return key
}

// claim takes an offer with a key.
func (l *aLine) claim(secret map[string]string, key *ecdsa.PrivateKey) answer {
	l.t.Helper()
	public, err := key.PublicKey.Bytes()
	if err != nil {
		l.t.Fatal(err)
	}
	body := map[string]string{"public_key": base64.RawURLEncoding.EncodeToString(public)}
	for name, value := range secret {
		body[name] = value
	}
	return l.post("/api/v1/pairings/claim", "", body)
}

// tablet pairs a device, by the code as it is typed.
func (l *aLine) tablet(role string, judge uuid.UUID) *tablet {
	l.t.Helper()
	b := &tablet{aLine: l, key: newKey(l.t), store: uuid.New()}
	code := strings.ToLower(l.offer(role, judge).Code)
	a := l.claim(map[string]string{"code": code[:4] + "-" + code[4:]}, b.key)
	b.session = l.sessionOf(a)
	read(l.t, a, &b.paired)
	return b
}

func (b *tablet) plan() api.LinePlan {
	b.t.Helper()
	return decoded[api.LinePlan](b.service, request{path: "/api/v1/line?unsent=0&store=" + b.store.String(), session: b.session})
}

// grade is a new record for an item, signed.
func (b *tablet) grade(item int, grade string) line.Record {
	b.t.Helper()
	b.seq++
	return b.sign(line.Record{
		Seq: b.seq, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindGrade, Flight: b.flight.ID.String(),
		Judge: b.paired.Judge.ID.String(), Item: item, Grade: grade, Sequence: b.flight.Sequence.Digest,
	})
}

func (b *tablet) sign(r line.Record) line.Record {
	b.t.Helper()
	sum := sha256.Sum256(line.RecordText(b.contest.String(), r))
	x, y, err := ecdsa.Sign(rand.Reader, b.key, sum[:])
	if err != nil {
		b.t.Fatal(err)
	}
	signature := append(x.FillBytes(make([]byte, 32)), y.FillBytes(make([]byte, 32))...)
	r.Signature = base64.RawURLEncoding.EncodeToString(signature)
	return r
}

// deliver sends records, without a session.
func (b *tablet) deliver(records ...any) (receipt api.LineReceipt, results []string) {
	b.t.Helper()
	a := b.post("/api/v1/line/records", "", map[string]any{
		"device": b.paired.Device, "store": b.store, "unsent": 2, "records": records,
	})
	if a.status != http.StatusOK {
		b.t.Fatalf("%d %s", a.status, a.body)
	}
	read(b.t, a, &receipt)
	for _, r := range receipt.Records {
		results = append(results, string(r.Result))
	}
	return receipt, results
}

func TestDeviceIsPairedByItsCode(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	made := l.offer("judge", l.panel[0].Judge.ID)
	for name, secret := range map[string]string{"code": made.Code, "link": made.Link} {
		a := l.post("/api/v1/pairings/offer", "", map[string]string{name: secret})
		var offer api.PairingOffer
		read(t, a, &offer)
		if a.status != http.StatusOK || offer.Contest.ID != l.contest || offer.Judge == nil || offer.Judge.ID != l.panel[0].Judge.ID {
			t.Errorf("by its %s: %d %s", name, a.status, a.body)
		}
	}
	key := newKey(t)
	first, again := l.claim(map[string]string{"link": made.Link}, key), l.claim(map[string]string{"code": made.Code}, key)
	var one, two api.PairedDevice
	read(t, first, &one)
	read(t, again, &two)
	if first.status != http.StatusCreated || again.status != http.StatusCreated || one.Device != two.Device {
		t.Errorf("%d %s, again %d %s", first.status, first.body, again.status, again.body)
	}
	if me := l.me(l.sessionOf(first)); me.Roles[0].Role != "judge" {
		t.Errorf("%+v", me)
	}
	want(t, "another key", l.claim(map[string]string{"code": made.Code}, newKey(t)), 404, "link")
	want(t, "a code that was taken", l.post("/api/v1/pairings/offer", "", map[string]string{"code": made.Code}), 404, "link")
	want(t, "no key", l.post("/api/v1/pairings/claim", "", map[string]string{"code": made.Code, "public_key": "AAAA"}), 422, "invalid", "/public_key")
}

func TestOffersThatMakeNoSense(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	path := "/api/v1/contests/" + l.contest.String() + "/pairings"
	for _, body := range []string{
		`{"role": "judge"}`,
		`{"role": "chief", "judge": "` + l.panel[0].Judge.ID.String() + `"}`,
		`{"role": "judge", "judge": "` + uuid.NewString() + `"}`,
	} {
		a := l.send(request{method: "POST", path: path, token: token, body: body, contentType: json1})
		want(t, body, a, 422, "invalid", "/judge")
	}
}

// Wrong codes slow an address down, and stop nobody who is paired.
func TestWrongCodesSlowDown(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	b, made := l.tablet("judge", l.panel[0].Judge.ID), l.offer("chief", uuid.Nil)
	tries := 0
	for ; tries < 60; tries++ {
		a := l.post("/api/v1/pairings/offer", "", map[string]string{"code": "ACDE3467"})
		if a.status == http.StatusTooManyRequests {
			break
		}
		want(t, "a guess", a, 404, "link")
	}
	if tries < 20 || tries > 40 {
		t.Errorf("%d guesses before it is slowed down", tries)
	}
	a := l.post("/api/v1/pairings/offer", "", map[string]string{"code": made.Code})
	if a.status != http.StatusTooManyRequests || a.header.Get("Retry-After") == "" {
		t.Errorf("%d %s", a.status, a.body)
	}
	if _, results := b.deliver(b.grade(1, "7.5")); results[0] != "stored" {
		t.Errorf("a tablet is stopped by the guesses: %v", results)
	}
}

func TestRecordsAreStoredOnce(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	b := l.tablet("judge", l.panel[0].Judge.ID)
	one, two := b.grade(1, "7.5"), b.grade(2, "8.0")
	receipt, results := b.deliver(one, two)
	if !slices.Equal(results, []string{"stored", "stored"}) || receipt.Have != 2 {
		t.Errorf("%v, have %d", results, receipt.Have)
	}
	again, results := b.deliver(two, b.sign(one)) // the same signed again has another signature
	if !slices.Equal(results, []string{"repeat", "repeat"}) || again.Version != receipt.Version || again.Epoch != receipt.Epoch {
		t.Errorf("again: %v, %+v", results, again)
	}
	plan := b.plan()
	if plan.Have != 2 || len(plan.Records) != 2 || plan.Records[0].Author.Device != b.paired.Device.String() || plan.Records[0].Author.Seat != b.paired.Judge.ID.String() {
		t.Errorf("have %d, records %+v", plan.Have, plan.Records)
	}
	devices := l.send(request{path: "/api/v1/contests/" + l.contest.String() + "/devices", token: token})
	var list api.DeviceList
	read(t, devices, &list)
	at := slices.IndexFunc(list.Devices, func(d api.Device) bool { return d.ID == b.paired.Device })
	if d := list.Devices[at]; d.Unsent == nil || d.LastContact == nil {
		t.Errorf("%+v", d)
	}
}

func TestBadRecordRefusesOnlyItself(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	b := l.tablet("judge", l.panel[0].Judge.ID)
	good, offScale, unsigned, forged := b.grade(1, "7.5"), b.grade(2, "7.3"), b.grade(3, "7.0"), b.grade(1, "9.0")
	unsigned.Signature = ""
	forged.Grade = "10.0"
	unreadable := map[string]any{"seq": "five", "id": uuid.NewString(), "kind": "grade"}
	receipt, results := b.deliver(offScale, unsigned, unreadable, good, forged, "no record", []int{1})
	if !slices.Equal(results, []string{"refused", "refused", "refused", "stored", "refused", "refused", "refused"}) {
		t.Fatal(results)
	}
	for i, field := range map[int]string{0: "grade", 1: "signature", 2: "", 4: "signature"} {
		if faults := *receipt.Records[i].Faults; len(faults) != 1 || faults[0].Field != field {
			t.Errorf("record %d: %+v, want a fault of %q", i, faults, field)
		}
	}
	other := good
	other.Grade = "8.0"
	if _, results = b.deliver(b.sign(other)); results[0] != "refused" {
		t.Errorf("another record under an id that is taken: %v", results)
	}
}

// A sheet is signed with its remarks in Unicode's form NFC, whichever form a device
// writes.
func TestRemarksAreSignedInOneForm(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	b := l.tablet("judge", l.panel[0].Judge.ID)
	flight, judge, sequence := b.flight.ID.String(), b.paired.Judge.ID.String(), b.flight.Sequence.Digest
	sheet := line.Record{Seq: 100, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindSign, Flight: flight, Judge: judge}
	var grades []any
	var entries []line.Entry
	for item := range b.flight.Sequence.Items {
		r := b.grade(item+1, "7.5")
		r.Remark = "u\u0308ber" // u and the mark above it apart
		r = b.sign(r)
		grades, entries, sheet.Covers = append(grades, r), append(entries, line.Entry{Grade: "7.5", Remark: "\u00fcber"}), append(sheet.Covers, r.ID)
	}
	sheet.Digest = line.SheetDigest(b.contest.String(), flight, judge, sequence, entries)
	b.deliver(append(grades, b.sign(sheet))...)
	seat := decoded[api.JudgeSheet](l.service, request{path: "/api/v1/flights/" + flight + "/sheets/" + judge, token: token})
	if seat.State != "signed" {
		t.Errorf("the sheet is %q", seat.State)
	}
}

// TestSheetIsTheCrowdsOnceItIsClosed: a contest that is open live shows nobody on the
// line what another seat grades.
func TestSheetIsTheCrowdsOnceItIsClosed(t *testing.T) {
	t.Parallel()
	s := start(t)
	bundle := bundleOf(t, "108")
	bundle.Categories[0].Programmes[0].Flights[0].Status = "scheduled"
	l := lineOf(s, s.imports(bundle, db.Live))
	cells := func(flight api.LineFlight, token string) int {
		path := "/api/v1/flights/" + flight.ID.String() + "/sheets/" + l.panel[0].Judge.ID.String()
		return len(decoded[api.JudgeSheet](s, request{path: path, token: token}).Cells)
	}
	closed := l.tablet("chief", uuid.Nil).plan().Programmes[0].Flights[1]
	if closed.Status != line.StatusClosed || cells(closed, "") == 0 {
		t.Errorf("of a flight that is %s anyone is told %d cells", closed.Status, cells(closed, ""))
	}
	if anyone, office := cells(l.flight, ""), cells(l.flight, token); anyone != 0 || office == 0 {
		t.Errorf("of an open flight anyone is told %d cells, the office %d", anyone, office)
	}
}

// A queue outlives its session, and a device that was withdrawn still delivers:
// its records are kept, and held.
func TestQueueOutlivesTheDevice(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	b, chief := l.tablet("judge", l.panel[0].Judge.ID), l.tablet("chief", uuid.Nil)
	b.deliver(b.grade(1, "7.5"))
	path := "/api/v1/contests/" + l.contest.String() + "/devices/" + b.paired.Device.String()
	if a := l.send(request{method: "DELETE", path: path, token: token}); a.status != http.StatusNoContent {
		t.Fatalf("%d %s", a.status, a.body)
	}
	if a := l.send(request{path: "/api/v1/line?unsent=0&store=" + b.store.String(), session: b.session}); a.status != http.StatusUnauthorized {
		t.Errorf("a withdrawn device reads: %d", a.status)
	}
	if _, results := b.deliver(b.grade(2, "8.0")); results[0] != "stored" {
		t.Errorf("%v", results)
	}
	records := chief.plan().Records
	held := 0
	for _, r := range records {
		if r.Author.Withdrawn {
			held++
		}
	}
	if len(records) != 2 || held != 1 {
		t.Errorf("%d records, %d of them held", len(records), held)
	}
	a := b.post("/api/v1/line/records", "", map[string]any{"device": uuid.New(), "store": b.store, "unsent": 0, "records": []any{b.grade(3, "8.0")}})
	want(t, "an unknown device", a, 404, "not-found")
}

// Nothing of another seat is in a plan, and no pilot is in any.
func TestPlanIsForTheSeatAlone(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	b, other := l.tablet("judge", l.panel[0].Judge.ID), l.tablet("judge", l.panel[1].Judge.ID)
	chief, twin := l.tablet("chief", uuid.Nil), l.tablet("judge", l.panel[0].Judge.ID)
	b.deliver(b.grade(1, "7.5"))
	if p := other.plan(); len(p.Records) != 0 || len(p.Devices) != 0 || p.SameSeat != 0 {
		t.Errorf("another seat's: %d records, %d devices, %d of its seat", len(p.Records), len(p.Devices), p.SameSeat)
	}
	if p := twin.plan(); len(p.Records) != 1 || p.SameSeat != 1 {
		t.Errorf("the same seat's: %d records, %d of its seat", len(p.Records), p.SameSeat)
	}
	if p := chief.plan(); len(p.Records) != 1 || len(p.Devices) != 5 { // one more paired the first plan
		t.Errorf("the chief judge's: %d records, %d devices", len(p.Records), len(p.Devices))
	}
	part, err := l.db.ContestBundle(t.Context(), l.contest)
	if err != nil {
		t.Fatal(err)
	}
	whole := l.send(request{path: "/api/v1/line?unsent=0&store=" + chief.store.String(), session: chief.session})
	items := l.send(request{path: "/api/v1/line/flights/" + l.flight.ID.String(), session: b.session})
	for _, pilot := range part.Bundle.Pilots {
		if strings.Contains(whole.body, pilot.Name) || strings.Contains(items.body, pilot.Name) {
			t.Errorf("%s is said on the line", pilot.Name)
		}
	}
	var got api.LineItems
	read(t, items, &got)
	if len(got.Items) != l.flight.Sequence.Items {
		t.Errorf("%d items, want %d", len(got.Items), l.flight.Sequence.Items)
	}
}
