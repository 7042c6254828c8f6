package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/identity"
)

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
