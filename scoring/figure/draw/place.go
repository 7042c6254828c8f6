package draw

import "halfpoint/scoring/figure"

// letterHeight is the size of the letters; the box of a text is as high as its
// digits.
const (
	letterHeight = 10.0
	digitHeight  = 8.0
)

// A label is a text about a point.
type label struct {
	text string
	at   point
	box  box
	from point // where a thin line leads to, when it stands far from its mark
	far  bool
}

func newLabel(text string, at point) label {
	w, h := textWidth(text)/2, digitHeight/2
	return label{text: text, at: at, box: box{at.x - w, at.y - h, at.x + w, at.y + h}}
}

// textWidth is about how wide a text is drawn.
func textWidth(text string) float64 {
	width := 0.0
	for _, r := range text {
		switch r {
		case '.', ' ':
			width += 0.3
		case '¼', '½', '¾':
			width += 0.85
		default:
			width += 0.6
		}
	}
	return width * letterHeight
}

// shift moves the marks of a line towards one of its ends where something else
// crosses its middle. It tells whether it moved any.
func shift(p *plan, legs []leg, style *styling) (moved bool) {
	for i := range legs {
		if legs[i].Kind != figure.Line || len(legs[i].Rotations) == 0 || !disturbed(p, i, point{}) {
			continue
		}
		way := wayOf(p, i)
		for _, by := range []float64{-9, 9, -13, 13, -17, 17, -21, 21} {
			room := (way.length() - markPitch*float64(len(legs[i].Rotations)-1)) / 2
			if room-markHalf-1 < by || by < markHalf+1-room {
				continue
			}
			if !disturbed(p, i, way.unit().times(by)) {
				style.shifts[i], moved = by, true
				break
			}
		}
	}
	return moved
}

// wayOf is the way from the beginning to the end of a straight leg.
func wayOf(p *plan, leg int) point {
	var way point
	for _, piece := range p.pieces {
		if piece.part == leg {
			way = way.plus(piece.d.minus(piece.a))
		}
	}
	return way
}

// disturbed tells whether the marks of a leg, moved by so much, would meet
// another leg or its marks.
func disturbed(p *plan, leg int, by point) bool {
	for i := range p.marks {
		m := p.marks[i]
		if m.part != leg {
			continue
		}
		m.at = m.at.plus(by)
		b := m.box().grow(-0.5)
		for j := range p.pieces {
			if p.pieces[j].part != leg && p.pieces[j].touches(b) {
				return true
			}
		}
		for j := range p.marks {
			if p.marks[j].part != leg && p.marks[j].box().meets(b) {
				return true
			}
		}
	}
	return false
}

// overlaps measures what lies on top of something else: lines along each other,
// marks on foreign lines or on each other, the dot or the bar on a line.
func overlaps(p *plan) (cost float64) {
	for i := range p.pieces {
		for j := i + 1; j < len(p.pieces); j++ {
			if p.pieces[j].part != p.pieces[i].part {
				cost += alongEachOther(&p.pieces[i], &p.pieces[j])
			}
		}
	}
	for i := range p.marks {
		b := p.marks[i].box().grow(-0.5)
		for j := range p.pieces {
			if p.pieces[j].part != p.marks[i].part && p.pieces[j].touches(b) {
				cost += 5
			}
		}
		for j := range i {
			if p.marks[j].box().meets(b) {
				cost += 20
			}
		}
	}
	return cost + endsOverlap(p)
}

// endsOverlap measures how the dot and the bar lie on other lines.
func endsOverlap(p *plan) (cost float64) {
	last := len(p.pieces) - 1
	dot, bar := p.dotBox(), p.barBox()
	for j := range p.pieces {
		if p.pieces[j].part != p.pieces[0].part && p.pieces[j].touches(dot) {
			cost += 5
		}
		if p.pieces[j].part != p.pieces[last].part && p.pieces[j].touches(bar) {
			cost += 5
		}
	}
	for i := range p.marks {
		if b := p.marks[i].box(); b.meets(dot) || b.meets(bar) {
			cost += 5
		}
	}
	if dot.meets(bar) {
		cost += 5
	}
	return cost
}

func (p *plan) dotBox() box {
	return box{p.start.x, p.start.y, p.start.x, p.start.y}.grow(dotRadius)
}

func (p *plan) barBox() box {
	reach := p.out.across().times(barReach)
	return emptyBox.around(p.end.plus(reach)).around(p.end.minus(reach)).grow(1)
}

// alongEachOther measures how far two pieces run side by side, so near that
// they would be taken for one. A curve counts as two straight lines.
func alongEachOther(p, q *piece) (cost float64) {
	if apart(p.a.x, p.d.x, q.a.x, q.d.x) || apart(p.a.y, p.d.y, q.a.y, q.d.y) {
		return 0
	}
	var left, right [2]stretch
	for _, s := range p.stretches(&left) {
		for _, t := range q.stretches(&right) {
			cost += s.along(t)
		}
	}
	return cost
}

// near is how far apart two lines may be and be taken for one.
const near = 7.0

// apart tells whether two stretches of an axis are farther apart than near.
func apart(a, b, c, d float64) bool { return max(a, b)+near < min(c, d) || max(c, d)+near < min(a, b) }

// A stretch is a straight line from a to d.
type stretch struct{ a, d point }

func (p *piece) stretches(into *[2]stretch) []stretch {
	if !p.curved {
		into[0] = stretch{p.a, p.d}
		return into[:1]
	}
	m := p.middle()
	into[0], into[1] = stretch{p.a, m}, stretch{m, p.d}
	return into[:]
}

// along is how much of two stretches lies side by side.
func (s stretch) along(t stretch) float64 {
	way := s.d.minus(s.a)
	length := way.length()
	along := way.times(1 / max(length, 1e-9))
	a, d := t.a.minus(s.a), t.d.minus(s.a)
	if across := along.across(); abs(across.dot(a)) > near || abs(across.dot(d)) > near {
		return 0
	}
	from, to := along.dot(a), along.dot(d)
	shared := min(length, max(from, to)) - max(0, min(from, to))
	if shared < 2 {
		return 0
	}
	return shared
}

func abs(f float64) float64 { return max(f, -f) }

// place stands each mark's label where it is on nothing else, as near as it
// can.
func place(p plan) []label {
	if p.crowded() {
		return nil
	}
	labels := make([]label, 0, len(p.marks))
	for i := range p.marks {
		if p.marks[i].label != "" {
			labels = append(labels, placeOne(&p, &p.marks[i], labels))
		}
	}
	return labels
}

// ways around a mark in which its label is sought: beyond the tip, opposite,
// before and behind.
var around = [...]struct{ tip, along float64 }{
	{1, 0}, {-1, 0}, {0.8, 0.6}, {0.8, -0.6}, {-0.8, 0.6}, {-0.8, -0.6}, {0.3, 0.95}, {0.3, -0.95}, {-0.3, 0.95}, {-0.3, -0.95},
}

func placeOne(p *plan, m *mark, labels []label) label {
	l := newLabel(m.label, m.at)
	half := point{(l.box.right - l.box.left) / 2, digitHeight / 2}
	for ring := range 40 {
		for _, a := range around {
			way := m.tip.times(a.tip).plus(m.along.times(a.along)).unit()
			reach := markReach + 1.5
			if m.half && a.tip < 0 {
				reach = 2.5
			}
			distance := reach + abs(way.x)*half.x + abs(way.y)*half.y + 4*float64(ring)
			at := m.at.plus(way.times(distance))
			if l = newLabel(m.label, at); free(p, l.box, labels) {
				if ring > 1 {
					l.far, l.from = true, m.at.plus(way.times(reach))
				}
				return l
			}
		}
	}
	return l
}

// free tells whether a box is on nothing that is drawn.
func free(p *plan, b box, labels []label) bool {
	wide := b.grow(1)
	if wide.meets(p.dotBox()) || wide.meets(p.barBox()) {
		return false
	}
	for i := range labels {
		if labels[i].box.meets(wide) {
			return false
		}
	}
	for i := range p.marks {
		if p.marks[i].box().meets(wide) {
			return false
		}
	}
	for i := range p.pieces {
		if p.pieces[i].touches(wide) {
			return false
		}
	}
	return true
}
