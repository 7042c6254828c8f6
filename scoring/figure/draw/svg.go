package draw

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// The least room of a drawing, in the units of the page.
const (
	minWidth  = 96.0
	minHeight = 72.0
)

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
	if len(d.lines) > 0 {
		return appendLabels(b, d.lines)
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
	b = appendNumber(append(b, `<circle cx="`...), p.start.x)
	b = appendNumber(append(b, `" cy="`...), p.start.y)
	b = appendNumber(append(b, `" r="`...), dotRadius)
	b = append(b, `" fill="currentColor" stroke="none"/>`...)
	reach := p.out.across().times(barReach)
	b = append(b, `<path d="M`...)
	if p.whole {
		b = appendPoint(b, p.end.minus(reach))
		b = appendPoint(append(b, 'L'), p.end.plus(reach))
		return append(b, "\" stroke-width=\"2.4\"/>\n"...)
	}
	b = appendPoint(b, p.end.plus(point{-4, -4}))
	b = appendPoint(append(b, 'L'), p.end.plus(point{4, 4}))
	b = appendPoint(append(b, 'M'), p.end.plus(point{-4, 4}))
	b = appendPoint(append(b, 'L'), p.end.plus(point{4, -4}))
	return append(b, "\"/>\n"...)
}

func appendMark(b []byte, m *mark) []byte {
	base1, base2, tip := m.corners()
	if m.shape == rollArrow {
		return appendArrow(b, m, tip)
	}
	b = appendPoint(append(b, `<path d="M`...), base1)
	b = appendPoint(append(b, 'L'), base2)
	b = appendPoint(append(b, 'L'), tip)
	if m.shape == filledTriangle || m.shape == filledSpin {
		return append(b, "Z\" fill=\"currentColor\"/>\n"...)
	}
	return append(b, "Z\" stroke-width=\"1.4\"/>\n"...)
}

// appendArrow draws a bowed arrow across the line, from the line for at most
// half a roll.
func appendArrow(b []byte, m *mark, tip point) []byte {
	tail := m.at
	if !m.half {
		tail = m.at.minus(m.tip.times(markReach))
	}
	tail, tip = tail.minus(m.along.times(2)), tip.minus(m.along.times(2))
	bow := between(tail, tip, 0.5).plus(m.along.times(6))
	b = appendPoint(append(b, `<path d="M`...), tail)
	b = appendPoint(append(b, 'Q'), bow)
	b = appendPoint(append(b, ' '), tip)
	into := tip.minus(bow).unit()
	side := into.across().times(2.2)
	b = append(b, "\" stroke-width=\"1.4\"/><path d=\"M"...)
	b = appendPoint(b, tip.plus(into.times(1.5)))
	b = appendPoint(append(b, 'L'), tip.minus(into.times(3.5)).plus(side))
	b = appendPoint(append(b, 'L'), tip.minus(into.times(3.5)).minus(side))
	return append(b, "Z\" fill=\"currentColor\" stroke=\"none\"/>\n"...)
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
		b = appendNumber(append(b, `" y="`...), l.at.y+digitHeight/2-0.5)
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
