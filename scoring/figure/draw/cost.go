package draw

// overlaps measures what lies on top of something else: lines along each other
// but where one goes on from the other,
// marks on foreign lines or on each other, the dot or the bar on a line.
func overlaps(p *plan) (cost float64) {
	for i := range p.pieces {
		for j := i + 1; j < len(p.pieces); j++ {
			if p.pieces[j].part > p.pieces[i].part+1 {
				cost += alongEachOther(&p.pieces[i], &p.pieces[j])
			}
		}
	}
	for i := range p.marks {
		cost += markOverlaps(p, i)
	}
	return cost + endsOverlap(p)
}

// markOverlaps measures how a mark lies on other legs and on the marks before
// it.
func markOverlaps(p *plan, i int) (cost float64) {
	b := p.marks[i].room
	for j := range p.pieces {
		if p.pieces[j].part != p.marks[i].part && p.pieces[j].touches(b) {
			cost += 5
		}
	}
	for j := range i {
		if p.marks[j].room.meets(b) {
			cost += 20
		}
	}
	return cost
}

// endsOverlap measures how the dot and the bar lie on other lines and on marks.
func endsOverlap(p *plan) (cost float64) {
	first, last := p.pieces[0].part, p.pieces[len(p.pieces)-1].part
	dot, bar := p.dotBox(), p.barBox()
	for j := range p.pieces {
		if piece := &p.pieces[j]; piece.part != first && piece.touches(dot.grow(2)) {
			cost += 5
		}
		if piece := &p.pieces[j]; piece.part != last && piece.touches(bar.grow(2)) {
			cost += 5
		}
		cost += crossed(&p.pieces[0], &p.pieces[j]) + crossed(&p.pieces[len(p.pieces)-1], &p.pieces[j])
	}
	for i := range p.marks {
		if b := p.marks[i].room; b.meets(dot) || b.meets(bar) {
			cost += 5
		}
	}
	if beside := (box{dot.left - 4, dot.top - 1, dot.right + 4, dot.bottom + 1}); beside.meets(bar) {
		cost += 5
	}
	return cost
}

// crossed measures whether the way in or out crosses another leg.
func crossed(way, other *piece) float64 {
	near := way.part-other.part < 2 && other.part-way.part < 2
	if !near && !apart(way.a.x, way.d.x, other.a.x, other.d.x) && !apart(way.a.y, way.d.y, other.a.y, other.d.y) {
		var in, of [2]stretch
		for _, s := range way.stretches(&in) {
			for _, t := range other.stretches(&of) {
				if s.crosses(t) {
					return 4
				}
			}
		}
	}
	return 0
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

// crosses tells whether two stretches have a point in common.
func (s stretch) crosses(t stretch) bool {
	across, other := s.d.minus(s.a).across(), t.d.minus(t.a).across()
	return across.dot(t.a.minus(s.a))*across.dot(t.d.minus(s.a)) < 0 &&
		other.dot(s.a.minus(t.a))*other.dot(s.d.minus(t.a)) < 0
}

func abs(f float64) float64 { return max(f, -f) }
