package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/identity"
)

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
