package api_test

import (
	"encoding/json"
	"net/http"
	"slices"
	"testing"

	"halfpoint/api"
	"halfpoint/db"
)

// patch changes the set-up of a contest as the office.
func (s *service) patch(contest string, change any) answer {
	s.t.Helper()
	body, err := json.Marshal(change)
	if err != nil {
		s.t.Fatal(err)
	}
	return s.send(request{
		method: http.MethodPatch, path: "/api/v1/contests/" + contest + "/setup", token: token,
		body: string(body), contentType: "application/json",
	})
}

// complainedOf lists what a problem points at.
func complainedOf(t *testing.T, a answer) []string {
	t.Helper()
	p := problemOf(t, a)
	return pointers(&p)
}

// TestSetupIsReadAndWrittenAlike sends everything back as it was read, and then
// with changes of each list.
func TestSetupIsReadAndWrittenAlike(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed).String()
	at := "/api/v1/contests/" + contest + "/setup"
	seen := get[api.Setup](s, at)

	change := map[string]any{
		"contest": seen.Contest, "penalties": seen.Penalties, "officials": seen.Officials, "pilots": seen.Pilots,
		"categories": seen.Categories, "entries": seen.Entries, "programmes": seen.Programmes,
	}
	if a := s.patch(contest, change); a.status != http.StatusOK {
		t.Fatalf("sent back as it was: %d %s", a.status, a.body)
	}
	if again := get[api.Setup](s, at); again.Head.Version != seen.Head.Version {
		t.Error("what was sent back as it was changed the contest")
	}

	pilot, programme := seen.Pilots[1], seen.Programmes[0]
	pilot.Aircraft, programme.Cut = "Swift", 3
	if a := s.patch(contest, map[string]any{"pilots": []api.SetupPilot{pilot}, "programmes": []api.SetupProgramme{programme}}); a.status != http.StatusOK {
		t.Fatalf("%d %s", a.status, a.body)
	}
	after := get[api.Setup](s, at)
	if after.Pilots[1].Aircraft != "Swift" || after.Pilots[1].Revision != 2 || after.Programmes[0].Cut != 3 {
		t.Errorf("%+v %+v", after.Pilots[1], after.Programmes[0])
	}
	pilot.Name = "Someone Else"
	a := s.patch(contest, map[string]any{"pilots": []api.SetupPilot{pilot}})
	if a.status != http.StatusConflict || !slices.Equal(complainedOf(t, a), []string{"/pilots/0/name"}) {
		t.Errorf("a change of what was not seen: %d %s", a.status, a.body)
	}
}

func TestSetupPointsAtWhatIsWrong(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed).String()
	seen := get[api.Setup](s, "/api/v1/contests/"+contest+"/setup")
	first, second := seen.Pilots[0], seen.Pilots[1]
	first.Code, second.Name = second.Code, " leading space"
	a := s.patch(contest, map[string]any{"pilots": []api.SetupPilot{first, second}})
	if a.status != http.StatusUnprocessableEntity || !slices.Equal(complainedOf(t, a), []string{"/pilots/1/name"}) {
		t.Errorf("%d %s", a.status, a.body)
	}
	if a := s.patch(contest, map[string]any{"pilots": []any{map[string]any{"id": "7"}}}); a.status != http.StatusBadRequest || len(complainedOf(t, a)) < 2 {
		t.Errorf("a row of nothing: %d %s", a.status, a.body)
	}
}
