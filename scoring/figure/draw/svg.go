package draw

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// crossReach is half the size of the cross where a figure could not be followed
// further.
const crossReach = 4.5

// openSVG begins a document that shows a part of the page.
func openSVG(b []byte, frame box, title string) []byte {
	b = append(b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="`...)
	b = appendFrame(b, frame)
	b = append(b, `" role="img" fill="none" stroke="currentColor" stroke-width="1.8" stroke-linejoin="round">`...)
	b = append(b, "<title>"...)
	b = appendText(b, title)
	return append(b, "</title>\n"...)
}

func appendFrame(b []byte, frame box) []byte {
	b = appendPoint(b, point{frame.left, frame.top})
	return appendPoint(append(b, ' '), point{frame.right - frame.left, frame.bottom - frame.top})
}

// append draws everything inside the document.
func (d *drawing) append(b []byte) []byte {
	if len(d.pieces) == 0 {
		return appendLabels(b, d.labels)
	}
	b = appendPieces(b, d.pieces, false)
	b = appendPieces(b, d.pieces, true)
	b = appendEnds(b, &d.plan)
	for i := range d.marks {
		b = appendMark(b, &d.marks[i])
	}
	return appendLabels(b, d.labels)
}

// appendPieces draws all solid or all dashed pieces as one path.
func appendPieces(b []byte, pieces []piece, dashed bool) []byte {
	open := false
	var at point
	for i := range pieces {
		p := &pieces[i]
		if p.dashed != dashed {
			continue
		}
		switch {
		case !open:
			b = append(b, `<path d="`...)
			b = appendPoint(append(b, 'M'), p.a)
		case p.a != at:
			b = appendPoint(append(b, 'M'), p.a)
		}
		open, at = true, p.d
		if p.curved {
			b = appendPoint(append(b, 'C'), p.b)
			b = appendPoint(append(b, ' '), p.c)
			b = appendPoint(append(b, ' '), p.d)
		} else {
			b = appendPoint(append(b, 'L'), p.d)
		}
	}
	if !open {
		return b
	}
	if dashed {
		b = append(b, `" stroke-dasharray="4 2.6`...)
	}
	return append(b, "\"/>\n"...)
}

// appendEnds draws the dot at the start and the bar at the end, or a cross
// where the figure was not followed to its end.
func appendEnds(b []byte, p *plan) []byte {
	b = appendNumber(append(b, `<circle r="`...), dotRadius)
	b = append(b, `" fill="currentColor" stroke="none"/>`...)
	if p.whole {
		return appendPath(append(b, `<path stroke-width="2.6`...), false, p.end.minus(point{0, barReach}), p.end.plus(point{0, barReach}))
	}
	b = appendPath(append(b, `<path stroke-width="1.8`...), false, p.end.plus(point{-crossReach, -crossReach}), p.end.plus(point{crossReach, crossReach}))
	return appendPath(append(b, `<path stroke-width="1.8`...), false, p.end.plus(point{-crossReach, crossReach}), p.end.plus(point{crossReach, -crossReach}))
}

// appendPath ends an element with straight lines between points, back to the
// first where it is closed.
func appendPath(b []byte, closed bool, points ...point) []byte {
	b = append(b, `" d="M`...)
	for i, p := range points {
		if i > 0 {
			b = append(b, 'L')
		}
		b = appendPoint(b, p)
	}
	if closed {
		b = append(b, 'Z')
	}
	return append(b, "\"/>\n"...)
}

func appendMark(b []byte, m *mark) []byte {
	switch m.shape {
	case rollArrow, yawArrow:
		return appendArrow(b, m.arrow())
	case flightHead, filledTriangle, filledSpin:
		b = append(b, `<path fill="currentColor" stroke-width="1.4`...)
	case openTriangle, openSpin:
		b = append(b, `<path stroke-width="1.4`...)
	}
	base1, base2, top := m.triangle()
	return appendPath(b, true, base1, base2, top)
}

// appendArrow draws a bowed arrow with a filled head.
func appendArrow(b []byte, a arrow) []byte {
	b = appendPoint(append(b, `<path stroke-width="1.5" d="M`...), a.tail)
	b = appendPoint(append(b, 'Q'), a.bow)
	b = appendPoint(append(b, ' '), a.foot)
	b = append(b, `"/><path fill="currentColor" stroke="none`...)
	return appendPath(b, true, a.tip, a.left, a.right)
}

func appendLabels(b []byte, labels []label) []byte {
	if len(labels) == 0 {
		return b
	}
	b = append(b, `<g font-family="sans-serif" font-size="`...)
	b = appendNumber(b, letterHeight)
	b = append(b, `" text-anchor="middle" fill="currentColor" stroke="none">`...)
	for i := range labels {
		l := &labels[i]
		b = appendNumber(append(b, `<text x="`...), l.at.x)
		b = appendNumber(append(b, `" y="`...), l.at.y+digitHeight/2)
		b = appendText(append(b, `">`...), l.text)
		b = append(b, "</text>"...)
	}
	b = append(b, "</g>\n"...)
	for i := range labels {
		if labels[i].far {
			b = appendPoint(append(b, `<path d="M`...), labels[i].from)
			b = appendPoint(append(b, 'L'), nearest(labels[i].box, labels[i].from))
			b = append(b, "\" stroke-width=\"0.6\"/>\n"...)
		}
	}
	return b
}

// nearest is the point of a box that is nearest to another.
func nearest(b box, p point) point {
	return point{min(max(p.x, b.left), b.right), min(max(p.y, b.top), b.bottom)}
}

func appendPoint(b []byte, p point) []byte {
	return appendNumber(append(appendNumber(b, p.x), ' '), p.y)
}

// appendNumber writes a number with at most one decimal.
func appendNumber(b []byte, f float64) []byte {
	tenths := int64(math.Round(f * 10))
	if tenths < 0 {
		b = append(b, '-')
		tenths = -tenths
	}
	b = strconv.AppendInt(b, tenths/10, 10)
	if tenths%10 != 0 {
		b = append(b, '.', byte('0'+tenths%10))
	}
	return b
}

// appendText writes a text as XML does, what XML cannot hold replaced.
func appendText(b []byte, text string) []byte {
	for _, r := range text {
		switch {
		case r == '<':
			b = append(b, "&lt;"...)
		case r == '>':
			b = append(b, "&gt;"...)
		case r == '&':
			b = append(b, "&amp;"...)
		case r == '"':
			b = append(b, "&quot;"...)
		case r < ' ' || r == 0xFFFE || r == 0xFFFF:
			b = append(b, ' ')
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return b
}
