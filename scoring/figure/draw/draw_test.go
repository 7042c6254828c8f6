package draw

import (
	"encoding/xml"
	"errors"
	"io"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"halfpoint/scoring/figure"
)

func TestLabelsAndMarksDoNotOverlap(t *testing.T) {
	for _, f := range everyWay(t) {
		for _, wind := range []Wind{FromRight, FromLeft} {
			d := picture(f.Subject, wind)
			for _, wrong := range append(collisions(&d), meetings(&d)...) {
				t.Errorf("%s at heading %d %s", f.call, f.Entry.Heading, wrong)
			}
		}
	}
}

// everyWay are the invented figures begun at every heading.
func everyWay(t *testing.T) (list []invented) {
	t.Helper()
	for _, f := range inventedFigures(t) {
		for heading := 0; heading < 360; heading += 90 {
			f.Entry.Heading = heading
			list = append(list, f)
		}
	}
	return list
}

func TestLabelsOfAnyFigureDoNotOverlap(t *testing.T) {
	for seed := range uint64(2000) {
		s := randomFigure(rand.New(rand.NewPCG(seed, 1)))
		d := picture(s, FromRight)
		for _, wrong := range collisions(&d) {
			t.Errorf("%+v: %s", s.Moves, wrong)
		}
	}
}

// collisions tells which labels lie on another, on a mark, on a line, on the
// dot or on the bar.
func collisions(d *drawing) (wrong []string) {
	for i, l := range d.labels {
		for _, other := range d.labels[:i] {
			if l.box.meets(other.box) {
				wrong = append(wrong, "label "+l.text+" on label "+other.text)
			}
		}
		for _, m := range d.marks {
			if l.box.meets(m.room) {
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
	return wrong
}

// meetings tells which marks lie on another, on the dot or on the bar.
func meetings(d *drawing) (wrong []string) {
	for i, m := range d.marks {
		for _, other := range d.marks[:i] {
			if m.room.grow(-0.5).meets(other.room) {
				wrong = append(wrong, "the mark of "+m.label+" on that of "+other.label)
			}
		}
		if m.room.meets(d.dotBox()) || m.room.meets(d.barBox()) {
			wrong = append(wrong, "the mark of "+m.label+" on the start or the end")
		}
	}
	return wrong
}

func TestStrokesAndLettersAreAsLargeInEveryFigure(t *testing.T) {
	for _, f := range everyWay(t) {
		d := picture(f.Subject, FromRight)
		// a twentieth for the last of others.json, whose lines lie on each other when it is flown
		if b := d.box(); b.right-b.left > 1.05*pageWidth || b.bottom-b.top > 1.05*pageHeight {
			t.Errorf("%s at heading %d does not fit: %.0f", f.call, f.Entry.Heading, b)
		}
	}
	// 1.4 mm are the digits of print of 5½ points, common practice, no source
	if millimetres := digitHeight * 20 / pageWidth; millimetres < 1.4 {
		t.Errorf("digits of %.1f mm where a drawing is 2 cm wide", millimetres)
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
	chord := 0.0 // of an eighth of a loop
	for _, p := range lay(Subject{Moves: moves}, FromRight).pieces {
		if !p.curved {
			continue
		}
		length := p.d.minus(p.a).length()
		if chord == 0 {
			chord = length
		}
		if abs(length-chord) > 0.01 {
			t.Errorf("eighths of loops have chords of %.2f and %.2f", chord, length)
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
	for seed := range uint64(500) {
		s := randomFigure(rand.New(rand.NewPCG(seed, 2)))
		offTheMiddle(t, lay(s, FromRight).plan)
	}
	for _, f := range inventedFigures(t) {
		offTheMiddle(t, lay(f.Subject, FromRight).plan)
	}
}

// offTheMiddle complains of marks that stand on one side of their straight
// line's middle more than on the other.
func offTheMiddle(t *testing.T, p plan) {
	t.Helper()
	for part := range p.pieces[len(p.pieces)-1].part + 1 {
		of := func(piece piece) bool { return piece.part == part }
		first := slices.IndexFunc(p.pieces, of)
		marks := slices.DeleteFunc(slices.Clone(p.marks), func(m mark) bool { return m.part != part })
		if first < 0 || len(marks) == 0 || p.pieces[first].curved {
			continue
		}
		from, to := p.pieces[first].a, p.pieces[first].d
		for _, piece := range p.pieces[first:] {
			if of(piece) {
				to = piece.d
			}
		}
		middle := halfway(marks[0].at, marks[len(marks)-1].at)
		if off := middle.minus(halfway(from, to)).length(); off > 0.01 {
			t.Errorf("the marks are %.2f off the middle of their line", off)
		}
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
	drawings := [][]byte{Figure(Subject{Title: "<&\"\x00\xff>"}, FromRight)}
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
		for _, f := range Subjects(s, figure.Check(s, nil)) {
			svg := Figure(f.Subject, FromLeft)
			if err := wellFormed(svg); err != nil || strings.Contains(string(svg), "NaN") || len(svg) > 5000+len(text)*200 {
				t.Errorf("%d bytes drawn, %v", len(svg), err)
			}
		}
	})
}

// BenchmarkTenFigures derives, checks, calls and draws a sequence of ten.
func BenchmarkTenFigures(b *testing.B) {
	s := inventedSequence(b)
	b.ReportAllocs()
	var svg []byte
	for b.Loop() {
		svg = svg[:0]
		for _, f := range Subjects(s, figure.Check(s, nil)) {
			svg = AppendFigure(svg, f.Subject, FromRight)
		}
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
		for _, f := range Subjects(s, figure.Check(s, nil)) {
			Figure(f.Subject, FromRight)
		}
	}
}
