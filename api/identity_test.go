package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/identity"
)

const goodPassword = "a crow on every fence post"

// known makes an account with a password.
func (s *service) known(email string) db.Account {
	s.t.Helper()
	a, err := s.db.MakeAccount(s.t.Context(), db.NewAccount{Email: email, Name: "Mara Quist", Password: identity.HashPassword(goodPassword)})
	if err != nil {
		s.t.Fatal(err)
	}
	return a
}

// post sends a value as a session, which may be empty.
func (s *service) post(path, session string, value any) answer {
	s.t.Helper()
	return s.sendValue("POST", path, session, value)
}

func (s *service) sendValue(method, path, session string, value any) answer {
	s.t.Helper()
	body, err := json.Marshal(value)
	if err != nil {
		s.t.Fatal(err)
	}
	return s.send(request{method: method, path: path, session: session, body: string(body), contentType: json1})
}

// enter signs in and returns the session's secret.
func (s *service) enter(email, password string) string {
	s.t.Helper()
	return s.sessionOf(s.post("/api/v1/sessions", "", map[string]string{"email": email, "password": password}))
}

// sessionOf is the secret of the cookie that an answer sets.
func (s *service) sessionOf(a answer) string {
	s.t.Helper()
	if a.status != http.StatusCreated {
		s.t.Fatalf("not signed in: %d %s", a.status, a.body)
	}
	cookie, err := http.ParseSetCookie(a.header.Get("Set-Cookie"))
	if err != nil {
		s.t.Fatal(err)
	}
	return cookie.Value
}

// me is who a session is.
func (s *service) me(session string) api.Me {
	s.t.Helper()
	return decoded[api.Me](s, request{path: "/api/v1/me", session: session})
}

// want holds an answer to a status, a kind of problem and the places that it
// complains about.
func want(t *testing.T, what string, a answer, status int, kind string, places ...string) {
	t.Helper()
	if a.status != status {
		t.Errorf("%s: %d, want %d: %s", what, a.status, status, a.body)
		return
	}
	if kind == "" {
		return
	}
	p := problemOf(t, a)
	if !strings.HasSuffix(p.Type, "#"+kind) || strings.Join(pointers(&p), " ") != strings.Join(places, " ") {
		t.Errorf("%s: %s, want %s about %v", what, a.body, kind, places)
	}
}

func TestFirstAccountOwnsTheServer(t *testing.T) {
	t.Parallel()
	s := start(t)
	link := identity.NewSecret()
	if good, err := s.db.OfferFirst(t.Context(), identity.HashSecret(link), time.Hour); err != nil || !good {
		t.Fatal(good, err)
	}
	first := func(link, name, password string) answer {
		return s.post("/api/v1/first", "", map[string]any{
			"link": link, "account": map[string]string{"email": " first@example.org ", "name": name, "password": password},
		})
	}
	want(t, "a short password", first(link, "First", "short"), 422, "invalid", "/account/password")
	want(t, "no name", first(link, " ", goodPassword), 422, "invalid", "/account/name")
	want(t, "a guessed link", first(identity.NewSecret(), "First", goodPassword), 404, "link")
	me := s.me(s.sessionOf(first(link, "First", goodPassword)))
	if me.Account == nil || !me.Account.Owner || me.Account.Email != "first@example.org" || !me.Confirmed {
		t.Errorf("%+v", me)
	}
	want(t, "a second time", first(link, "Second", goodPassword), 404, "link")
}

func TestPasswordIsAskedForAgain(t *testing.T) {
	t.Parallel()
	s := start(t)
	mara := s.known("mara@example.org")
	contest := s.imports(bundleOf(t, "108"), db.Closed)
	s.give(contest, mara.ID, db.RoleDirector, uuid.Nil)
	session := s.enter("mara@example.org", goodPassword)
	s.meddle("UPDATE session SET confirmed_at = now() - interval '11 minutes'", nil)
	invite := func() answer {
		return s.post("/api/v1/contests/"+contest.String()+"/invitations", session, map[string]string{"role": "office"})
	}
	publish := func(state string) answer {
		part, err := s.db.ContestBundle(t.Context(), contest)
		if err != nil {
			t.Fatal(err)
		}
		programme := part.Categories[0].Programmes[0].ID.String()
		return s.post("/api/v1/programmes/"+programme+"/publications", session, map[string]string{"state": state, "reason": "All agreed."})
	}
	want(t, "eleven minutes later", invite(), 403, "password-again")
	want(t, "provisional results", publish("provisional"), 200, "")
	want(t, "official results", publish("official"), 403, "password-again")
	if s.me(session).Confirmed {
		t.Error("and yet confirmed")
	}
	confirm := func(password string) answer {
		return s.post("/api/v1/me/confirmation", session, map[string]string{"password": password})
	}
	want(t, "a wrong password", confirm("another password"), 422, "invalid", "/password")
	want(t, "still", invite(), 403, "password-again")
	want(t, "the password", confirm(goodPassword), 204, "")
	want(t, "and now", invite(), 201, "")
	want(t, "official results now", publish("official"), 200, "")
}

func TestPasswordIsChanged(t *testing.T) {
	t.Parallel()
	s := start(t)
	s.known("mara@example.org")
	here, there := s.enter("mara@example.org", goodPassword), s.enter("mara@example.org", goodPassword)
	change := func(password, next string) answer {
		return s.sendValue("PUT", "/api/v1/me/password", here, map[string]string{"password": password, "new": next})
	}
	want(t, "without the present one", change("another password", "twelve crows on a wire"), 422, "invalid", "/password")
	want(t, "a short one", change(goodPassword, "short"), 422, "invalid", "/new")
	want(t, "the own address", change(goodPassword, "mara@example.org"), 422, "invalid", "/new")
	want(t, "a good one", change(goodPassword, "twelve crows on a wire"), 204, "")
	s.me(here)
	want(t, "elsewhere", s.send(request{path: "/api/v1/me", session: there}), 401, "sign-in")
	s.enter("mara@example.org", "twelve crows on a wire")
}

func TestPasswordIsResetByALink(t *testing.T) {
	t.Parallel()
	s := start(t)
	mara, link := s.known("mara@example.org"), identity.NewSecret()
	session := s.enter("mara@example.org", goodPassword)
	if err := s.db.MakeLink(t.Context(), identity.HashSecret(link), db.LinkPassword, mara.ID, time.Hour); err != nil {
		t.Fatal(err)
	}
	reset := func(link, next string) answer {
		return s.post("/api/v1/password", "", map[string]string{"link": link, "new": next})
	}
	want(t, "a guessed link", reset(identity.NewSecret(), "twelve crows on a wire"), 404, "link")
	want(t, "a short one", reset(link, "short"), 422, "invalid", "/new")
	want(t, "a good one", reset(link, "twelve crows on a wire"), 204, "")
	want(t, "a second time", reset(link, "thirteen crows on a wire"), 404, "link")
	want(t, "the session of before", s.send(request{path: "/api/v1/me", session: session}), 401, "sign-in")
	s.enter("mara@example.org", "twelve crows on a wire")
}

func TestContestIsMadeByTheOwner(t *testing.T) {
	t.Parallel()
	s := start(t)
	owner := s.signIn(s.account("owner", true))
	create := func(body string) answer {
		return s.send(request{method: "POST", path: "/api/v1/contests", session: owner, body: body, contentType: json1})
	}
	want(t, "no name", create(`{"name": " ", "place": ""}`), 422, "invalid", "/name")
	want(t, "back in time", create(`{"name": "Open", "place": "", "starts": "2026-06-14", "ends": "2026-06-12"}`), 422, "invalid", "/ends")
	want(t, "no day", create(`{"name": "Open", "place": "", "starts": "soon"}`), 400, "malformed", "/starts")
	a := create(`{"name": "Lindholm Open", "place": "Lindholm", "starts": "2026-06-12", "ends": "2026-06-14"}`)
	want(t, "a contest", a, 201, "")
	made := s.send(request{path: a.header.Get("Location"), session: owner})
	if made.status != http.StatusOK || !strings.Contains(made.body, `"opened":"closed"`) || !strings.Contains(made.body, `"starts":"2026-06-12"`) {
		t.Errorf("%d %s", made.status, made.body)
	}
	if a := s.send(request{path: "/api/v1/contests"}); strings.Contains(a.body, "Lindholm") {
		t.Errorf("anyone is shown %s", a.body)
	}
}

func TestListShowsTheOwnContests(t *testing.T) {
	t.Parallel()
	s := start(t)
	b := bundleOf(t, "108")
	mine, others := s.imports(b, db.Closed), s.imports(b, db.Closed)
	everyone := castAt(s, mine, others)
	for _, part := range strings.Fields(deviceParts + " pilot jury office director") {
		a := s.send(request{path: "/api/v1/contests", session: everyone.sessions[part]})
		if !strings.Contains(a.body, mine.String()) || strings.Contains(a.body, others.String()) || a.header.Get("Cache-Control") != "no-store" {
			t.Errorf("%s is shown %s", part, a.body)
		}
	}
}

// TestLogHoldsNoSecret signs in, invites and goes wrong in every way, and looks
// for all that must not be read in a log.
func TestLogHoldsNoSecret(t *testing.T) {
	t.Parallel()
	s := start(t)
	mara := s.known("mara@example.org")
	contest := s.imports(bundleOf(t, "108"), db.Closed)
	s.give(contest, mara.ID, db.RoleDirector, uuid.Nil)
	session := s.enter("mara@example.org", goodPassword)
	const wrong = "a crow that nobody has seen"
	s.post("/api/v1/sessions", "", map[string]string{"email": "mara@example.org", "password": wrong})
	s.post("/api/v1/me/confirmation", session, map[string]string{"password": wrong})
	var made api.InvitationMade
	a := s.post("/api/v1/contests/"+contest.String()+"/invitations", session, map[string]string{"role": "jury"})
	if err := json.Unmarshal([]byte(a.body), &made); err != nil {
		t.Fatal(err)
	}
	s.post("/api/v1/invitations/offer", "", map[string]string{"link": made.Link})
	s.post("/api/v1/invitations/acceptance", session, map[string]string{"link": made.Link})
	s.send(request{path: "/api/v1/me", token: "a token that was guessed"})
	s.meddle("ALTER TABLE session RENAME TO lost", nil)
	if a := s.send(request{path: "/api/v1/me", session: session}); a.status != http.StatusInternalServerError {
		t.Errorf("without a table: %d", a.status)
	}
	text := logged.String()
	for _, secret := range []string{session, goodPassword, wrong, made.Link, token, "a token that was guessed"} {
		if strings.Contains(text, secret) {
			t.Errorf("the log holds %q", secret)
		}
	}
	if !strings.Contains(text, "operation=acceptInvitation") || !strings.Contains(text, "operation=getMe status=500") {
		t.Error("the log does not hold the requests")
	}
}
