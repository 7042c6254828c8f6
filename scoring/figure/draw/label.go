package draw

// letterHeight is the size of the letters; the box of a text is as high as its
// digits.
const (
	letterHeight = 12.0
	digitHeight  = 8.8
)

// A label is a text about a point.
type label struct {
	text string
	at   point
	box  box
	mark int   // the mark it belongs to
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
		case '.', ' ', '/':
			width += 0.34
		case '×':
			width += 0.8
		default:
			width += 0.62
		}
	}
	return width * letterHeight
}

// place stands each mark's label where it is on nothing else, as near as it
// can.
func place(p plan) []label {
	labels := make([]label, 0, len(p.marks))
	for i := range p.marks {
		if p.marks[i].label != "" {
			labels = append(labels, placeOne(&p, i, labels))
		}
	}
	return labels
}

// around are the places at which a label is sought: on the tip's side of the
// line or on the other, and so far along it.
var around = [...]struct{ side, along float64 }{
	{1, 0}, {-1, 0}, {-1, -8}, {-1, 8}, {1, -10}, {1, 10}, {-1, -15}, {-1, 15}, {1, -17}, {1, 17},
}

const (
	standOff = 2.5 // of a label from its mark
	aloof    = 5.0 // from the marks of others, while there is room: nearer it would be read as theirs
)

func placeOne(p *plan, i int, labels []label) label {
	for ring := range 40 {
		for _, a := range around {
			l := p.marks[i].beside(a.side, a.along, 4*float64(ring))
			if ring < 2 && !p.apart(i, l.box, aloof, labels) {
				continue
			}
			if p.free(i, l.box, labels) {
				l.mark, l.far = i, ring > 2
				return l
			}
		}
	}
	return p.marks[i].beside(1, 0, 0)
}

// beside is the mark's label on one side of the line, so far along it and so
// much farther off than it has to be.
func (m *mark) beside(side, along, more float64) label {
	reach := markReach
	switch {
	case side < 0 && m.half:
		reach = 1
	case side < 0:
		reach = markTail
	}
	l := newLabel(m.label, m.at)
	half := abs(m.tip.x)*(l.at.x-l.box.left) + abs(m.tip.y)*digitHeight/2
	l = newLabel(m.label, m.offset(along, side*(reach+standOff+more+half)))
	l.from = m.offset(along/2, side*(reach+1))
	return l
}

// apart tells whether a box stays away from all marks and labels but one's own.
func (p *plan) apart(own int, b box, by float64, labels []label) bool {
	wide := b.grow(by)
	for i := range p.marks {
		if i != own && p.marks[i].room.meets(wide) {
			return false
		}
	}
	for i := range labels {
		if labels[i].box.meets(wide) {
			return false
		}
	}
	return true
}

// free tells whether a mark's label may stand in a box: on nothing that is
// drawn.
func (p *plan) free(own int, b box, labels []label) bool {
	wide := b.grow(1.5)
	if wide.meets(p.dotBox()) || wide.meets(p.barBox()) || p.marks[own].room.meets(b) || !p.apart(own, b, 1, labels) {
		return false
	}
	for i := range p.pieces {
		if p.pieces[i].touches(wide) {
			return false
		}
	}
	return true
}
