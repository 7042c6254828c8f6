package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/season"
)

// northern is a season of the standings of categories, all in one class.
func northern(categories ...uuid.UUID) db.SeasonChange {
	change := db.SeasonChange{Name: "Northern League", Revision: 1, Rules: season.Rules{
		Points: season.ByPercentOfMaximum, Table: []float64{}, Ties: season.ShareMean, TieBreak: []string{}, Affiliations: []string{},
	}}
	for _, c := range categories {
		change.Parts = append(change.Parts, db.SeasonSource{Category: c, Class: "Sportsman"})
	}
	return change
}

// TestSeason: the same people fly two contests. They are one person each when an
// office of both says so, and not before.
func TestSeason(t *testing.T) {
	t.Parallel()
	s := start(t)
	var contests, categories []uuid.UUID
	for range 2 {
		contest := s.imports(bundleOf(t, "108"), db.Published)
		part, err := s.db.ContestBundle(t.Context(), contest)
		if err != nil {
			t.Fatal(err)
		}
		programme := part.Bundle.Categories[0].Programmes[0]
		s.publishes(part.Categories[0].Programmes[0].ID, part.Pilots[programme.Flights[0].Pilot])
		contests, categories = append(contests, contest), append(categories, part.Categories[0].ID)
	}
	one, whole := s.account("one", false), s.account("whole", false) // the first directs one of the two alone
	s.give(contests[0], one, db.RoleDirector, uuid.Nil)
	for _, contest := range contests {
		s.give(contest, whole, db.RoleDirector, uuid.Nil)
	}
	id, err := s.db.MakeSeason(t.Context(), "Northern League", whole.String())
	if err != nil {
		t.Fatal(err)
	}
	path := "/api/v1/seasons/" + id.String()
	change, err := json.Marshal(api.SeasonChange{
		Name: "Northern League", Revision: 1, Parts: []api.SeasonSource{{Category: categories[0], Class: "Sportsman"}, {Category: categories[1], Class: "Sportsman"}},
		Rules: api.SeasonRules{Points: "rank", Table: []float64{10, 8}, Ties: "mean", TieBreak: []api.SeasonRulesTieBreak{}, Affiliations: []string{}},
	})
	if err != nil {
		t.Fatal(err)
	}
	put := func(session, to, body string) answer {
		t.Helper()
		return s.send(request{method: http.MethodPut, path: to, body: body, contentType: "application/json", session: session})
	}
	if a := put(s.signIn(one), path, string(change)); a.status != http.StatusNotFound {
		t.Errorf("whoever directs one of the contests: %d %s", a.status, a.body)
	}
	director := s.signIn(whole)
	if a := put(director, path, string(change)); a.status != http.StatusOK {
		t.Fatalf("changing a season: %d %s", a.status, a.body)
	}

	apart := get[api.Season](s, path).Standings[0].Rows
	people := get[api.SeasonPeople](s, path+"/people")
	if len(people.Proposals)*2 != len(people.Pilots) || len(people.Proposals) == 0 {
		t.Fatalf("%d proposals for %d pilots", len(people.Proposals), len(people.Pilots))
	}
	who := api.SeasonWho{Revision: people.Revision}
	for _, p := range people.Proposals {
		for _, pilot := range p.Pilots {
			who.People = append(who.People, api.SeasonIs{Contest: pilot.Contest.ID, Pilot: pilot.Pilot, Person: p.Person})
		}
	}
	text, err := json.Marshal(who)
	if err != nil {
		t.Fatal(err)
	}
	if a := put(director, path+"/people", string(text)); a.status != http.StatusOK {
		t.Fatalf("saying who is who: %d %s", a.status, a.body)
	}
	if a := put(director, path+"/people", string(text)); a.status != http.StatusConflict {
		t.Errorf("saying it of what is no longer so: %d %s", a.status, a.body)
	}
	together := get[api.Season](s, path).Standings[0].Rows
	if len(together)*2 != len(apart) || together[0].Total != 20 || len(together[0].Results) != 2 || !together[0].Results[0].Provisional {
		t.Errorf("%d rows, %d before; the first is %+v", len(together), len(apart), together[0])
	}

	if a := s.send(request{path: path}); a.status != http.StatusOK {
		t.Errorf("anyone, of contests that are opened: %d", a.status)
	}
	if err := s.db.SetOpened(t.Context(), contests[1], db.Closed, ""); err != nil {
		t.Fatal(err)
	}
	if a := s.send(request{path: path}); a.status != http.StatusNotFound {
		t.Errorf("anyone, with one contest closed: %d", a.status)
	}
}

// TestADeletedSeason is gone with who is who in it; its contest and what that
// published stay. Whoever does not direct the contest does not find it.
func TestADeletedSeason(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Published)
	part, err := s.db.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	programme := part.Bundle.Categories[0].Programmes[0]
	s.publishes(part.Categories[0].Programmes[0].ID, part.Pilots[programme.Flights[0].Pilot])
	id, err := s.db.MakeSeason(t.Context(), "Northern League", "")
	if err == nil {
		err = s.db.ChangeSeason(t.Context(), id, northern(part.Categories[0].ID))
	}
	if err == nil {
		err = s.db.SetSeasonPeople(t.Context(), id, []db.SeasonPerson{{Contest: contest, Pilot: part.Bundle.Pilots[0].ID, Person: uuid.New()}}, 2)
	}
	if err != nil {
		t.Fatal(err)
	}
	before := s.send(request{path: "/api/v1/contests/" + contest.String() + "/publications"})
	director, other := s.account("whole", false), s.account("other", false)
	s.give(contest, director, db.RoleDirector, uuid.Nil)
	s.give(s.imports(bundleOf(t, "108"), db.Closed), other, db.RoleDirector, uuid.Nil)
	path := "/api/v1/seasons/" + id.String()
	for _, c := range []struct {
		who, query string
		want       int
	}{
		{s.signIn(other), "?revision=3", http.StatusNotFound},
		{s.signIn(director), "?revision=2", http.StatusConflict},
		{s.signIn(director), "", http.StatusBadRequest},
		{s.signIn(director), "?revision=3", http.StatusNoContent},
		{s.signIn(director), "?revision=3", http.StatusNotFound},
	} {
		if a := s.send(request{method: http.MethodDelete, path: path + c.query, session: c.who}); a.status != c.want {
			t.Errorf("deleting it by %q: %d %s, want %d", c.query, a.status, a.body, c.want)
		}
	}
	if list := get[api.SeasonList](s, "/api/v1/seasons"); len(list.Seasons) != 0 {
		t.Errorf("it is still listed: %+v", list.Seasons)
	}
	if after := s.send(request{path: "/api/v1/contests/" + contest.String() + "/publications"}); after.body != before.body || before.status != http.StatusOK {
		t.Errorf("publications %d %s, before %s", after.status, after.body, before.body)
	}
}

// TestTwoOfOneContestAreTwo: pilots of one contest cannot be one person.
func TestTwoOfOneContestAreTwo(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Published)
	part, err := s.db.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	id, err := s.db.MakeSeason(t.Context(), "Northern League", "")
	if err == nil {
		err = s.db.ChangeSeason(t.Context(), id, northern(part.Categories[0].ID))
	}
	if err != nil {
		t.Fatal(err)
	}
	one := `{"contest": %q, "pilot": %q, "person": "0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7"}`
	pilots := part.Bundle.Pilots
	body := `{"revision": 2, "people": [` + fmt.Sprintf(one, contest, pilots[0].ID) + "," + fmt.Sprintf(one, contest, pilots[1].ID) + "]}"
	a := s.send(request{method: http.MethodPut, path: "/api/v1/seasons/" + id.String() + "/people", body: body, contentType: "application/json", token: token})
	if a.status != http.StatusConflict {
		t.Errorf("%d %s", a.status, a.body)
	}
}
