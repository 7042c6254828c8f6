package api_test

import (
	"crypto/ed25519"
	"encoding/json"
	"net/http"
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
