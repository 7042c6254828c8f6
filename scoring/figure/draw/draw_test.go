package draw

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"strings"
	"testing"

	"halfpoint/scoring/figure"
)

func TestLabelsAndMarksDoNotOverlap(t *testing.T) {
	for _, f := range inventedFigures(t) {
		for _, wind := range []Wind{FromRight, FromLeft} {
			d := picture(f.Subject, wind)
			for _, wrong := range collisions(&d) {
				t.Errorf("%s %s", f.call, wrong)
			}
		}
	}
}

// collisions tells which labels lie on another, on a mark, on a line, on the
// dot or on the bar, and which marks on another.
func collisions(d *drawing) (wrong []string) {
	for i, l := range d.labels {
		for _, other := range d.labels[:i] {
			if l.box.meets(other.box) {
				wrong = append(wrong, "label "+l.text+" on label "+other.text)
			}
		}
		for _, m := range d.marks {
			if l.box.meets(m.box()) {
				wrong = append(wrong, "label "+l.text+" on the mark of "+m.label)
			}
		}
		for j := range d.pieces {
			if d.pieces[j].touches(l.box) {
				wrong = append(wrong, "label "+l.text+" on a line")
			}
		}
		if l.box.meets(d.dotBox()) || l.box.meets(d.barBox()) {
			wrong = append(wrong, "label "+l.text+" on the start or the end")
		}
	}
	for i, m := range d.marks {
		for _, other := range d.marks[:i] {
			if m.box().grow(-0.5).meets(other.box()) {
				wrong = append(wrong, "the mark of "+m.label+" on that of "+other.label)
			}
		}
		if m.box().meets(d.dotBox()) || m.box().meets(d.barBox()) {
			wrong = append(wrong, "the mark of "+m.label+" on the start or the end")
		}
	}
	return wrong
}

func TestLettersAreReadableAtThreeCentimetres(t *testing.T) {
	for _, f := range inventedFigures(t) {
		d := picture(f.Subject, FromRight)
		frame := d.frame()
		larger := max(frame.right-frame.left, frame.bottom-frame.top)
		// 1.7 mm of letter height is print of about 5 points, common practice, no source
		if millimetres := letterHeight * 30 / larger; len(d.labels) > 0 && millimetres < 1.7 {
			t.Errorf("%s: letters of %.1f mm when the drawing is 3 cm", f.call, millimetres)
		}
	}
}

func TestWindsMirrorEachOther(t *testing.T) {
	for _, f := range inventedFigures(t) {
		right, left := picture(f.Subject, FromRight), picture(f.Subject, FromLeft)
		if len(right.pieces) != len(left.pieces) {
			t.Errorf("%s: %d and %d lines", f.call, len(right.pieces), len(left.pieces))
			continue
		}
		for i := range right.pieces {
			a, b := right.pieces[i], left.pieces[i]
			if abs(a.d.x+b.d.x) > 1e-6 || abs(a.d.y-b.d.y) > 1e-6 || a.dashed != b.dashed {
				t.Errorf("%s: line %d ends at %v and %v", f.call, i, a.d, b.d)
			}
		}
	}
}

func TestOneRadiusInAFigure(t *testing.T) {
	moves := readMoves(t, []byte(`[{"arc":225},{"line":[]},{"arc":270,"push":true},{"line":[]},{"arc":45}]`))
	for _, p := range lay(Subject{Moves: moves}, FromRight).pieces {
		if !p.curved {
			continue
		}
		// an arc of 45 degrees has a chord of 2r sin 22.5°
		if chord := p.d.minus(p.a).length(); abs(chord-2*radius*0.382683) > 0.01 {
			t.Errorf("an eighth of a loop has a chord of %.2f", chord)
		}
	}
}

func TestDashesFollowAttitude(t *testing.T) {
	for moves, want := range map[string]string{
		`[{"arc":360}]`:                                        "solid",
		`[{"arc":360,"push":true}]`:                            "solid dashed solid",
		`[{"line":[{"kind":"roll","turns":0.5}]}]`:             "solid dashed",
		`[{"arc":180},{"line":[{"kind":"roll","turns":0.5}]}]`: "solid dashed solid",
		`[{"arc":90},{"line":[{"kind":"roll","turns":0.5}]},{"pivot":true},{"arc":90}]`:      "solid",
		`[{"arc":360,"apex":[{"kind":"roll","turns":0.5}]}]`:                                 "solid dashed",
		`[{"arc":90},{"slide":"canopy-down"},{"arc":90}]`:                                    "solid dashed solid",
		`[{"turn":90,"rolls":0.5}]`:                                                          "solid dashed",
		`[{"line":[{"kind":"roll","turns":0.25},{"kind":"roll","turns":0.25,"left":true}]}]`: "solid",
	} {
		got := ""
		for _, p := range lay(Subject{Moves: readMoves(t, []byte(moves))}, FromRight).pieces {
			style := "solid"
			if p.dashed {
				style = "dashed"
			}
			if !strings.HasSuffix(got, style) {
				got = strings.TrimSpace(got + " " + style)
			}
		}
		if got != want {
			t.Errorf("%s is drawn %s, want %s", moves, got, want)
		}
	}
}

func TestMarksStandOnTheMiddleOfTheirLine(t *testing.T) {
	p := lay(Subject{Moves: readMoves(t, []byte(`[{"arc":45},{"line":[{"kind":"roll","turns":1}]},{"arc":45,"push":true}]`))}, FromRight)
	var from, to point
	for i, piece := range p.pieces {
		if piece.part == p.marks[0].part {
			if p.pieces[i-1].part != piece.part {
				from = piece.a
			}
			to = piece.d
		}
	}
	if off := p.marks[0].at.minus(between(from, to, 0.5)).length(); off > 0.01 {
		t.Errorf("the mark is %.2f off the middle of its line", off)
	}
}

func TestWithoutMovesTheNumbersAreWritten(t *testing.T) {
	for want, s := range map[string]Subject{
		"5.2.1.1":    {Elements: []string{"5.2.1.1", "9.1.1.1"}, Name: "a name"},
		"corkscrew":  {Name: "the corkscrew of the old field"},
		">?<":        {},
		"&lt;b&gt;x": {Name: "<b>x"},
	} {
		if svg := string(Figure(s, FromRight)); !strings.Contains(svg, want) {
			t.Errorf("%+v is drawn as %s, want %q in it", s, svg, want)
		}
	}
}

func TestDrawingsAreXMLWithATitle(t *testing.T) {
	drawings := [][]byte{Sequence(inventedCard(t), FromLeft), Figure(Subject{Title: "<&\"\x00\xff>"}, FromRight)}
	for _, f := range inventedFigures(t) {
		drawings = append(drawings, Figure(f.Subject, FromRight))
	}
	for _, svg := range drawings {
		if err := wellFormed(svg); err != nil || !strings.Contains(string(svg), "<title>") {
			t.Errorf("%v in %s", err, svg)
		}
	}
}

func wellFormed(text []byte) error {
	decoder := xml.NewDecoder(strings.NewReader(string(text)))
	for {
		_, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func TestACardSaysThatItIsNoAdviceOnSafety(t *testing.T) {
	if svg := string(Sequence(inventedCard(t), FromRight)); !strings.Contains(svg, English.Note) {
		t.Error("the note is missing")
	}
}

func FuzzDrawing(f *testing.F) {
	card, err := os.ReadFile("testdata/sequence.json")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(card)
	f.Add([]byte(`{"items":[{"kind":"figure","k":1,"name":"<x>","moves":[{"pivot":true},{"arc":45}]}]}`))
	f.Add([]byte(`{"items":[{"kind":"figure","k":1,"moves":[{"arc":360,"apex":[` + strings.Repeat(`{"kind":"flick","turns":1},`, 7) + `{"kind":"roll","turns":1}]},{"turn":90,"rolls":8,"alternate":true}]}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := figure.ReadSequence(text, nil)
		if err != nil {
			return
		}
		card := CardOf(s, figure.Check(s, nil), "x")
		svg := Sequence(card, FromLeft)
		if err := wellFormed(svg); err != nil || strings.Contains(string(svg), "NaN") || len(svg) > 200*1000+len(text)*200 {
			t.Errorf("%d bytes drawn, %v", len(svg), err)
		}
		for _, c := range card.Figures {
			AppendFigure(nil, c.Subject, FromRight)
		}
	})
}

// BenchmarkTenFigures derives, checks, calls and draws a sequence of ten.
func BenchmarkTenFigures(b *testing.B) {
	text, err := os.ReadFile("testdata/sequence.json")
	if err != nil {
		b.Fatal(err)
	}
	s, err := figure.ReadSequence(text, nil)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	var svg []byte
	for b.Loop() {
		svg = AppendSequence(svg[:0], CardOf(s, figure.Check(s, nil), "ten"), FromRight)
	}
}

// BenchmarkMostThatIsAllowed draws the largest sequence that can be read.
func BenchmarkMostThatIsAllowed(b *testing.B) {
	rotations := make([]figure.Rotation, figure.MaxRotations)
	for i := range rotations {
		rotations[i] = figure.Rotation{Kind: figure.Roll, Quarters: 4, Points: 8}
	}
	moves := make([]figure.Move, figure.MaxMoves)
	for i := range moves {
		moves[i] = figure.Move{Kind: figure.Arc, Degrees: 360, Rotations: rotations}
	}
	s := figure.Sequence{Items: make([]figure.Item, figure.MaxItems)}
	for i := range s.Items {
		s.Items[i] = figure.Item{K: 10, Moves: moves}
	}
	b.ReportAllocs()
	for b.Loop() {
		Sequence(CardOf(s, figure.Check(s, nil), "all"), FromRight)
	}
}
