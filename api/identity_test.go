package api_test

import (
	"encoding/json"
	"fmt"
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

func TestSignInAnswersTheSameToAWrongAddressAndPassword(t *testing.T) {
	t.Parallel()
	s := start(t)
	s.known("mara@example.org")
	if err := s.db.Disable(t.Context(), s.known("gone@example.org").ID, true); err != nil {
		t.Fatal(err)
	}
	s.account("linked", false) // which has no password
	var said []string
	for _, c := range []struct{ email, password string }{
		{"mara@example.org", "another password"},
		{"nobody@example.org", goodPassword},
		{"gone@example.org", goodPassword},
		{"not an address", goodPassword},
		{"mara@example.org", ""},
	} {
		a := s.post("/api/v1/sessions", "", map[string]string{"email": c.email, "password": c.password})
		want(t, c.email, a, 401, "wrong-sign-in")
		if a.header.Get("Set-Cookie") != "" {
			t.Errorf("%s: a cookie", c.email)
		}
		said = append(said, a.body)
	}
	for _, body := range said {
		if body != said[0] {
			t.Errorf("%s is not %s", body, said[0])
		}
	}
	session := s.enter("MARA@example.org", goodPassword)
	if me := s.me(session); me.Account.Email != "mara@example.org" || len(session) != 43 {
		t.Errorf("%+v", me)
	}
}

func TestSigningOut(t *testing.T) {
	t.Parallel()
	s := start(t)
	s.known("mara@example.org")
	session := s.enter("mara@example.org", goodPassword)
	a := s.send(request{method: "DELETE", path: "/api/v1/session", session: session})
	cookie, err := http.ParseSetCookie(a.header.Get("Set-Cookie"))
	if a.status != http.StatusNoContent || err != nil || cookie.Value != "" || cookie.MaxAge >= 0 {
		t.Errorf("%d, %+v, %v", a.status, cookie, err)
	}
	want(t, "afterwards", s.send(request{path: "/api/v1/me", session: session}), 401, "sign-in")
	if a := s.send(request{path: "/api/v1/contests", session: session}); a.status != http.StatusOK {
		t.Errorf("what anyone may read is kept from one whose session is over: %d", a.status)
	}
}

func TestSessionsAreSeenAndWithdrawn(t *testing.T) {
	t.Parallel()
	s := start(t)
	s.known("mara@example.org")
	s.known("jonas@example.org")
	here, there := s.enter("mara@example.org", goodPassword), s.enter("mara@example.org", goodPassword)
	other := s.enter("jonas@example.org", goodPassword)
	var list api.SessionList
	if err := json.Unmarshal([]byte(s.send(request{path: "/api/v1/me/sessions", session: here}).body), &list); err != nil || len(list.Sessions) != 2 {
		t.Fatalf("%+v, %v", list, err)
	}
	for _, one := range list.Sessions {
		if one.Present {
			continue
		}
		path := "/api/v1/me/sessions/" + one.ID.String()
		want(t, "somebody else's", s.send(request{method: "DELETE", path: path, session: other}), 404, "not-found")
		want(t, "the own", s.send(request{method: "DELETE", path: path, session: here}), 204, "")
	}
	want(t, "the withdrawn one", s.send(request{path: "/api/v1/me", session: there}), 401, "sign-in")
	s.me(here)
}

// TestCookiesAreTakenFromOwnPagesOnly sends what pages of others could send.
func TestCookiesAreTakenFromOwnPagesOnly(t *testing.T) {
	t.Parallel()
	s := start(t)
	s.known("mara@example.org")
	session := s.enter("mara@example.org", goodPassword)
	for name, c := range map[string]struct {
		header map[string]string
		status int
	}{
		"an own page":           {nil, 204},
		"no origin":             {map[string]string{"Origin": ""}, 403},
		"another origin":        {map[string]string{"Origin": "https://evil.example"}, 403},
		"another port":          {map[string]string{"Origin": "http://127.0.0.1:1"}, 403},
		"a sandboxed page":      {map[string]string{"Origin": "null"}, 403},
		"another site, fetched": {map[string]string{"Sec-Fetch-Site": "cross-site"}, 403},
	} {
		a := s.send(request{
			method: "POST", path: "/api/v1/me/confirmation", session: session, header: c.header,
			body: fmt.Sprintf(`{"password": %q}`, goodPassword), contentType: json1,
		})
		kind := ""
		if c.status == 403 {
			kind = "foreign-origin"
		}
		want(t, name, a, c.status, kind)
	}
	a := s.send(request{
		method: "POST", path: "/api/v1/me/confirmation", session: session,
		body: fmt.Sprintf(`{"password": %q}`, goodPassword), contentType: "text/plain",
	})
	want(t, "a form", a, 415, "content-type")
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

func TestSignInByALinkIsGoodOnce(t *testing.T) {
	t.Parallel()
	s := start(t)
	mara, link := s.known("mara@example.org"), identity.NewSecret()
	if err := s.db.MakeLink(t.Context(), identity.HashSecret(link), db.LinkSignIn, mara.ID, time.Hour); err != nil {
		t.Fatal(err)
	}
	by := func() answer { return s.post("/api/v1/sessions/by-link", "", map[string]string{"link": link}) }
	if me := s.me(s.sessionOf(by())); me.Account.ID != mara.ID || me.Confirmed {
		t.Errorf("%+v; no password was given", me)
	}
	want(t, "a second time", by(), 404, "link")
}

func TestSecondFactor(t *testing.T) {
	t.Parallel()
	s := start(t)
	s.known("mara@example.org")
	session := s.enter("mara@example.org", goodPassword)
	prepare := func() answer {
		return s.send(request{method: "POST", path: "/api/v1/me/second-factor", session: session})
	}
	var made api.CodeKey
	if err := json.Unmarshal([]byte(prepare().body), &made); err != nil || !strings.Contains(made.URI, "secret="+made.Key) {
		t.Fatalf("%+v, %v", made, err)
	}
	found, err := s.db.CredentialsByEmail(t.Context(), "mara@example.org")
	if err != nil || identity.CodeKeyText(found.CodeKey) != made.Key {
		t.Fatalf("%v, %v", found, err)
	}
	confirm := func(code string) answer {
		return s.sendValue("PUT", "/api/v1/me/second-factor", session, map[string]string{"code": code})
	}
	enter := func(code string) answer {
		return s.post("/api/v1/sessions", "", map[string]string{"email": "mara@example.org", "password": goodPassword, "code": code})
	}
	s.sessionOf(enter("")) // it is not asked for yet
	now := time.Now()
	want(t, "a wrong code", confirm("12345"), 422, "invalid", "/code")
	want(t, "the code", confirm(identity.Code(found.CodeKey, now)), 204, "")
	want(t, "twice", confirm(identity.Code(found.CodeKey, now)), 409, "conflict")
	want(t, "another key", prepare(), 409, "conflict")
	want(t, "no code", enter(" "), 401, "code-needed")
	want(t, "a wrong code", enter("12345"), 401, "wrong-code")
	want(t, "the code that was used", enter(identity.Code(found.CodeKey, now)), 401, "wrong-code")
	next := identity.Code(found.CodeKey, now.Add(30*time.Second))
	s.sessionOf(enter(next[:3] + " " + next[3:]))
	if !s.me(session).Account.SecondFactor {
		t.Error("it is not said that there is a second factor")
	}
	want(t, "removed", s.send(request{method: "DELETE", path: "/api/v1/me/second-factor", session: session}), 204, "")
	s.sessionOf(enter(""))
}

// TestGuessingStopsNobodyElse tries passwords until it is slowed down. Whoever
// is signed in, and whoever signs in to another account, notices nothing.
func TestGuessingStopsNobodyElse(t *testing.T) {
	t.Parallel()
	s := start(t)
	s.known("mara@example.org")
	s.known("jonas@example.org")
	session := s.enter("mara@example.org", goodPassword)
	wrong := map[string]string{"email": "mara@example.org", "password": "another password"}
	var a answer
	for range 20 {
		if a = s.post("/api/v1/sessions", "", wrong); a.status == http.StatusTooManyRequests {
			break
		}
	}
	want(t, "the last guess", a, 429, "too-many")
	if a.header.Get("Retry-After") == "" {
		t.Error("it is not said when to try again")
	}
	s.me(session)
	s.enter("jonas@example.org", goodPassword)
}

func TestInvitationMakesAnAccount(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed)
	everyone := castAt(s, contest, s.imports(bundleOf(t, "108"), db.Closed))
	invitations := "/api/v1/contests/" + contest.String() + "/invitations"
	invite := func(fields map[string]string) (made api.InvitationMade, a answer) {
		a = s.post(invitations, everyone.sessions["director"], fields)
		_ = json.Unmarshal([]byte(a.body), &made) // whoever asks looks at the answer
		return made, a
	}
	_, a := invite(map[string]string{"role": "pilot"})
	want(t, "a pilot without one", a, 422, "invalid", "/pilot")
	_, a = invite(map[string]string{"role": "judge"})
	want(t, "a judge without one", a, 422, "invalid", "/judge")
	_, a = invite(map[string]string{"role": "assistant"})
	want(t, "a device's role", a, 400, "malformed", "/role")
	made, a := invite(map[string]string{"role": "office", "note": "for Mara"})
	want(t, "the office", a, 201, "")

	a = s.post("/api/v1/invitations/offer", "", map[string]string{"link": made.Link})
	if a.status != http.StatusOK || !strings.Contains(a.body, contest.String()) || !strings.Contains(a.body, `"role":"office"`) {
		t.Errorf("the offer is %d %s", a.status, a.body)
	}
	accept := func(link, email, password string) answer {
		return s.post("/api/v1/invitations/acceptance", "", map[string]any{
			"link": link, "account": map[string]string{"email": email, "name": "Mara Quist", "password": password},
		})
	}
	s.known("jonas@example.org")
	want(t, "nobody", s.post("/api/v1/invitations/acceptance", "", map[string]string{"link": made.Link}), 422, "invalid", "/account")
	want(t, "a short password", accept(made.Link, "mara@example.org", "short"), 422, "invalid", "/account/password")
	want(t, "somebody's address", accept(made.Link, "jonas@example.org", goodPassword), 422, "invalid", "/account/email")
	want(t, "no address", accept(made.Link, "mara", goodPassword), 400, "malformed", "/account/email")
	session := s.sessionOf(accept(made.Link, "mara@example.org", goodPassword))
	if me := s.me(session); len(me.Roles) != 1 || me.Roles[0].Contest.ID != contest || me.Roles[0].Role != "office" {
		t.Errorf("%+v", me)
	}
	want(t, "a second time", accept(made.Link, "another@example.org", goodPassword), 404, "link")
	want(t, "the contest", s.send(request{path: "/api/v1/contests/" + contest.String(), session: session}), 200, "")

	made, _ = invite(map[string]string{"role": "jury"})
	a = s.send(request{method: "DELETE", path: invitations + "/" + made.Invitation.ID.String(), session: everyone.sessions["stranger"]})
	want(t, "withdrawn by a stranger", a, 404, "not-found")
	a = s.send(request{method: "DELETE", path: invitations + "/" + made.Invitation.ID.String(), session: everyone.sessions["director"]})
	want(t, "withdrawn", a, 204, "")
	want(t, "and accepted", accept(made.Link, "another@example.org", goodPassword), 404, "link")
}

func TestInvitationOfSomebodyWhoIsHereAlready(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed)
	mara := s.known("mara@example.org")
	session := s.enter("mara@example.org", goodPassword)
	for _, answered := range []int{http.StatusCreated, http.StatusConflict} {
		link := identity.NewSecret()
		if _, err := s.db.Invite(t.Context(), contest, db.NewInvitation{Hash: identity.HashSecret(link), Role: db.RoleDirector, Lasts: time.Hour}); err != nil {
			t.Fatal(err)
		}
		a := s.post("/api/v1/invitations/acceptance", session, map[string]string{"link": link})
		if len(s.me(session).Roles) != 1 || a.status != answered || a.header.Get("Set-Cookie") != "" {
			t.Errorf("%d %s", a.status, a.body)
		}
	}
	members := "/api/v1/contests/" + contest.String() + "/members"
	if a := s.send(request{path: members, session: session}); strings.Count(a.body, mara.ID.String()) != 1 {
		t.Errorf("%d %s", a.status, a.body)
	}
	gone := request{method: "DELETE", path: members + "/" + mara.ID.String() + "/director", session: session}
	want(t, "the own role, given up", s.send(gone), 204, "")
	want(t, "and again", s.send(gone), 403, "refused")
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
