package draw

import (
	"math"

	"halfpoint/scoring/figure"
)

// Lengths in the units of the page.
const (
	radius     = 15.0 // of every loop in a figure
	turnRadius = 28.0
	spinCorner = 5.0
	shortLine  = 13.0 // a line without marks where many have to fit
	plainLine  = 22.0 // a line without marks
	bareWay    = 21.0 // the ways in and out
)

// A pen draws moves from where it stands.
type pen struct {
	plan
	at     point
	state  figure.State
	flip   float64 // 1, or -1 for the mirror image
	style  styling
	part   int
	toward float64 // the side of the page, 1 or -1, to which the figure leaves
}

// project lays a direction of flight on the page. The axis across the box goes
// obliquely up.
func (p *pen) project(d figure.Direction) point {
	x, y, z := float64(d.X), float64(d.Y), float64(d.Z)
	f := 1 / math.Sqrt(x*x+y*y+z*z)
	return point{p.flip * f * (x + 0.52*y), f * (-0.36*y - z)}
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

// bend draws a piece of a circle of the given radius through degrees, from the
// way ahead towards the way inward, both at a right angle to each other.
func (p *pen) bend(ahead, inward point, radius, degrees float64, dashed bool) {
	steps := max(1, int(degrees/45+0.5))
	step := degrees / float64(steps) * math.Pi / 180
	handle := 4.0 / 3 * math.Tan(step/4) * radius
	sin, cos := math.Sincos(step)
	for range steps {
		endAhead := ahead.times(cos).plus(inward.times(sin))
		endInward := inward.times(cos).minus(ahead.times(sin))
		end := p.at.plus(ahead.times(radius * sin)).plus(inward.times(radius * (1 - cos)))
		p.curve(p.at.plus(ahead.times(handle)), end.minus(endAhead.times(handle)), end, dashed)
		ahead, inward = endAhead, endInward
	}
}

// wayIn draws the level flight before the first move, wayOut that after the
// last.
func (p *pen) wayIn(longer float64) {
	p.part = -1
	p.start = p.at
	p.line(bareWay+longer, p.inverted())
}

func (p *pen) wayOut(longer float64) {
	p.part = -2
	p.line(bareWay+longer, p.inverted())
}

// straight draws a line with its rotations about the middle.
func (p *pen) straight(rotations []figure.Rotation, length, shift float64) {
	along := p.project(p.state.Nose)
	begin, done := p.at, 0.0
	first := length/2 + shift - markPitch*float64(len(rotations)-1)/2
	for i, r := range rotations {
		to := first + markPitch*float64(i)
		p.line(to-done, p.inverted())
		done = to
		m := markOf(r).place(begin.plus(along.times(to)), along, r.Left, p.flip)
		m.part = p.part
		p.marks = append(p.marks, m)
		p.state = p.state.Roll(r.Signed())
	}
	p.line(length-done, p.inverted())
}

// arc draws a part of a loop; where it is rolled at the apex, what was pulled
// is pushed from there, and what was pushed is pulled.
func (p *pen) arc(m figure.Move) {
	ahead, inward := p.project(p.state.Nose), p.project(p.state.Canopy)
	if m.Push {
		inward = inward.times(-1)
	}
	push := m.Push
	degrees := float64(m.Degrees)
	if len(m.Rotations) == 0 {
		p.bend(ahead, inward, radius, degrees, push)
		return
	}
	apex := float64(m.At)
	if apex == 0 {
		apex = degrees / 2
	}
	begin := p.at
	quarters := 0
	most := 2 * min(apex, degrees-apex) * math.Pi / 180 / float64(len(m.Rotations))
	pitch := min(markPitch/radius, most)
	for i, r := range m.Rotations {
		angle := (float64(i) - float64(len(m.Rotations)-1)/2) * pitch
		sin, cos := math.Sincos(apex*math.Pi/180 + angle)
		at := begin.plus(ahead.times(radius * sin)).plus(inward.times(radius * (1 - cos)))
		mark := markOf(r).place(at, ahead.times(cos).plus(inward.times(sin)), r.Left, p.flip)
		mark.part = p.part
		p.marks = append(p.marks, mark)
		quarters += r.Signed()
	}
	p.bend(ahead, inward, radius, apex, push)
	sin, cos := math.Sincos(apex * math.Pi / 180)
	ahead, inward = ahead.times(cos).plus(inward.times(sin)), inward.times(cos).minus(ahead.times(sin))
	if quarters%4 != 0 {
		push = !push
	}
	p.bend(ahead, inward, radius, degrees-apex, push)
}

// turn draws a level turn as the judges see it, from a little above, with an
// arrow for each roll: its tip inside the turn for one inward.
func (p *pen) turn(m figure.Move) {
	ahead, inward := p.project(p.state.Nose), p.project(leftOf(p.state.Nose))
	if !m.Left {
		inward = inward.times(-1)
	}
	begin, degrees := p.at, float64(m.Degrees)
	p.turnMarks(m, begin, ahead, inward)
	dashed := p.inverted()
	if m.HalfRolls%2 == 0 {
		p.bend(ahead, inward, turnRadius, degrees, dashed)
		return
	}
	half := degrees / 2 * math.Pi / 180
	sin, cos := math.Sincos(half)
	p.bend(ahead, inward, turnRadius, degrees/2, dashed)
	p.bend(ahead.times(cos).plus(inward.times(sin)), inward.times(cos).minus(ahead.times(sin)), turnRadius, degrees/2, !dashed)
}

func leftOf(nose figure.Direction) figure.Direction {
	return figure.Direction{X: -nose.Y, Y: nose.X}
}

// turnMarks stands the arrows along a turn, as many as there is room for, and
// the number of rolls at the middle one.
func (p *pen) turnMarks(m figure.Move, begin, ahead, inward point) {
	if m.HalfRolls == 0 {
		return
	}
	count := (m.HalfRolls + 1) / 2
	angle := float64(m.Degrees) * math.Pi / 180
	if room := int(angle * turnRadius / (markPitch + 3)); count > room {
		count = max(1, room)
		if m.Alternate {
			count = min(2, max(2, room))
		}
	}
	for i := range count {
		sin, cos := math.Sincos(angle * (float64(i) + 0.5) / float64(count))
		at := begin.plus(ahead.times(turnRadius * sin)).plus(inward.times(turnRadius * (1 - cos)))
		mark := mark{shape: rollArrow, at: at, part: p.part}
		mark.half = m.HalfRolls%2 == 1 && i == count-1
		mark.along = ahead.times(cos).plus(inward.times(sin)).unit()
		mark.tip = mark.along.across()
		toCentre := inward.times(cos).minus(ahead.times(sin))
		if inside := mark.tip.dot(toCentre) > 0; inside != (m.Inward != (m.Alternate && i%2 == 1)) {
			mark.tip = mark.tip.times(-1)
		}
		if i == count/2 {
			mark.label = rollsLabel(m.HalfRolls)
		}
		p.marks = append(p.marks, mark)
	}
}

// pivot draws the stall turn as a narrow cap, towards the side to which the
// figure leaves so that no line crosses another. A tick tells the side of the
// yaw.
func (p *pen) pivot(m figure.Move, gap float64) {
	top := p.at
	lift, over := point{0, -4}, point{p.toward * gap, 0}
	p.curve(top.plus(lift), top.plus(lift).plus(over), top.plus(over), false)
	wing := p.project(rightOf(p.state))
	if m.Left {
		wing = wing.times(-1)
	}
	tick := top.plus(over.times(0.5)).plus(lift.times(0.75))
	p.pieces = append(p.pieces, piece{a: tick, b: tick, c: tick.plus(wing.unit().times(5)), d: tick.plus(wing.unit().times(5)), part: p.part})
}

// rightOf is the direction of the right wing of an aeroplane pointing straight
// up.
func rightOf(s figure.State) figure.Direction {
	return figure.Direction{X: -s.Canopy.Y, Y: s.Canopy.X}
}

// slide draws the tail slide as a hook to the side through which the nose
// falls, dashed for canopy down.
func (p *pen) slide(m figure.Move, gap float64) {
	swing := p.project(p.state.Canopy)
	if m.CanopyUp {
		swing = swing.times(-1)
	}
	over := side(swing, p.flip) * gap
	top := p.at
	p.curve(top.plus(point{0, 12}), top.plus(point{over, -14}), top.plus(point{over, 6}), !m.CanopyUp)
}

// spin draws the corner from level flight into the vertical and the spin's own
// mark below it.
func (p *pen) spin(m figure.Move) {
	ahead, down := p.project(p.state.Nose), point{0, 1}
	p.bend(ahead, down, spinCorner, 90, p.inverted())
	const length = 20.0
	begin := p.at
	end := begin.plus(down.times(length))
	p.pieces = append(p.pieces, piece{a: begin, b: begin, c: end, d: end, part: p.part})
	p.at = end
	mark := mark{shape: openSpin, label: turnsLabel(m.Quarters), part: p.part}.
		place(begin.plus(down.times(length/2)), down, m.Left, p.flip)
	if m.Inverted {
		mark.shape = filledSpin
	}
	p.marks = append(p.marks, mark)
}
