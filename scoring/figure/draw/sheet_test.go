package draw

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"html"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfpoint/scoring/document"
	"halfpoint/scoring/figure"
)

var update = flag.Bool("update", false, "write the sheet of drawings anew")

// An invented figure of testdata/figures.
type invented struct {
	Subject
	call string
}

func inventedFigures(t testing.TB) (list []invented) {
	t.Helper()
	files, err := filepath.Glob("../../../testdata/figures/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no figures: %v", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var cases []struct {
			Inverted bool            `json:"inverted"`
			Moves    json.RawMessage `json:"moves"`
			Call     string          `json:"call"`
		}
		if err := json.Unmarshal(text, &cases); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, c := range cases {
			s := Subject{Moves: readMoves(t, c.Moves), Entry: figure.Attitude{Inverted: c.Inverted}, Title: c.Call}
			list = append(list, invented{s, c.Call})
		}
	}
	return list
}

// inventedSequence is a sequence of ten figures, one of them without moves.
func inventedSequence(t testing.TB) figure.Sequence {
	t.Helper()
	text, err := os.ReadFile("testdata/sequence.json")
	if err != nil {
		t.Fatal(err)
	}
	s, err := figure.ReadSequence(text, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func readMoves(t testing.TB, text []byte) []figure.Move {
	t.Helper()
	var report document.Report
	v, _ := document.Parse(text, &report)
	moves := figure.ReadMoves(v)
	if err := report.Err(); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return moves
}

// TestSheet keeps a page of drawings to look at: the invented figures, some of
// them begun across the wind and for the other wind, and all of a sequence as
// small and as large as they are printed.
func TestSheet(t *testing.T) {
	var page bytes.Buffer
	page.WriteString(`<!doctype html><meta charset="utf-8"><title>Drawings</title>
<style>body{font:11px sans-serif;margin:8px}div{display:inline-block;width:3cm;margin:3px;vertical-align:top}
svg{width:100%}.dark{background:#000;color:#fff}.small{width:2cm}.large{width:6cm}</style>
`)
	list := inventedFigures(t)
	for i, f := range list {
		fmt.Fprintf(&page, "<div>%s%d. %s</div>\n", Figure(f.Subject, FromRight), i+1, html.EscapeString(f.call))
	}
	for _, heading := range []int{90, 270} {
		fmt.Fprintf(&page, "<h2>Begun at heading %d</h2>\n", heading)
		for i := 0; i < len(list); i += 4 {
			s := list[i].Subject
			s.Entry.Heading = heading
			fmt.Fprintf(&page, "<div>%s%d</div>\n", Figure(s, FromRight), i+1)
		}
	}
	sequence := inventedSequence(t)
	for _, class := range []string{"small", "large", "dark"} {
		fmt.Fprintf(&page, "<h2>Of a sequence, for the wind from the left</h2>\n")
		for _, f := range Subjects(sequence, figure.Check(sequence, nil)) {
			fmt.Fprintf(&page, "<div class=%q>%s%d</div>\n", class, Figure(f.Subject, FromLeft), f.Item)
		}
	}
	const path = "../../../testdata/figures/sheet.html"
	if *update {
		if err := os.WriteFile(path, page.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(want, page.Bytes()) {
		t.Errorf("the drawings are not those of %s (%v); look at them and run this test with -update", path, err)
	}
	if strings.Contains(page.String(), "NaN") {
		t.Error("a place on the page is not a number")
	}
}
