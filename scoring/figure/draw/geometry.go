package draw

import "math"

// A point on the page, x to the right and y down, or a way from one to another.
type point struct{ x, y float64 }

func (p point) plus(q point) point    { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point   { return point{p.x - q.x, p.y - q.y} }
func (p point) times(f float64) point { return point{p.x * f, p.y * f} }
func (p point) dot(q point) float64   { return p.x*q.x + p.y*q.y }
func (p point) length() float64       { return math.Sqrt(p.x*p.x + p.y*p.y) }
func (p point) across() point         { return point{-p.y, p.x} }
func halfway(p, q point) point        { return p.plus(q).times(0.5) }

// unit is the way of length 1 in the same direction, to the right for none.
func (p point) unit() point {
	l := p.length()
	if l < 1e-9 {
		return point{1, 0}
	}
	return p.times(1 / l)
}

// A box with its sides along the page's.
type box struct{ left, top, right, bottom float64 }

var emptyBox = box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

func (b box) around(p point) box {
	return box{min(b.left, p.x), min(b.top, p.y), max(b.right, p.x), max(b.bottom, p.y)}
}

func (b box) join(c box) box {
	return box{min(b.left, c.left), min(b.top, c.top), max(b.right, c.right), max(b.bottom, c.bottom)}
}

func (b box) grow(by float64) box {
	return box{b.left - by, b.top - by, b.right + by, b.bottom + by}
}

// atLeast widens the box about its middle.
func (b box) atLeast(width, height float64) box {
	dx, dy := max(0, width-(b.right-b.left))/2, max(0, height-(b.bottom-b.top))/2
	return box{b.left - dx, b.top - dy, b.right + dx, b.bottom + dy}
}

func (b box) meets(c box) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

// crossedBy tells whether the straight way from p to q touches the box.
func (b box) crossedBy(p, q point) bool {
	if max(p.x, q.x) < b.left || min(p.x, q.x) > b.right || max(p.y, q.y) < b.top || min(p.y, q.y) > b.bottom {
		return false
	}
	d := q.minus(p)
	side := func(x, y float64) float64 { return d.x*(y-p.y) - d.y*(x-p.x) }
	s1, s2 := side(b.left, b.top), side(b.right, b.top)
	s3, s4 := side(b.left, b.bottom), side(b.right, b.bottom)
	return !(s1 > 0 && s2 > 0 && s3 > 0 && s4 > 0) && !(s1 < 0 && s2 < 0 && s3 < 0 && s4 < 0)
}

// A piece is a straight line from a to d, or a curve from a to d with the
// control points b and c.
type piece struct {
	a, b, c, d point
	curved     bool
	dashed     bool
	part       int // the leg it belongs to, counted from 1; 0 for the way in, one more than the legs for the way out
}

// middle is the point half way along.
func (p *piece) middle() point {
	if !p.curved {
		return halfway(p.a, p.d)
	}
	return point{
		(p.a.x + 3*p.b.x + 3*p.c.x + p.d.x) / 8,
		(p.a.y + 3*p.b.y + 3*p.c.y + p.d.y) / 8,
	}
}

// touches tells whether the piece, a curve as two straight lines, touches a
// box.
func (p *piece) touches(b box) bool {
	if !p.curved {
		return b.crossedBy(p.a, p.d)
	}
	m := p.middle()
	return b.crossedBy(p.a, m) || b.crossedBy(m, p.d)
}
