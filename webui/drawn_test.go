package webui

import (
	"encoding/json"
	"io"
	"net/http"
	"strings"
	"testing"
	"testing/fstest"
)

// drawingSite has two pages of each kind of standing, with words in two languages.
func drawingSite(t *testing.T, answers map[string]string) *site {
	t.Helper()
	s := carrying(func(w http.ResponseWriter, r *http.Request) {
		answer, ok := answers[r.URL.Path]
		if !ok {
			http.NotFound(w, r)
			return
		}
		_, _ = io.WriteString(w, answer)
	})
	var pages []ahead
	for _, kind := range []string{"programme", "category", "publication"} {
		pages = append(pages, ahead{Path: "/" + kind + "/{id}", Reads: []string{kind + "/{id}"}, Drawn: kind})
	}
	list, err := json.Marshal(pages)
	if err != nil {
		t.Fatal(err)
	}
	s.ahead = readAhead(fstest.MapFS{"dist/ahead.json": {Data: list}})
	s.pen = readWords(fstest.MapFS{"dist/words.json": {Data: []byte(`[
		{"language": "en", "words": {"score": "Score", "percent": "%", "total": "Total", "unranked": "not ranked", "in": "team {team}", "published": "Published results",
			"programmeTitle": "{category} · {programme}", "categoryTitle": "{category} · overall", "flightsIn": "{in} of {all} in", "number": "no. {n}", "state": {"official": "Official"}}},
		{"language": "de", "words": {"score": "Wertung", "programmeTitle": "{category} · {programme}", "flightsIn": "{in} von {all}"}}
	]`)}})
	return s
}

func body(t *testing.T, s *site, path string, header ...string) string {
	t.Helper()
	got := ask(t, s, http.MethodGet, path, header...)
	if got.StatusCode != http.StatusOK {
		t.Fatalf("%s is answered %d", path, got.StatusCode)
	}
	all, err := io.ReadAll(got.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(all)
}

// names must stand in a text one after the other.
func inOrder(t *testing.T, text string, names ...string) {
	t.Helper()
	rest := text
	for _, name := range names {
		_, after, found := strings.Cut(rest, name)
		if !found {
			t.Fatalf("%q is missing, or stands too early, in\n%s", name, text)
		}
		rest = after
	}
}

const programme = `{
	"contest": {"id": "1", "name": "Gull <Cup>"}, "category": {"id": "2", "name": "Advanced {programme}"}, "programme": {"id": "3", "name": "Known"},
	"flights": [
		{"pilot": {"name": "Late"}, "state": "scheduled"},
		{"pilot": {"name": "Guest", "affiliation": "", "aircraft": ""}, "state": "flown", "ranked": false, "score": 1500, "percent": 75},
		{"pilot": {"name": "<script>alert(1)</script>", "affiliation": "Heron", "aircraft": "Starling 200"}, "state": "flown", "ranked": true, "rank": 2, "score": 1400.5, "percent": 70.03, "certainty": {"rank_low": 1, "rank_high": 3}},
		{"pilot": {"name": "First"}, "state": "flown", "ranked": true, "rank": 1, "score": 1600, "percent": 80, "certainty": {"rank_low": 1, "rank_high": 1}},
		{"pilot": {"name": "Gone"}, "state": "withdrawn"}
	]}`

func TestProgrammeIsDrawn(t *testing.T) {
	page := body(t, drawingSite(t, map[string]string{"/api/v1/programme/3": programme}), "/programme/3")
	inOrder(
		t, page,
		`<main lang="en">`, `<a href="/contests/1">Gull &lt;Cup&gt;</a>`, `<a href="/categories/2">`, "<h1>Advanced {programme} · Known</h1>", "3 of 4 in",
		"First", ">1600.00<", ">80.00<", ">1<",
		"Guest", "not ranked", ">1500.00<", ">75.00<",
		"&lt;script&gt;", "Heron · Starling\u00a0200", ">1400.50<", ">1–3<",
		"Late", "Gone", `data-read="/api/v1/programme/3"`,
	)
	if strings.Contains(page, "<script>alert") {
		t.Error("a name is a script")
	}
}

func TestDrawnInTheReadersLanguage(t *testing.T) {
	s := drawingSite(t, map[string]string{"/api/v1/programme/3": programme})
	for wanted, want := range map[string]string{
		"de-AT, en;q=0.5": "Wertung",
		"fr, de;q=0.4":    "Wertung",
		"fr":              "Score",
		"":                "Score",
		"\x00;;=":         "Score",
	} {
		if page := body(t, s, "/programme/3", "Accept-Language", wanted); !strings.Contains(page, want) {
			t.Errorf("for %q %q is not said", wanted, want)
		}
	}
}

func TestCategoryIsDrawn(t *testing.T) {
	const category = `{"contest": {"id": "1", "name": "Cup"},
		"category": {"id": "2", "name": "Advanced", "combine": "COMBINE", "programmes": [
			{"id": "3", "name": "Known", "flown": 2, "flights": 2}, {"id": "4", "name": "Free", "flown": 1, "flights": 2}]},
		"overall": [
			{"pilot": {"name": "Second"}, "team": "Gulls", "ranked": true, "rank": 2, "total": 70, "by_programme": [{"programme": "3", "score": 1400, "percent": 70}]},
			{"pilot": {"name": "First"}, "ranked": true, "rank": 1, "total": -0.5, "by_programme": [{"programme": "4", "score": 1500, "percent": 75}, {"programme": "3", "score": 1, "percent": 2}]}
		]}`
	for combine, numbers := range map[string][]string{"sum": {"1.00", "1500.00", "1400.00"}, "sum-percent": {"2.00", "75.00", "70.00"}} {
		s := drawingSite(t, map[string]string{"/api/v1/category/2": strings.ReplaceAll(category, "COMBINE", combine)})
		inOrder(
			t, body(t, s, "/category/2"),
			"Advanced · overall", "3 of 4 in", `<a class="on" href="/programmes/3">Known</a>`, ">Free<", ">Total<",
			"First", numbers[0], numbers[1], ">−0.50<", "Second", "team Gulls", numbers[2], ">70.00<",
		)
	}
}

func TestPublicationIsDrawn(t *testing.T) {
	const publication = `{"contest": {"id": "1", "name": "Cup"},
		"about": {"number": 7, "state": "official", "category": {"id": "2", "name": "Advanced"}PROGRAMME},
		"combine": "sum", "programmes": [{"programme": "known", "name": "Known"}],
		"standing": [
			{"pilot": "a", "name": "Guest", "affiliation": "Heron", "aircraft": "", "score": 1700, "percent": 85, "scores": []},
			{"pilot": "b", "name": "First", "affiliation": "", "aircraft": "", "rank": 1, "score": 1600, "percent": 80, "scores": [{"programme": "known", "score": 1599, "percent": 79}]}
		]}`
	s := drawingSite(t, map[string]string{
		"/api/v1/publication/1": strings.ReplaceAll(publication, "PROGRAMME", `, "programme": {"id": "known", "name": "Known"}`),
		"/api/v1/publication/2": strings.ReplaceAll(publication, "PROGRAMME", ""),
	})
	way := []string{`href="/contests/1/publications">Published results<`, "<strong>Official</strong>", "no. 7"}
	inOrder(t, body(t, s, "/publication/1"), append(way, "First", ">1600.00<", ">80.00<", "Guest", "Heron", ">1700.00<")...)
	inOrder(t, body(t, s, "/publication/2"), append(way, "First", ">1599.00<", ">1600.00<", "Guest", ">1700.00<")...)
}

// TestPageWithoutDrawing has answers that cannot be drawn: the page comes as it would without.
func TestPageWithoutDrawing(t *testing.T) {
	s := drawingSite(t, map[string]string{"/api/v1/programme/3": `{"flights": 3}`})
	if page := body(t, s, "/programme/3"); strings.Contains(page, "drawn-ahead") || !strings.Contains(page, "data-read") {
		t.Errorf("of an answer of another form the page is\n%s", page)
	}
	if page := body(t, s, "/programme/4"); strings.Contains(page, "drawn-ahead") {
		t.Errorf("without an answer the page is\n%s", page)
	}
	s.pen = readWords(fstest.MapFS{})
	if page := body(t, s, "/programme/3"); !strings.Contains(page, "data-read") {
		t.Errorf("without words the page is\n%s", page)
	}
}
