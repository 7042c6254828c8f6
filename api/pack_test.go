package api_test

import (
	"compress/gzip"
	"io"
	"net/http"
	"testing"

	"halfpoint/api"
	"halfpoint/db"
)

func TestPacked(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Live)
	shown := get[api.Contest](s, "/api/v1/contests/"+contest.String())
	results := "/api/v1/programmes/" + shown.Categories[0].Programmes[0].ID.String() + "/results"
	for path, coding := range map[string]string{
		results: "gzip",
		"/api/v1/contests/" + contest.String() + "/events": "",
		"/healthz": "", // too small to gain anything
	} {
		a := s.do(request{path: path, header: map[string]string{"Accept-Encoding": "gzip"}})
		a.Body.Close()
		if got := a.Header.Get("Content-Encoding"); got != coding {
			t.Errorf("%s comes as %q, want %q", path, got, coding)
		}
	}
	packed := s.do(request{path: results, header: map[string]string{"Accept-Encoding": "gzip"}})
	defer packed.Body.Close()
	r, err := gzip.NewReader(packed.Body)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(r)
	if plain := s.send(request{path: results}).body; err != nil || string(text) != plain {
		t.Errorf("what was compressed unpacks to something else, %v", err)
	}
	if packed.Header.Get("Vary") != "Accept-Encoding" || packed.StatusCode != http.StatusOK {
		t.Errorf("%d %v", packed.StatusCode, packed.Header)
	}
}
