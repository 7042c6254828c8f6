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

// inventedCard is a sequence of ten figures, one of them without moves.
func inventedCard(t testing.TB) Card {
	t.Helper()
	text, err := os.ReadFile("testdata/sequence.json")
	if err != nil {
		t.Fatal(err)
	}
	s, err := figure.ReadSequence(text, nil)
	if err != nil {
		t.Fatal(err)
	}
	return CardOf(s, figure.Check(s, nil), "An invented sequence")
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

// TestSheet keeps a page of all drawings to look at: the invented figures, and
// the first of them as a sequence for both winds.
func TestSheet(t *testing.T) {
	var page bytes.Buffer
	page.WriteString(`<!doctype html><meta charset="utf-8"><title>Drawings</title>
<style>body{font:11px sans-serif;margin:8px}div{display:inline-block;width:3cm;margin:3px;vertical-align:top}
div svg{width:3cm;height:2.6cm}.dark{background:#000;color:#fff}.wide svg{width:100%}section{width:24cm}</style>
`)
	list := inventedFigures(t)
	for i, f := range list {
		fmt.Fprintf(&page, "<div>%s%d. %s</div>\n", Figure(f.Subject, FromRight), i+1, html.EscapeString(f.call))
	}
	page.WriteString(`<br><div class="dark">`)
	page.Write(Figure(list[0].Subject, FromLeft))
	page.WriteString("</div>\n")
	for _, wind := range []Wind{FromRight, FromLeft} {
		page.WriteString(`<section class="wide">`)
		page.Write(Sequence(inventedCard(t), wind))
		page.WriteString("</section>\n")
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
