// Package draw draws figures and sequences as SVG in the conventions of the
// published notation: a dot where a figure starts and a bar where it ends,
// solid lines for positive and dashed ones for inverted flight, an arrow across
// the line for a roll with its fraction or points, a triangle for a flick, open
// for an inside and filled for an outside one.
//
// Everything is drawn in the colour of the text around it (currentColor), so
// that a drawing stands as well black on white as white on black, and has a
// title for readers who do not see it.
package draw

import (
	"halfpoint/scoring/figure"
)

// Wind says from which side of the page the wind blows, which is the side the
// sequence is flown towards at heading 0.
type Wind bool

// The two winds. One drawing is the mirror image of the other.
const (
	FromRight Wind = false
	FromLeft  Wind = true
)

// A Subject is a figure to be drawn.
type Subject struct {
	Moves []figure.Move
	Entry figure.Attitude
	// Title is said to readers who do not see the drawing.
	Title string
	// Elements, or Name where there are none, are written instead of a figure
	// without moves.
	Elements []string
	Name     string
}

// Figure draws one figure as an SVG document.
func Figure(s Subject, wind Wind) []byte {
	return AppendFigure(make([]byte, 0, 2048), s, wind)
}

// AppendFigure appends the SVG document of one figure.
func AppendFigure(b []byte, s Subject, wind Wind) []byte {
	p := picture(s, wind)
	b = openSVG(b, p.frame(), s.Title)
	b = p.append(b)
	return append(b, "</svg>\n"...)
}

// A drawing is what stands on the page for one figure: words alone for one
// without moves.
type drawing struct {
	plan
	labels []label
}

func picture(s Subject, wind Wind) drawing {
	if len(s.Moves) == 0 {
		return drawing{labels: written(s)}
	}
	return lay(s, wind)
}

// frame is the page, larger where the drawing is.
func (d *drawing) frame() box {
	return d.box().grow(pageMargin).atLeast(pageWidth, pageHeight)
}

// box is the part of the page that the drawing takes up.
func (d *drawing) box() box {
	b := d.plan.box()
	for i := range d.labels {
		b = b.join(d.labels[i].box)
	}
	return b
}

// written sets out the numbers, or the name, of a figure without moves.
func written(s Subject) []label {
	texts := s.Elements
	if len(texts) == 0 && s.Name != "" {
		texts = wrap(s.Name, 16)
	}
	if len(texts) == 0 {
		texts = []string{"?"}
	}
	labels := make([]label, len(texts))
	for i, text := range texts {
		labels[i] = newLabel(text, point{0, (float64(i) - float64(len(texts)-1)/2) * 16})
	}
	return labels
}

// wrap breaks a text between words into lines of about so many letters.
func wrap(text string, width int) (lines []string) {
	start, space := 0, -1
	for i, r := range text {
		if r == ' ' {
			space = i
		}
		if i-start >= width && space > start {
			lines = append(lines, text[start:space])
			start = space + 1
		}
	}
	return append(lines, text[start:])
}
