package api_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/figure"
)

// TestCheckSaysWhatTheProgramPrints holds what the service answers about the
// invented figures of testdata/figures against what halfpoint sequence prints,
// and sees to it that every figure is drawn for both winds.
func TestCheckSaysWhatTheProgramPrints(t *testing.T) {
	t.Parallel()
	s := start(t)
	for _, items := range inventedFigures(t) {
		text := `{"items": [` + strings.Join(items, ",") + `], "limits": {"max_k": 20}, "entry": {"inverted": false}}`
		sequence, err := figure.ReadSequence([]byte(text), nil)
		if err != nil {
			t.Fatal(err)
		}
		checked := figure.Check(sequence, nil)
		var want, got map[string]any
		decode(t, checked, &want)
		decode(t, s.check(text), &got)
		if clean := got["clean"]; clean != checked.Clean() {
			t.Errorf("clean is %v, want %v", clean, checked.Clean())
		}
		delete(got, "clean")
		for i, item := range got["items"].([]any) {
			drawings := item.(map[string]any)["drawings"].(map[string]any)
			right, left := drawings["right"].(string), drawings["left"].(string)
			if !strings.HasPrefix(right, "<svg ") || !strings.HasPrefix(left, "<svg ") || right == left {
				t.Errorf("%s is drawn as %s and %s", items[i], right, left)
			}
			delete(item.(map[string]any), "drawings")
		}
		if g, w := fmt.Sprint(got), fmt.Sprint(want); g != w {
			t.Errorf("the service says\n%s\nthe program\n%s", g, w)
		}
	}
}

// inventedFigures are sequences of testdata/figures, as items.
func inventedFigures(t *testing.T) (sequences [][]string) {
	t.Helper()
	files, err := filepath.Glob("../testdata/figures/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no figures: %v", err)
	}
	for _, path := range files {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var figures []struct{ Moves, Entry json.RawMessage }
		if err := json.Unmarshal(text, &figures); err != nil {
			t.Fatal(err)
		}
		items := []string{}
		for _, f := range figures[:min(len(figures), figure.MaxItems)] {
			items = append(items, fmt.Sprintf(`{"kind": "figure", "k": 1.5, "moves": %s}`, f.Moves))
		}
		sequences = append(sequences, items)
	}
	return sequences
}

// decode turns a value into what its JSON reads as.
func decode(t *testing.T, value any, to *map[string]any) {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, to); err != nil {
		t.Fatal(err)
	}
}

// TestCheckOfUnfinishedFigures: errors inside moves, an item without moves, an
// overall mark; all of it is answered.
func TestCheckOfUnfinishedFigures(t *testing.T) {
	t.Parallel()
	c := start(t).check(`{"items": [{"kind": "figure", "k": 3, "moves": [{"arc": 50}]}, {"kind": "figure", "k": 4, "elements": ["<b>"]}, ` + overall + `]}`)
	if e := c.Items[0].Errors; len(e) != 1 || e[0].Place != "items[0].moves[0].arc" || c.Clean {
		t.Errorf("%+v", e)
	}
	if d := c.Items[1].Drawings.Right; strings.Contains(d, "<b>") || !strings.Contains(d, "&lt;b&gt;") {
		t.Errorf("a figure without moves is drawn as %s", d)
	}
	if d := c.Items[2].Drawings; d.Right != "" || c.Figures != 2 || c.TotalK != 7 {
		t.Errorf("the overall mark is drawn as %s", d.Right)
	}
}

// TestCheckAgainstACategory: the category's limits hold where none are given;
// what may not be seen is not there.
func TestCheckAgainstACategory(t *testing.T) {
	t.Parallel()
	s := start(t)
	open, closed := s.plain(db.Published), s.plain(db.Closed)
	for _, at := range []places{open, closed} {
		path := "/api/v1/categories/" + at.category.String() + "/limits"
		s.send(request{method: http.MethodPut, path: path, token: token, contentType: json1, body: `{"limits": {"max_figures": 1}}`})
	}
	of := func(at places, more string) string {
		return `{"items": [` + loop + "," + halfCuban + `], "category": "` + at.category.String() + `"` + more + `}`
	}
	if f := s.check(of(open, "")).Findings; len(f) != 1 || f[0].Rule != "max_figures" {
		t.Errorf("found %v", f)
	}
	if f := s.check(of(open, `, "limits": {}`)).Findings; len(f) != 0 {
		t.Errorf("with limits of its own: found %v", f)
	}
	for body, want := range map[string]string{
		of(closed, ""):                          "/category",
		of(places{category: uuid.New()}, ""):    "/category",
		`{"items": [], "contest": "x"}`:         "/contest",
		`{"items": [], "category": 7}`:          "/category",
		`{"items": [], "limits": 7, "more": 1}`: "/more /limits",
		`{"items": [{"kind": "figure", "k": 1, "moves": [{"arc": 1}]}], "entry": 1}`: "/entry /items/0/moves/0/arc",
		`7`: "",
	} {
		a := s.send(request{method: http.MethodPost, path: "/api/v1/sequence-checks", contentType: json1, body: body})
		if p := problemOf(t, a); a.status != http.StatusUnprocessableEntity || strings.Join(pointers(&p), " ") != want {
			t.Errorf("%s: %d %s", body, a.status, a.body)
		}
	}
}

// TestSheetsNameAndDrawFigures reads what a flight and a judge are shown.
func TestSheetsNameAndDrawFigures(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	s.put(at.flight, sheet("", loop, `{"kind": "figure", "k": 5, "elements": ["1.1.1.1"]}`, strings.Replace(halfCuban, `"k"`, `"name": "Half Cuban", "k"`, 1), overall))
	items := map[string][]api.Item{}
	for _, one := range get[api.FlightSheet](s, at.flight+"/result").Items {
		items["flight"] = append(items["flight"], one.Item)
	}
	items["judge"] = get[api.JudgeSheet](s, at.flight+"/sheets/"+at.judge.String()).Items
	if len(items["flight"]) != 4 || len(items["judge"]) != 4 {
		t.Fatalf("%+v", items)
	}
	for _, whose := range slices.Sorted(maps.Keys(items)) {
		for i, want := range []struct {
			name         string
			drawn, calls bool
		}{{"loop", true, true}, {"", false, false}, {"Half Cuban", true, true}, {"Positioning", false, false}} {
			got := items[whose][i]
			if got.Name != want.name || (got.Drawings != nil) != want.drawn || (got.Call != nil) != want.calls {
				t.Errorf("item %d of the %s's sheet is %+v, want %+v", i+1, whose, got, want)
			}
		}
	}
}
