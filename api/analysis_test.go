package api_test

import (
	"net/http"
	"strings"
	"testing"

	"halfpoint/api"
	"halfpoint/db"
)

// A judge sees the own numbers, and those only when results are published; the
// chief judge the panel's, without names of pilots; everyone all of it when the
// director says so.
func TestAnalysisIsPrivate(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Published)
	elsewhere := s.imports(bundleOf(t, "108"), db.Closed)
	everyone := castAt(s, contest, elsewhere)
	part, err := s.db.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	programme, bundled := part.Categories[0].Programmes[0].ID, part.Bundle.Categories[0].Programmes[0]
	whole := "/api/v1/programmes/" + programme.String() + "/analysis"
	own := whole + "/" + part.Judges[bundled.Panel[0]].String()
	list := "/api/v1/contests/" + contest.String() + "/analyses"
	status := func(who, path string, want int) {
		t.Helper()
		if got := s.status(everyone.as(who, request{path: path})); got != want {
			t.Errorf("%s: %s is answered %d, want %d", who, path, got, want)
		}
	}

	for _, who := range []string{"nobody", "judge", "seated", "pilot", "announcer"} {
		status(who, whole, http.StatusNotFound)
	}
	status("judge", own, http.StatusNotFound) // nothing is published
	status("seated", own, http.StatusNotFound)
	status("jury", own, http.StatusOK)
	if a := s.send(everyone.as("seated", request{path: list})); !strings.Contains(a.body, `"waits":true`) || strings.Contains(a.body, `"own"`) {
		t.Errorf("before results are published, a judge is told %s", a.body)
	}
	if a := s.send(everyone.as("director", request{method: http.MethodPost, path: whole})); a.status != http.StatusConflict {
		t.Errorf("an analysis opened before results are published: %d %s", a.status, a.body)
	}

	s.publishes(programme, part.Pilots[bundled.Flights[0].Pilot])
	status("judge", own, http.StatusOK)
	status("seated", own, http.StatusOK)
	status("other", own, http.StatusNotFound)
	status("seated", whole, http.StatusNotFound)
	if a := s.send(everyone.as("seated", request{path: list})); !strings.Contains(a.body, `"own":"`+part.Judges[bundled.Panel[0]].String()) {
		t.Errorf("when results are published, a judge is told %s", a.body)
	}
	chief := s.send(everyone.as("chief", request{path: whole}))
	if chief.status != http.StatusOK || strings.Contains(chief.body, `"judges"`) || strings.Contains(chief.body, `"pilot"`) {
		t.Errorf("the chief judge is told %d %s", chief.status, chief.body)
	}

	for range 2 { // a second time does nothing
		if a := s.send(everyone.as("director", request{method: http.MethodPost, path: whole})); a.status != http.StatusNoContent {
			t.Fatalf("opening an analysis: %d %s", a.status, a.body)
		}
	}
	status("seated", whole, http.StatusOK)
	if shown := get[api.PanelAnalysis](s, whole); shown.Judges == nil || len(*shown.Judges) != len(bundled.Panel) || shown.Published == nil {
		t.Errorf("what everyone is shown: %+v", shown)
	}
}
