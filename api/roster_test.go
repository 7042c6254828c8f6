package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"

	"halfpoint/api"
	"halfpoint/db"
)

// table sends a table of pilots or officials as the office.
func (s *service) table(contest, list, text string) answer {
	s.t.Helper()
	return s.send(request{
		method: http.MethodPost, path: "/api/v1/contests/" + contest + "/" + list, token: token, body: text, contentType: "text/csv",
	})
}

// changeBy is what a table comes to.
func changeBy(t *testing.T, a answer) (read api.SetupTable) {
	t.Helper()
	if a.status != http.StatusOK {
		t.Fatalf("%d %s", a.status, a.body)
	}
	if err := json.Unmarshal([]byte(a.body), &read); err != nil {
		t.Fatal(err)
	}
	return read
}

func TestPilotsComeByATable(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed).String()
	seen := get[api.Setup](s, "/api/v1/contests/"+contest+"/setup")
	known, category := seen.Pilots[0], seen.Categories[0]

	text := fmt.Sprintf("\ufeffName;Affiliation;Category;Ranked;Team\r\n%s;Other club;%s;no;Reds\r\nAnn Ash-Müller;'=Club;%s;;\r\n;;;;\r\n",
		known.Name, strings.ToUpper(category.Code), category.Name)
	read := changeBy(t, s.table(contest, "pilots", text))
	if read.Rows != 2 || len(read.Pilots) != 2 || len(read.Entries) != 2 {
		t.Fatalf("%+v", read)
	}
	if p := read.Pilots[0]; p.ID != known.ID || p.Revision != known.Revision || p.Affiliation != "Other club" || p.Aircraft != known.Aircraft {
		t.Errorf("%+v, was %+v", p, known)
	}
	if p := read.Pilots[1]; p.Revision != 0 || p.Code != "ann-ash-müller" || p.Affiliation != "=Club" {
		t.Errorf("%+v", p)
	}
	if after := get[api.Setup](s, "/api/v1/contests/"+contest+"/setup"); after.Head.Version != seen.Head.Version {
		t.Error("reading a table changed the contest")
	}
	if a := s.patch(contest, map[string]any{"pilots": read.Pilots, "entries": read.Entries}); a.status != http.StatusOK {
		t.Fatalf("%d %s", a.status, a.body)
	}

	written := s.send(request{path: "/api/v1/contests/" + contest + "/pilots", token: token})
	if !strings.Contains(written.body, "ann-ash-müller,Ann Ash-Müller,'=Club,,,"+category.Code+",yes,\n") {
		t.Errorf("%s", written.body)
	}
	if got := written.header.Get("Content-Disposition"); got != `attachment; filename="pilots.csv"` {
		t.Error(got)
	}
	again := changeBy(t, s.table(contest, "pilots", written.body))
	if len(again.Pilots)+len(again.Entries) > 0 {
		t.Errorf("what was written is read as a change: %+v", again)
	}
}

func TestTenWrongRowsAreTenComplaints(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed).String()
	seen := get[api.Setup](s, "/api/v1/contests/"+contest+"/setup")
	code := seen.Categories[0].Code
	a := s.table(contest, "pilots", strings.Join([]string{
		"code,name,aircraft,category,ranked,team",
		"good,Good Row,Swift," + code + ",yes,",
		"x1,,,,,",
		"x2,Two,,nowhere,,",
		"x3,Three,," + code + ",perhaps,",
		"x4,Four,,,,Reds",
		"x5,Five,,,no,",
		"good,Good Row,Other," + code + "2,,",
		"x6,Six," + strings.Repeat("a", 201) + ",,,",
		"x7,Seven \"the\" Ace,,,,",
		"good,Good Row,," + code + ",,",
		"x8,Eight,,,,,beyond",
	}, "\n"))
	want := []string{
		"row 3, column 2", "row 4, column 4", "row 5, column 5", "row 6, column 6", "row 7, column 5", "row 8, column 3", "row 8, column 4",
		"row 9, column 3", "row 10, column 2", "row 11, column 4", "row 12, column 7",
	}
	if got := complainedOf(t, a); a.status != http.StatusUnprocessableEntity || !slices.Equal(got, want) {
		t.Errorf("%d %v\n%s", a.status, got, a.body)
	}
}

func TestOfficialsComeByATable(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed).String()
	read := changeBy(t, s.table(contest, "officials", "name,duty,affiliation\nKim Oak,,Hill\nKim Oak Jr,Chief,\n"))
	if len(read.Officials) != 2 || read.Officials[0].Duty != api.SetupOfficialDutyJudge || read.Officials[1].Duty != api.SetupOfficialDutyChief {
		t.Errorf("%+v", read)
	}
	if a := s.patch(contest, map[string]any{"officials": read.Officials}); a.status != http.StatusOK {
		t.Fatalf("%d %s", a.status, a.body)
	}
	written := s.send(request{path: "/api/v1/contests/" + contest + "/officials", token: token}).body
	if !strings.Contains(written, "kim-oak,Kim Oak,judge,Hill\n") {
		t.Error(written)
	}
	a := s.table(contest, "officials", "name,duty\nKim Oak,boss\nKim Oak,judge\n")
	if got := complainedOf(t, a); !slices.Equal(got, []string{"row 2, column 2", "row 3, column 1"}) {
		t.Errorf("%v", got)
	}
	if a := s.table(contest, "officials", ""); a.status != http.StatusUnprocessableEntity {
		t.Errorf("nothing at all: %d %s", a.status, a.body)
	}
}

func TestATableOfTooManyRowsIsRefused(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed).String()
	a := s.table(contest, "pilots", "name\n"+strings.Repeat("Ann\n", 2001))
	if a.status != http.StatusUnprocessableEntity || !strings.Contains(a.body, "2001 rows are more than the 2000") {
		t.Errorf("%d %.200s", a.status, a.body)
	}
}

func TestAContestIsCopied(t *testing.T) {
	t.Parallel()
	s := start(t)
	from := s.imports(bundleOf(t, "108"), db.Live).String()
	a := s.send(request{
		method: http.MethodPost, path: "/api/v1/contests/" + from + "/copies", token: token, contentType: "application/json",
		body: `{"name": " Next Year ", "place": "Tarn", "starts": "2027-06-12", "pilots": true, "officials": false}`,
	})
	if a.status != http.StatusCreated {
		t.Fatalf("%d %s", a.status, a.body)
	}
	made := get[api.Contest](s, a.header.Get("Location"))
	if made.Name != "Next Year" || made.Opened != api.Closed || made.Categories[0].Pilots == 0 || made.Categories[0].Programmes[0].Seats != 0 {
		t.Errorf("%+v", made)
	}
}
