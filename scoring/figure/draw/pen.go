package draw

import (
	"math"

	"halfpoint/scoring/figure"
)

// A pen draws moves from where it stands.
type pen struct {
	plan
	view
	at    point
	state figure.State
	part  int
}

// A view is how directions of flight lie on the page.
type view struct {
	flip float64 // 1, or -1 for the mirror image
	away point   // the axis across the box, before the flip
}

// The axis across the box goes obliquely up, so flat that a loop across the box
// is round; steeper where a level turn is seen from above.
var (
	fromTheSide = point{0.8, -0.36}
	fromAbove   = point{0.45, -0.5}
)

// project lays a direction of flight on the page.
func (v *view) project(d figure.Direction) point {
	f := 1.0
	if (d.X != 0 || d.Y != 0) && d.Z != 0 {
		f = math.Sqrt2 / 2
	}
	x, y, z := f*float64(d.X), f*float64(d.Y), f*float64(d.Z)
	return point{v.flip * (x + v.away.x*y), v.away.y*y - z}
}

func (p *pen) line(length float64, dashed bool) {
	if length < 0.01 {
		return
	}
	end := p.at.plus(p.project(p.state.Nose).times(length))
	p.pieces = append(p.pieces, piece{a: p.at, b: p.at, c: end, d: end, dashed: dashed, part: p.part})
	p.at = end
}

func (p *pen) curve(b, c, d point, dashed bool) {
	p.pieces = append(p.pieces, piece{p.at, b, c, d, true, dashed, p.part})
	p.at = d
}

// inverted tells whether straight flight in the present state is drawn dashed:
// on a vertical line there is no upright or inverted.
func (p *pen) inverted() bool { return !p.state.Vertical() && p.state.Inverted() }

// A bow is a circle as it lies on the page: the way ahead where it begins and
// the way to its middle, each as long as the radius.
type bow struct{ ahead, inward point }

// after is the bow from so many degrees on.
func (w bow) after(degrees float64) bow {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return bow{
		w.ahead.times(cos).plus(w.inward.times(sin)),
		w.inward.times(cos).minus(w.ahead.times(sin)),
	}
}

// to is the way from the beginning to so many degrees on.
func (w bow) to(degrees float64) point {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return w.ahead.times(sin).plus(w.inward.times(1 - cos))
}

// bend draws so many degrees of a bow.
func (p *pen) bend(w bow, degrees float64, dashed bool) {
	steps := max(1, int(degrees/45+0.5))
	step := degrees / float64(steps)
	handle := 4.0 / 3 * math.Tan(step*math.Pi/720)
	for range steps {
		next := w.after(step)
		end := p.at.plus(w.to(step))
		p.curve(p.at.plus(w.ahead.times(handle)), end.minus(next.ahead.times(handle)), end, dashed)
		w = next
	}
}

// straight draws a line with its rotations about the middle.
func (p *pen) straight(rotations []figure.Rotation, length, pitch float64) {
	along := p.project(p.state.Nose)
	begin, done := p.at, 0.0
	first := (length - pitch*float64(len(rotations)-1)) / 2
	for i, r := range rotations {
		to := first + pitch*float64(i)
		p.line(to-done, p.inverted())
		done = to
		p.mark(markOf(r), begin.plus(along.times(to)), along, r.Left)
		p.state = p.state.Roll(r.Signed())
	}
	p.line(length-done, p.inverted())
}

func (p *pen) mark(m mark, at, along point, left bool) {
	m.part = p.part
	p.marks = append(p.marks, m.place(at, along, left, p.flip))
}

// arc draws a part of a loop; where it is rolled at the apex, what was pulled
// is pushed from there, and what was pushed is pulled.
func (p *pen) arc(m *figure.Move, radius, wider float64) {
	w := bow{p.project(p.state.Nose).times(radius), p.project(p.state.Canopy).times(radius + wider)}
	if m.Push {
		w.inward = w.inward.times(-1)
	}
	degrees := float64(m.Degrees)
	if len(m.Rotations) == 0 {
		p.bend(w, degrees, m.Push)
		return
	}
	apex := float64(m.At)
	if apex == 0 {
		apex = degrees / 2
	}
	p.apexMarks(m.Rotations, w, apex, min(apex, degrees-apex), radius)
	p.bend(w, apex, m.Push)
	p.bend(w.after(apex), degrees-apex, pushedAtEnd(m))
}

// apexMarks stands rotations about the apex of an arc that goes on for so many
// degrees on either side.
func (p *pen) apexMarks(rotations []figure.Rotation, w bow, apex, side, radius float64) {
	between := float64(len(rotations) - 1)
	pitch := min(markPitch/radius*180/math.Pi, 2*side/(between+1))
	for i, r := range rotations {
		degrees := apex + pitch*(float64(i)-between/2)
		p.mark(markOf(r), p.at.plus(w.to(degrees)), w.after(degrees).ahead, r.Left)
	}
}
