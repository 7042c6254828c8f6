package api_test

import (
	"crypto/ed25519"
	"encoding/json"
	"net/http"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/publication"
)

// signer signs with a key that only these tests have.
var signer = db.Signer{Key: ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize)), Program: "halfpoint test"}

// publishes publishes a programme and its category, and protests.
func (s *service) publishes(programme, pilot uuid.UUID) (published, protest uuid.UUID) {
	s.t.Helper()
	wish := db.Publishing{State: publication.Provisional, ProtestTime: time.Hour}
	published, _, err := s.db.Publish(s.t.Context(), db.Scope{Programme: programme}, wish, signer)
	if err != nil {
		s.t.Fatal(err)
	}
	p, err := s.db.Publication(s.t.Context(), published)
	if err != nil {
		s.t.Fatal(err)
	}
	if _, _, err := s.db.Publish(s.t.Context(), db.Scope{Category: p.Info.Category.ID}, db.Publishing{State: publication.Provisional}, signer); err != nil {
		s.t.Fatal(err)
	}
	protest, _, err = s.db.File(s.t.Context(), programme, db.NewProtest{Pilot: pilot, Text: "Once more."})
	if err != nil {
		s.t.Fatal(err)
	}
	return published, protest
}

// TestPublishedBytes publishes over HTTP and checks what comes back as anyone.
func TestPublishedBytes(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := get[api.Contest](s, "/api/v1/contests/"+s.imports(bundleOf(t, "108"), db.Published).String())
	programme := "/api/v1/programmes/" + contest.Categories[0].Programmes[0].ID.String()
	post := func(body string) answer {
		return s.send(request{method: "POST", path: programme + "/publications", token: token, contentType: json1, body: body})
	}
	var first, again, latest api.Publication
	read := func(a answer, into *api.Publication) {
		t.Helper()
		if err := json.Unmarshal([]byte(a.body), into); err != nil || a.status != http.StatusOK {
			t.Fatalf("%d %s", a.status, a.body)
		}
	}
	read(post(`{"state": "provisional", "protest_minutes": 30}`), &first)
	read(post(`{"state": "provisional", "protest_minutes": 30}`), &again)
	if first.About.ID != again.About.ID || len(first.Standing) == 0 {
		t.Errorf("published twice, or nothing: %+v", first.About)
	}
	a := post(`{"state": "official"}`)
	if a.status != http.StatusConflict || !strings.Contains(a.body, "not-yet") || !strings.Contains(a.body, "time for protests runs") {
		t.Errorf("%d %s", a.status, a.body)
	}
	at := "/api/v1/publications/" + first.About.ID.String()
	archive := s.send(request{path: at + "/archive"})
	p, err := publication.ReadArchive([]byte(archive.body))
	if err != nil || !p.Check(first.Key.ID).Agrees() {
		t.Fatalf("the archive does not agree, %v", err)
	}
	for path, want := range map[string][]byte{at + "/bundle": p.Bundle, at + "/results": p.Results} {
		a := s.send(request{path: path})
		if a.body != string(want) || !strings.Contains(a.header.Get("Cache-Control"), "immutable") {
			t.Errorf("%s: other bytes, or %s", path, a.header.Get("Cache-Control"))
		}
		if again := s.send(request{path: path, header: map[string]string{"If-None-Match": a.header.Get("ETag")}}); again.status != http.StatusNotModified {
			t.Errorf("%s: %d where nothing has changed", path, again.status)
		}
	}
	last := s.send(request{path: programme + "/publications/latest"})
	read(last, &latest)
	if latest.About.ID != first.About.ID || last.header.Get("Cache-Control") != "no-cache" {
		t.Errorf("the latest is %v, %s", latest.About, last.header.Get("Cache-Control"))
	}
	if keys := get[api.KeyList](s, "/api/v1/keys"); len(keys.Keys) != 1 || keys.Keys[0].ID != first.Key.ID {
		t.Errorf("%+v", keys)
	}
}

// TestHeadAnswersAsGet: with the same headers and nothing after them.
func TestHeadAnswersAsGet(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	at := "/api/v1/contests/" + contest.String()
	programme := get[api.Contest](s, at).Categories[0].Programmes[0].ID.String()
	a := s.send(request{method: "POST", path: "/api/v1/programmes/" + programme + "/publications", token: token, body: `{"state": "provisional"}`, contentType: json1})
	var made api.Publication
	read(t, a, &made)
	for _, path := range []string{at, "/api/v1/publications/" + made.About.ID.String() + "/bundle", "/healthz", "/api/v1/contests/x"} {
		plain := map[string]string{"Accept-Encoding": "identity"}
		head, got := s.send(request{method: "HEAD", path: path, header: plain}), s.send(request{path: path, header: plain})
		if head.status != got.status || head.body != "" {
			t.Errorf("%s: %d with %q, GET says %d", path, head.status, head.body, got.status)
		}
		for _, name := range []string{"ETag", "Cache-Control", "Content-Type"} {
			if head.header.Get(name) != got.header.Get(name) {
				t.Errorf("%s: %s is %q, GET says %q", path, name, head.header.Get(name), got.header.Get(name))
			}
		}
	}
	for path, status := range map[string]int{at + "/setup": 401, at + "/events": 405} {
		if a := s.send(request{method: "HEAD", path: path}); a.status != status {
			t.Errorf("%s: %d, want %d", path, a.status, status)
		}
	}
}

// TestPublishedFromMemory reads again and again while who may read, what is
// latest and what things are called change.
func TestPublishedFromMemory(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	programme := get[api.Contest](s, "/api/v1/contests/"+contest.String()).Categories[0].Programmes[0].ID
	publish := func(state string) uuid.UUID {
		t.Helper()
		id, _, err := s.db.Publish(t.Context(), db.Scope{Programme: programme}, db.Publishing{State: state}, signer)
		if err != nil {
			t.Fatal(err)
		}
		return id
	}
	open := func(opened string) {
		t.Helper()
		if err := s.db.SetOpened(t.Context(), contest, opened, ""); err != nil {
			t.Fatal(err)
		}
	}
	first := publish(publication.Provisional)
	at := "/api/v1/publications/" + first.String()
	for range 2 {
		for _, path := range []string{at, at + "/bundle", at + "/results", at + "/archive"} {
			open(db.Closed)
			if a := s.send(request{path: path}); a.status != http.StatusNotFound {
				t.Errorf("%s of a closed contest: %d", path, a.status)
			}
			if a := s.send(request{path: path, token: token}); a.status != http.StatusOK || a.header.Get("Cache-Control") != "no-store" {
				t.Errorf("%s for the office: %d, %s", path, a.status, a.header.Get("Cache-Control"))
			}
			open(db.Published)
			if a := s.send(request{path: path}); a.status != http.StatusOK || !strings.Contains(a.header.Get("Cache-Control"), "public") {
				t.Errorf("%s of an open contest: %d, %s", path, a.status, a.header.Get("Cache-Control"))
			}
		}
	}
	latest := "/api/v1/programmes/" + programme.String() + "/publications/latest"
	if got := get[api.Publication](s, latest).About.ID; got != first {
		t.Errorf("the latest is %s, want %s", got, first)
	}
	second := publish(publication.Official)
	if got := get[api.Publication](s, latest).About.ID; got != second || second == first {
		t.Errorf("the latest is %s, want %s", got, second)
	}
}

// TestPublishedUnderTheNamesOfThen: whatever is called otherwise later, no answer about
// a publication changes, since caches keep them for good.
func TestPublishedUnderTheNamesOfThen(t *testing.T) {
	t.Parallel()
	s := start(t)
	bundle := bundleOf(t, "108")
	contest := s.imports(bundle, db.Published)
	there := get[api.Contest](s, "/api/v1/contests/"+contest.String())
	programme := there.Categories[0].Programmes[0]
	publish := func(reason string) string {
		t.Helper()
		id, _, err := s.db.Publish(t.Context(), db.Scope{Programme: programme.ID}, db.Publishing{State: publication.Provisional, Reason: reason}, signer)
		if err != nil {
			t.Fatal(err)
		}
		return id.String()
	}
	publish("")
	at := "/api/v1/publications/" + publish("Once more.")
	before := map[string]answer{}
	for _, part := range []string{"", "/sheets", "/changes", "/archive", "/workings/" + bundle.Pilots[0].ID} {
		before[part] = s.send(request{path: at + part})
	}
	setup := decoded[api.Setup](s, request{path: "/api/v1/contests/" + contest.String() + "/setup", token: token})
	setup.Contest.Name, setup.Categories[0].Name, setup.Programmes[0].Name, setup.Pilots[0].Name = "Another", "Another", "Another", "Another"
	change, err := json.Marshal(map[string]any{
		"contest": setup.Contest, "categories": setup.Categories[:1], "programmes": setup.Programmes[:1], "pilots": setup.Pilots[:1],
	})
	if err != nil {
		t.Fatal(err)
	}
	a := s.send(request{method: "PATCH", path: "/api/v1/contests/" + contest.String() + "/setup", token: token, body: string(change), contentType: json1})
	if renamed := get[api.Contest](s, "/api/v1/contests/"+contest.String()); a.status != http.StatusOK || renamed.Categories[0].Programmes[0].Name != "Another" {
		t.Fatalf("%d %s", a.status, a.body)
	}
	for part, was := range before {
		if now := s.send(request{path: at + part}); was.status != http.StatusOK || now.body != was.body || now.header.Get("ETag") != was.header.Get("ETag") {
			t.Errorf("%q: %d, and it changed", part, was.status)
		}
	}
}

// TestPublishedSheets holds the sheets of a publication to those of the flights
// at the same moment.
func TestPublishedSheets(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := get[api.Contest](s, "/api/v1/contests/"+s.imports(bundleOf(t, "108"), db.Live).String())
	programme := contest.Categories[0].Programmes[0].ID
	wish := db.Publishing{State: publication.Provisional}
	id, _, err := s.db.Publish(t.Context(), db.Scope{Programme: programme}, wish, signer)
	if err != nil {
		t.Fatal(err)
	}
	sheets := get[api.PublishedSheets](s, "/api/v1/publications/"+id.String()+"/sheets")
	byName := map[string]api.PublishedSheet{}
	for _, sheet := range sheets.Sheets {
		byName[sheet.Flight.Name] = sheet
	}
	standing, held := get[api.ProgrammeResults](s, "/api/v1/programmes/"+programme.String()+"/results"), 0
	for _, f := range standing.Flights {
		if f.State != api.FlightStateFlown {
			continue
		}
		live, published := get[api.FlightSheet](s, "/api/v1/flights/"+f.ID.String()+"/result"), byName[f.Pilot.Name]
		rows := make([]api.SheetItem, len(published.Rows))
		for i, r := range published.Rows {
			item := sheets.Sequences[published.Sequence][i]
			rows[i] = api.SheetItem{Item: item, Value: &r.Value, Points: &r.Points, Field: r.Field, Against: r.Against, Cells: r.Cells, Remarks: r.Remarks}
		}
		if !reflect.DeepEqual(rows, live.Items) || !reflect.DeepEqual(published.Seats, live.Seats) || *published.Flight.Score != *live.Flight.Score {
			t.Errorf("the published sheet of %s is another than the live one", f.Pilot.Name)
		}
		held++
	}
	if held == 0 || held != len(sheets.Sheets) || sheets.Ranks == 0 {
		t.Errorf("%d sheets are published, %d flights are flown", len(sheets.Sheets), held)
	}
}

// TestPublishedChanges compares publications of one programme, and of two.
func TestPublishedChanges(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := get[api.Contest](s, "/api/v1/contests/"+s.imports(bundleOf(t, "108"), db.Published).String())
	of := db.Scope{Programme: contest.Categories[0].Programmes[0].ID}
	publish := func(of db.Scope, reason string) string {
		id, _, err := s.db.Publish(t.Context(), of, db.Publishing{State: publication.Provisional, Reason: reason}, signer)
		if err != nil {
			t.Fatal(err)
		}
		return id.String()
	}
	first := publish(of, "")
	if err := s.db.SetCounting(t.Context(), of.Programme, db.Counting{Reason: "The cloud base sank."}); err != nil {
		t.Fatal(err)
	}
	second := publish(of, "")
	third := publish(of, "Once more.")
	changes := get[api.PublishedChanges](s, "/api/v1/publications/"+third+"/changes?since="+first)
	if changes.Since == nil || changes.Since.ID.String() != first || len(changes.Changes) != 1 || changes.Changes[0].What != publication.ChangedCounts {
		t.Errorf("since the first %+v", changes)
	}
	changes = get[api.PublishedChanges](s, "/api/v1/publications/"+third+"/changes")
	if changes.Since.ID.String() != second || len(changes.Changes) != 0 {
		t.Errorf("since the one before %+v", changes)
	}
	other := publish(db.Scope{Category: contest.Categories[0].ID}, "")
	if a := s.send(request{path: "/api/v1/publications/" + third + "/changes?since=" + other}); a.status != http.StatusNotFound {
		t.Errorf("since one of a category: %d", a.status)
	}
}

// TestPilotsProtest files protests as two pilots, who see each their own alone.
func TestPilotsProtest(t *testing.T) {
	t.Parallel()
	s := start(t)
	elsewhere := s.imports(bundleOf(t, "108"), db.Closed)
	contest := s.imports(bundleOf(t, "108"), db.Closed)
	everyone := castAt(s, contest, elsewhere)
	part, err := s.db.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	programme, flights := part.Categories[0].Programmes[0].ID, part.Bundle.Categories[0].Programmes[0].Flights
	wish := db.Publishing{State: publication.Provisional, ProtestTime: time.Hour}
	if _, _, err := s.db.Publish(t.Context(), db.Scope{Programme: programme}, wish, signer); err != nil {
		t.Fatal(err)
	}
	path := "/api/v1/programmes/" + programme.String() + "/protests"
	if _, _, err := s.db.File(t.Context(), programme, db.NewProtest{Pilot: part.Pilots[flights[2].Pilot], Text: "A third one's."}); err != nil {
		t.Fatal(err)
	}
	own := part.Pilots[flights[0].Pilot]
	file := request{method: "POST", path: path, contentType: json1, body: `{"pilot": "` + own.String() + `", "text": "Look again."}`}
	if a := s.send(everyone.as("pilot", file)); a.status != http.StatusOK {
		t.Fatalf("the own protest: %d %s", a.status, a.body)
	}
	if a := s.send(everyone.as("rival", file)); a.status != http.StatusNotFound {
		t.Errorf("another's protest: %d %s", a.status, a.body)
	}
	for part, want := range map[string]int{"pilot": 1, "rival": 0, "jury": 2, "office": 2} {
		a := s.send(everyone.as(part, request{path: path}))
		var list api.ProtestList
		if err := json.Unmarshal([]byte(a.body), &list); err != nil || len(list.Protests) != want {
			t.Errorf("%s sees %d protests, want %d: %v", part, len(list.Protests), want, err)
		}
	}
}
