package api_test

import (
	"encoding/json"
	"net/http"
	"slices"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
)

// keyed sends a reading of a paper sheet and gives what is answered.
func (s *service) keyed(path, session string, grades ...string) (sheet api.PaperSheet) {
	s.t.Helper()
	a := s.sendValue(http.MethodPut, path, session, readingOf(grades...))
	if a.status != http.StatusOK {
		s.t.Fatalf("%d %s", a.status, a.body)
	}
	if err := json.Unmarshal([]byte(a.body), &sheet); err != nil {
		s.t.Fatal(err)
	}
	return sheet
}

func readingOf(grades ...string) api.PaperReading {
	r := api.PaperReading{ID: uuid.New(), Signed: true}
	for _, g := range grades {
		r.Entries = append(r.Entries, api.PaperEntry{Grade: g})
	}
	return r
}

// TestPaperIsKeyedTwice: two people key, differ in one item, and settle it.
func TestPaperIsKeyedTwice(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Closed)
	everyone := castAt(s, at.contest, s.plain(db.Closed).contest)
	office, director := everyone.sessions["office"], everyone.sessions["director"]
	s.put(at.flight, sheet("", loop, halfCuban))
	path := at.flight + "/paper/" + at.judge.String()

	first := s.keyed(path, office, "7.5", "HZ")
	if first.Readings != 1 || !first.Own || len(first.Differences) > 0 || first.Entered {
		t.Errorf("after the first reading: %+v", first)
	}
	second := s.keyed(path, director, "7.0", "HZ")
	want := []api.PaperDifference{{Item: 1, First: "7.5", Last: "7.0"}}
	if second.Readings != 2 || !slices.Equal(second.Differences, want) || !slices.Equal(second.Read, []string{"", "HZ"}) {
		t.Errorf("after the second one: %+v", second)
	}
	if seats := get[api.PaperList](s, at.flight+"/paper").Seats; seats[0].Readings != 2 || seats[1].Readings != 0 {
		t.Errorf("the seats: %+v", seats)
	}
	third := s.keyed(path, office, "7.5", "HZ")
	if !third.Entered || !slices.Equal(third.Grades, []string{"7.5", "HZ"}) || third.State != "signed" || third.Shut == nil {
		t.Errorf("after the third one: %+v", third)
	}
	refused := s.sendValue(http.MethodPut, path, office, readingOf("7.5", "HZ"))
	if p := problemOf(t, refused); refused.status != http.StatusConflict || p.Detail == nil || *p.Detail != *third.Shut {
		t.Errorf("keying what is signed: %d %s", refused.status, refused.body)
	}
}

// TestPaperIsWrong: what no paper says is complained about at its place.
func TestPaperIsWrong(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Closed)
	everyone := castAt(s, at.contest, s.plain(db.Closed).contest)
	s.put(at.flight, sheet("", loop, halfCuban))
	a := s.sendValue(http.MethodPut, at.flight+"/paper/"+at.judge.String(), everyone.sessions["office"], readingOf("7.3", ""))
	want := []string{"/entries/0/grade", "/entries/1/grade"}
	if got := complainedOf(t, a); a.status != http.StatusUnprocessableEntity || !slices.Equal(got, want) {
		t.Errorf("%d %v, want %v", a.status, got, want)
	}
}
