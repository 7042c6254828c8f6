package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"halfpoint/api"
	"halfpoint/db"
)

// TestLimitsOfACategory sets limits, reads them back as they were written, and
// holds sequences against them.
func TestLimitsOfACategory(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	path := "/api/v1/categories/" + at.category.String() + "/limits"
	if none := get[api.CategoryLimits](s, path); none.Limits != nil || none.Note != "" || none.Category.Name != "Category" {
		t.Errorf("before any are set: %+v", none)
	}
	const limits = `{"max_k":20,"repeat_allowed":["9.1."]}`
	a := s.send(request{method: http.MethodPut, path: path, token: token, contentType: json1, body: `{"limits": ` + limits + `, "note": "of the club"}`})
	var set api.CategoryLimits
	if err := json.Unmarshal([]byte(a.body), &set); err != nil || a.status != http.StatusOK || set.Limits == nil || string(*set.Limits) != limits || set.Note != "of the club" {
		t.Errorf("%d %s", a.status, a.body)
	}
	registered := s.put(at.flight, sheet("", loop, halfCuban))
	if f := registered.Checked.Findings; len(f) != 1 || f[0].Rule != "max_k" || string(*registered.Limits) != limits {
		t.Errorf("found %v", f)
	}
	a = s.send(request{method: http.MethodPut, path: path, token: token, contentType: json1, body: `{"limits": null}`})
	if strings.Contains(a.body, `"limits":`) || a.status != http.StatusOK {
		t.Errorf("taken away: %d %s", a.status, a.body)
	}
}

func TestWrongLimitsAreNamed(t *testing.T) {
	t.Parallel()
	s := start(t)
	path := "/api/v1/categories/" + s.plain(db.Live).category.String() + "/limits"
	for body, want := range map[string]string{
		`[]`:                                           "",
		`{"limits": 3}`:                                "/limits",
		`{"limits": {"max_k": -1, "max": 1}}`:          "/limits/max /limits/max_k",
		`{"limits": {"require": [{"any": []}]}}`:       "/limits/require/0/any",
		`{"limits": {"forbid": ["x"]}}`:                "/limits/forbid/0",
		`{"note": 1, "more": 2}`:                       "/more /note",
		`{"note": "a\u0000b"}`:                         "/note",
		`{"note": "` + strings.Repeat("ä", 501) + `"}`: "/note",
	} {
		a := s.send(request{method: http.MethodPut, path: path, token: token, contentType: json1, body: body})
		if p := problemOf(t, a); a.status != http.StatusUnprocessableEntity || strings.Join(pointers(&p), " ") != want {
			t.Errorf("%s: %d %s", body, a.status, a.body)
		}
	}
}

// numbers is a request with a table.
func numbers(at places, table string) request {
	return request{method: http.MethodPut, path: "/api/v1/contests/" + at.contest.String() + "/numbers", token: token, contentType: "text/csv", body: table}
}

// TestTableFillsInAndChecks sets a table, after which K is filled in where it
// is missing and held against the table where it is not.
func TestTableFillsInAndChecks(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	const table = "number,k\r\n7.41.1.2,10\r\n8.31.2.1,9\r\n9.1.62.2,4.5\r\n"
	if a := s.send(numbers(at, table)); a.status != http.StatusOK || !strings.Contains(a.body, `"numbers":3`) {
		t.Fatalf("%d %s", a.status, a.body)
	}
	path := "/api/v1/contests/" + at.contest.String() + "/numbers"
	if a := s.send(request{path: path, token: token}); a.body != table || a.header.Get("Content-Type") != "text/csv" {
		t.Errorf("read back: %q as %s", a.body, a.header.Get("Content-Type"))
	}
	withoutK := strings.Replace(halfCuban, `"k": 13, `, "", 1)
	r := s.put(at.flight, sheet("", loop, withoutK))
	if k := r.Items[1].K.String(); k != "13.5" || r.Checked.TotalK != 23.5 || !r.Checked.Clean {
		t.Errorf("K is %s, all %v: %+v", k, r.Checked.TotalK, r.Checked.Findings)
	}
	r = s.put(at.flight, sheet(r.Digest, loop, halfCuban))
	if f := r.Checked.Findings; len(f) != 1 || f[0].Rule != "sum_of_k" || f[0].Level != "error" {
		t.Errorf("found %v", f)
	}
	checked := s.check(`{"items": [` + withoutK + `], "contest": "` + at.contest.String() + `"}`)
	if checked.TotalK != 13.5 {
		t.Errorf("checked: K %v", checked.TotalK)
	}
	if a := s.send(numbers(at, "number,k\n")); !strings.Contains(a.body, `"numbers":0`) {
		t.Errorf("taken away: %d %s", a.status, a.body)
	}
	if a := s.send(request{path: path, token: token}); a.body != "number,k\n" {
		t.Errorf("read back when it is gone: %q", a.body)
	}
	if r = get[api.RegisteredSequence](s, at.flight+"/sequence"); len(r.Checked.Findings) != 0 {
		t.Errorf("without a table: found %v", r.Checked.Findings)
	}
}

func TestWrongTablesAreNamed(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	for table, want := range map[string]string{
		"5.2.1.1,17\n5.2.1,3\n5.2.1.2,0\n": "row 2, column 1|row 3, column 2",
		"5.2.1.1|17\n":                     "row 1, column 2",
		"5.2.1.1,1\n\n5.2.1.2,\xe4\n":      "row 3, column 2",
		"5.2.1.1,\"1\n":                    "row 1, column 2",
	} {
		a := s.send(numbers(at, table))
		p := problemOf(t, a)
		if a.status != http.StatusUnprocessableEntity || strings.Join(pointers(&p), "|") != want {
			t.Errorf("%q: %d %s", table, a.status, a.body)
			continue
		}
		for _, c := range *p.Errors {
			if !strings.HasPrefix(c.Message, c.Pointer+": ") {
				t.Errorf("%q: %q does not say where", table, c.Message)
			}
		}
	}
	large := numbers(at, "number,k\n"+strings.Repeat("5.2.1.1,17\n", (2<<20)/11))
	if a := s.send(large); a.status != http.StatusRequestEntityTooLarge {
		t.Errorf("a table of more than 2 MiB: %d", a.status)
	}
	latin := numbers(at, "5.2.1.1,17\n")
	latin.contentType = "text/csv; charset=iso-8859-1"
	if a := s.send(latin); a.status != http.StatusUnsupportedMediaType {
		t.Errorf("a table in Latin 1: %d", a.status)
	}
}

// check asks about a sequence as anyone.
func (s *service) check(body string) api.CheckedSequence {
	s.t.Helper()
	return decoded[api.CheckedSequence](s, request{method: http.MethodPost, path: "/api/v1/sequence-checks", contentType: json1, body: body})
}
