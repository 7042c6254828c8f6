package api_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/publication"
)

// TestNeedsFollowAProgramme takes a programme from its last flight to official
// results, and looks at what is needed on the way.
func TestNeedsFollowAProgramme(t *testing.T) {
	t.Parallel()
	s := start(t)
	id := s.imports(bundleOf(t, "108"), db.Closed)
	contest := get[api.Contest](s, "/api/v1/contests/"+id.String())
	category := contest.Categories[0]
	programme := category.Programmes[0]
	of := db.Scope{Programme: programme.ID}
	needs := func() (words []string) {
		for _, n := range get[api.NeedList](s, "/api/v1/contests/"+id.String()+"/needs").Needs {
			if strings.Contains(n.Link, programme.ID.String()) || strings.Contains(n.Link, category.ID.String()) {
				words = append(words, n.Text)
			}
		}
		return words
	}
	holds := func(when, want string) {
		t.Helper()
		if got := strings.Join(needs(), "; "); (want == "" && got != "") || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", when, got, want)
		}
	}
	publish := func(wish db.Publishing) {
		t.Helper()
		if _, _, err := s.db.Publish(t.Context(), of, wish, signer); err != nil {
			t.Fatal(err)
		}
	}
	holds("all is flown", "every flight is closed")
	publish(db.Publishing{State: publication.Provisional, ProtestTime: 2 * time.Hour})
	holds("published", "")
	publish(db.Publishing{State: publication.Provisional, ProtestTime: 10 * time.Minute, Reason: "Sooner."})
	holds("ten minutes are left", "runs out")
	protest, _, err := s.db.File(t.Context(), programme.ID, db.NewProtest{Pilot: s.pilotOf(id), Text: "Once more."})
	if err != nil {
		t.Fatal(err)
	}
	holds("protested", "waits for a decision")
	if _, err := s.db.Decide(t.Context(), protest, db.NewDecision{Text: "No."}); err != nil {
		t.Fatal(err)
	}
	publish(db.Publishing{State: publication.Official, Reason: "All agree."})
	for _, other := range category.Programmes[1:] {
		if err := s.db.SetCounting(t.Context(), other.ID, db.Counting{Reason: "Not flown."}); err != nil {
			t.Fatal(err)
		}
	}
	holds("official", "every programme that counts is official")
}

// pilotOf is a pilot of the first flight of a contest.
func (s *service) pilotOf(contest uuid.UUID) uuid.UUID {
	s.t.Helper()
	part, err := s.db.ContestBundle(s.t.Context(), contest)
	if err != nil {
		s.t.Fatal(err)
	}
	return part.Pilots[part.Bundle.Categories[0].Programmes[0].Flights[0].Pilot]
}

// TestPreview looks before publishing, and after.
func TestPreview(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := get[api.Contest](s, "/api/v1/contests/"+s.imports(bundleOf(t, "108"), db.Closed).String())
	programme := contest.Categories[0].Programmes[0].ID
	next := "/api/v1/programmes/" + programme.String() + "/publications/next"
	first := get[api.PublicationPreview](s, next)
	if first.Latest != nil || first.Same || len(first.Standing) == 0 || len(first.Refusals) != 0 || !first.Counting.Counts {
		t.Errorf("before anything is published: %+v", first)
	}
	official := get[api.PublicationPreview](s, next+"?state=official")
	if len(official.Refusals) == 0 || !strings.Contains(official.Refusals[0].Text, "nothing provisional") {
		t.Errorf("official before provisional: %+v", official.Refusals)
	}
	id, _, err := s.db.Publish(t.Context(), db.Scope{Programme: programme}, db.Publishing{State: publication.Provisional}, signer)
	if err != nil {
		t.Fatal(err)
	}
	again := get[api.PublicationPreview](s, next)
	if again.Latest == nil || again.Latest.ID != id || !again.Same || len(again.Changes) != 0 {
		t.Errorf("after it was published: %+v", again)
	}
	if err := s.db.SetCounting(t.Context(), programme, db.Counting{Reason: "The cloud base sank."}); err != nil {
		t.Fatal(err)
	}
	changed := get[api.PublicationPreview](s, next)
	if changed.Same || len(changed.Changes) != 1 || changed.Counting.Reason == "" {
		t.Errorf("after it was decided not to count it: %+v", changed.Changes)
	}
	category := get[api.PublicationPreview](s, "/api/v1/categories/"+contest.Categories[0].ID.String()+"/publications/next")
	if len(category.Standing) == 0 || category.Programme != nil || len(category.Programmes) != 1 {
		t.Errorf("of the category: %+v", category)
	}
}

// TestAudit finds nothing wrong with a contest that was published of.
func TestAudit(t *testing.T) {
	t.Parallel()
	s := start(t)
	id := s.imports(bundleOf(t, "108"), db.Closed)
	contest := get[api.Contest](s, "/api/v1/contests/"+id.String())
	s.publishes(contest.Categories[0].Programmes[0].ID, s.pilotOf(id))
	audit := get[api.Audit](s, "/api/v1/contests/"+id.String()+"/audit")
	if !audit.Agrees || len(audit.Findings) < 3 {
		t.Errorf("%+v", audit)
	}
}
