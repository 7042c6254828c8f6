package api_test

import (
	"cmp"
	"net/http"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
)

// What anyone is answered, by how the contest is opened. It is written out
// here, apart from the table of the service.
type answers struct{ closed, published, live int }

var anyones = map[string]answers{
	"getContest":          {404, 200, 200},
	"getProgramme":        {404, 200, 200},
	"getProgrammeResults": {404, 403, 200},
	"getCategoryResults":  {404, 403, 200},
	"getFlightResult":     {404, 403, 200},
	"getJudgeSheet":       {404, 403, 200},
	"streamEvents":        {404, 403, 200},
	"getSetup":            {403, 403, 403},
	"changeSetup":         {403, 403, 403},
	"exportBundle":        {403, 403, 403},
	"importBundle":        {403, 403, 403},

	"checkSequence":            {422, 422, 422}, // it has no items
	"getLimits":                {404, 200, 200},
	"putLimits":                {403, 403, 403},
	"getNumbers":               {403, 403, 403},
	"putNumbers":               {403, 403, 403},
	"getProgrammeSequence":     {404, 200, 200},
	"putProgrammeSequence":     {403, 403, 403},
	"signOffProgrammeSequence": {403, 403, 403},
	"releaseProgrammeSequence": {403, 403, 403},
	"listSequences":            {403, 403, 403},
	"getFlightSequence":        {404, 200, 200},
	"putFlightSequence":        {403, 403, 403},
	"signOffFlightSequence":    {403, 403, 403},
	"listContests":             {200, 200, 200},
	"getHealth":                {200, 200, 200},
	"getReadiness":             {200, 200, 200},
}

// What the office is answered where it is not 200: what is sent is not good, or
// does not go with what is there.
var offices = map[string]int{
	"importBundle": 422, "checkSequence": 422, "putProgrammeSequence": 422,
	"signOffProgrammeSequence": 409, "releaseProgrammeSequence": 409, // another sequence is there, and it is a known one
	"putFlightSequence": 409, "signOffFlightSequence": 409, // all fly the programme's
}

// What is sent where it is not an empty object.
var bodies = map[string]string{
	"putNumbers": "number,k\n", "signOffProgrammeSequence": `{"digest": ""}`, "signOffFlightSequence": `{"digest": ""}`,
	"releaseProgrammeSequence": `{"digest": ""}`,
}

// TestWhoMayDoWhat walks every operation of the contract, as anyone and as the
// office, in a contest opened in each way.
func TestWhoMayDoWhat(t *testing.T) {
	t.Parallel()
	s := start(t)
	for opened, want := range map[string]func(answers) int{
		db.Closed:    func(a answers) int { return a.closed },
		db.Published: func(a answers) int { return a.published },
		db.Live:      func(a answers) int { return a.live },
	} {
		paths := s.placesOf(s.imports(bundleOf(t, "108"), opened))
		s.eachOperation(func(id, method, path string) {
			expected, ok := anyones[id]
			if !ok {
				t.Errorf("nobody has said who may do %s", id)
			}
			path = paths.Replace(path)
			if got := s.status(id, method, path, ""); got != want(expected) {
				t.Errorf("%s contest, anyone, %s: %d, want %d", opened, id, got, want(expected))
			}
			officeWant := cmp.Or(offices[id], http.StatusOK)
			if got := s.status(id, method, path, token); got != officeWant {
				t.Errorf("%s contest, office, %s: %d, want %d", opened, id, got, officeWant)
			}
		})
	}
}

// TestNothingElsewhereIsThere asks for what does not exist, as the office.
func TestNothingElsewhereIsThere(t *testing.T) {
	t.Parallel()
	s := start(t)
	nowhere := uuid.NewString()
	paths := strings.NewReplacer("{contest}", nowhere, "{category}", nowhere, "{programme}", nowhere,
		"{flight}", nowhere, "{judge}", nowhere)
	s.eachOperation(func(id, method, path string) {
		if !strings.Contains(path, "{") {
			return
		}
		if got := s.status(id, method, paths.Replace(path), token); got != http.StatusNotFound {
			t.Errorf("%s of nothing: %d, want 404", id, got)
		}
	})
}

func TestListShowsWhatIsOpened(t *testing.T) {
	t.Parallel()
	s := start(t)
	b := bundleOf(t, "108")
	s.imports(b, db.Closed)
	published, live := s.imports(b, db.Published), s.imports(b, db.Live)

	all := get[api.ContestPage](s, "/api/v1/contests")
	if len(all.Contests) != 3 || all.Next != nil {
		t.Errorf("the office is shown %d contests and a next page %v; want 3 and none", len(all.Contests), all.Next)
	}
	first := get[api.ContestPage](s, "/api/v1/contests?limit=1")
	if len(first.Contests) != 1 || first.Contests[0].ID != live || first.Next == nil {
		t.Fatalf("the first page of one is %v", first)
	}
	second := get[api.ContestPage](s, "/api/v1/contests?limit=1&after="+first.Next.String())
	if len(second.Contests) != 1 || second.Contests[0].ID != published {
		t.Errorf("the second page of one is %v", second)
	}
	if a := s.send(request{path: "/api/v1/contests"}); strings.Count(a.body, `"opened":`) != 2 || strings.Contains(a.body, `"closed"`) {
		t.Errorf("anyone is shown %s", a.body)
	}
}

// eachOperation calls f for every operation of the contract as it is served.
func (s *service) eachOperation(f func(id, method, path string)) {
	s.t.Helper()
	spec, err := openapi3.NewLoader().LoadFromData([]byte(s.send(request{path: "/api/v1/openapi.json"}).body))
	if err != nil {
		s.t.Fatal(err)
	}
	for path, item := range spec.Paths.Map() {
		for method, operation := range item.Operations() {
			f(operation.OperationID, method, path)
		}
	}
}

// placesOf replaces the parameters of paths by what is in a contest.
func (s *service) placesOf(contest uuid.UUID) *strings.Replacer {
	s.t.Helper()
	part, err := s.db.ContestBundle(s.t.Context(), contest)
	if err != nil {
		s.t.Fatal(err)
	}
	category := part.Categories[0]
	programme := category.Programmes[0]
	judge := part.Judges[part.Bundle.Categories[0].Programmes[0].Panel[0]]
	return strings.NewReplacer("{contest}", contest.String(), "{category}", category.ID.String(),
		"{programme}", programme.ID.String(), "{flight}", programme.Flights[0].ID.String(), "{judge}", judge.String())
}

// status sends a request, with a body where one is to be sent, and reads no more
// than how it is answered.
func (s *service) status(id, method, path, token string) int {
	s.t.Helper()
	r, err := http.NewRequestWithContext(s.t.Context(), method, s.url+path, http.NoBody)
	if err != nil {
		s.t.Fatal(err)
	}
	if method != http.MethodGet {
		r, err = http.NewRequestWithContext(s.t.Context(), method, s.url+path, strings.NewReader(cmp.Or(bodies[id], "{}")))
		if err != nil {
			s.t.Fatal(err)
		}
		r.Header.Set("Content-Type", "application/json")
		if id == "putNumbers" {
			r.Header.Set("Content-Type", "text/csv; charset=utf-8")
		}
	}
	if token != "" {
		r.Header.Set("Authorization", "Bearer "+token)
	}
	response, err := http.DefaultClient.Do(r)
	if err != nil {
		s.t.Fatal(err)
	}
	response.Body.Close()
	return response.StatusCode
}
