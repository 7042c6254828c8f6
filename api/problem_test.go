package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"halfpoint/api"
)

const json1 = "application/json"

// TestProblems asks for each kind of problem that a request can bring about.
// That the database is away is tested in away_test.go.
func TestProblems(t *testing.T) {
	t.Parallel()
	s := start(t)
	bundles := "/api/v1/bundles"
	for name, c := range map[string]struct {
		request  request
		status   int
		kind     string
		complain []string // pointers
	}{
		"no such path":       {request{path: "/api/v1/nothing"}, 404, "not-found", nil},
		"no such page":       {request{path: "/nothing"}, 404, "not-found", nil},
		"wrong method":       {request{method: "DELETE", path: "/api/v1/contests"}, 405, "method", nil},
		"not a UUID":         {request{path: "/api/v1/contests/7"}, 400, "malformed", []string{"contest"}},
		"two bad parameters": {request{path: "/api/v1/contests?limit=0&after=x"}, 400, "malformed", []string{"after", "limit"}},
		"not a number":       {request{path: "/api/v1/contests?limit=many"}, 400, "malformed", []string{"limit"}},
		"unknown token":      {request{path: "/api/v1/contests", token: "guessed"}, 401, "unknown-token", nil},
		"nobody":             {request{method: "POST", path: bundles, body: "{}", contentType: json1}, 401, "sign-in", nil},
		"other host":         {request{path: "/api/v1/contests", header: map[string]string{"Host": "evil.example"}}, 421, "other-host", nil},
		"foreign page": {request{
			method: "POST", path: bundles, token: token, body: "{}", contentType: json1,
			header: map[string]string{"Origin": "https://evil.example"},
		}, 403, "foreign-origin", nil},
		"no content type": {request{method: "POST", path: bundles, token: token, body: "{}"}, 415, "content-type", nil},
		"form":            {request{method: "POST", path: bundles, token: token, body: "a=b", contentType: "application/x-www-form-urlencoded"}, 415, "content-type", nil},
		"not JSON":        {request{method: "POST", path: bundles, token: token, body: `{"format":`, contentType: json1}, 400, "malformed", []string{"/format"}},
		"two values":      {request{method: "POST", path: bundles, token: token, body: `{} {}`, contentType: json1}, 400, "malformed", []string{""}},
		"bad opening":     {request{method: "POST", path: bundles + "?opened=wide", token: token, body: "{}", contentType: json1}, 400, "malformed", []string{"opened"}},
		"bad bundle": {
			request{
				method: "POST", path: bundles, token: token, contentType: json1,
				body: `{"format": "halfpoint-bundle/1", "contest": {"name": 7}, "judges": [{"id": "a"}, {"id": "a"}], "pilots": [], "categories": [], "more": 1}`,
			},
			422, "invalid",
			[]string{"/more", "/contest/name", "/judges/1/id"},
		},
		"body of a GET": {request{method: "GET", path: "/api/v1/contests", body: "x"}, 400, "malformed", []string{""}},
	} {
		t.Run(name, func(t *testing.T) {
			a := s.send(c.request)
			p := problemOf(t, a)
			if a.status != c.status || p.Status != c.status || !strings.HasSuffix(p.Type, "#"+c.kind) {
				t.Errorf("%d, %d and %s; want %d and %s: %s", a.status, p.Status, p.Type, c.status, c.kind, a.body)
			}
			if got := pointers(&p); strings.Join(got, " ") != strings.Join(c.complain, " ") {
				t.Errorf("complaints about %q, want %q: %s", got, c.complain, a.body)
			}
		})
	}
}

func problemOf(t *testing.T, a answer) (p api.Problem) {
	t.Helper()
	if got := a.header.Get("Content-Type"); got != "application/problem+json" {
		t.Errorf("the type of a problem is %q: %s", got, a.body)
	}
	if err := json.Unmarshal([]byte(a.body), &p); err != nil {
		t.Fatal(err)
	}
	return p
}

func pointers(p *api.Problem) []string {
	if p.Errors == nil {
		return nil
	}
	list := make([]string, len(*p.Errors))
	for i, c := range *p.Errors {
		list[i] = c.Pointer
	}
	return list
}

func TestBodiesAreBounded(t *testing.T) {
	t.Parallel()
	s := start(t)
	// 64 MiB and a bit of white space around an empty object.
	a := s.send(request{
		method: "POST", path: "/api/v1/bundles", token: token, contentType: json1,
		body: "{}" + strings.Repeat(" ", 64<<20),
	})
	if p := problemOf(t, a); a.status != http.StatusRequestEntityTooLarge || !strings.HasSuffix(p.Type, "#too-large") {
		t.Errorf("%d %s", a.status, a.body)
	}
}

func TestWrongTokensSlowTheAddress(t *testing.T) {
	t.Parallel()
	s := start(t)
	for range 1000 {
		a := s.send(request{path: "/healthz", token: "guessed"})
		if a.status == http.StatusTooManyRequests {
			problemOf(t, a)
			if a.header.Get("Retry-After") == "" {
				t.Error("it is not said when to try again")
			}
			return
		}
	}
	t.Error("a thousand guesses were answered")
}

// TestLargeChecksCostMore: what takes long to answer is asked less often.
func TestLargeChecksCostMore(t *testing.T) {
	t.Parallel()
	s := start(t)
	large := `{"items": []` + strings.Repeat(" ", 1<<19) + `}`
	for range 100 {
		a := s.send(request{method: "POST", path: "/api/v1/sequence-checks", body: large, contentType: json1})
		if a.status == http.StatusTooManyRequests {
			return
		}
	}
	t.Error("a hundred large sequences were checked")
}

func TestHeaders(t *testing.T) {
	t.Parallel()
	s := start(t)
	for _, path := range []string{"/healthz", "/api/v1/docs", "/api/v1/nothing", "/metrics"} {
		header := s.send(request{path: path}).header
		if policy := header.Get("Content-Security-Policy"); !strings.Contains(policy, "default-src 'self'") || strings.Contains(policy, "unsafe") {
			t.Errorf("%s: the policy is %q", path, policy)
		}
		if header.Get("X-Content-Type-Options") != "nosniff" || header.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s: headers %v", path, header)
		}
	}
	if a := s.send(request{path: "/healthz", header: map[string]string{"Host": "contest.example.org:8443"}}); a.status != http.StatusOK {
		t.Errorf("the configured host name is answered %d", a.status)
	}
}

func TestMetricsTell(t *testing.T) {
	t.Parallel()
	s := start(t)
	s.send(request{path: "/api/v1/contests"})
	s.send(request{path: "/api/v1/contests/7"})
	told := s.send(request{path: "/metrics"}).body
	for _, line := range []string{
		`halfpoint_requests_total{operation="listContests",status="200"} 1`,
		`halfpoint_requests_total{operation="getContest",status="400"} 1`,
		"halfpoint_event_streams 0",
		"halfpoint_database_connections",
		"halfpoint_program{version=",
	} {
		if !strings.Contains(told, line) {
			t.Errorf("the metrics lack %s", line)
		}
	}
}
