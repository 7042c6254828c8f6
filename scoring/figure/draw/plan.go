package draw

import (
	"math"
	"slices"

	"halfpoint/scoring/figure"
)

// A plan is a figure's lines and marks on the page.
type plan struct {
	pieces []piece
	marks  []mark
	start  point // the dot
	end    point // the bar, or the cross of a figure that was not followed to its end
	out    point // the way of flight there
	whole  bool
}

// styling is what may be chosen so that nothing lies on top of anything else.
type styling struct {
	longer float64                      // how much longer than needed the lines inside the figure are, and the way in where there is no slope
	slope  float64                      // how much longer yet the last slope is, or the way out where there is none
	shifts [figure.MaxMoves + 2]float64 // of each leg's marks along their line
}

// Tried in turn until nothing overlaps: other ends of the figure, then longer
// lines.
var (
	slopes  = [...]float64{0, 9, -9, 18, 27}
	lengths = [...]float64{0, 16, 32}
)

// lay sets a figure out on the page.
func lay(s Subject, wind Wind) plan {
	trace := figure.Follow(s.Moves, s.Entry, figure.MaxRotations*figure.MaxMoves)
	legs := legs(s.Moves, trace)
	flip := 1.0
	if wind == FromLeft {
		flip = -1
	}
	pivots := slices.ContainsFunc(legs, func(l leg) bool { return l.Kind == figure.Pivot })
	d := drafter{pivots: pivots, legs: legs, trace: trace, flip: flip, slope: lastSlope(legs), inner: inner(legs)}
	var best plan
	bestCost := math.Inf(1)
	for _, longer := range lengths {
		for _, slope := range slopes {
			if d.pivots { // the line down is on the side of the way out: better above the way in
				slope = -slope
			}
			p, cost := d.try(styling{longer: longer, slope: max(slope, 4-d.inner)})
			if cost < bestCost {
				best, bestCost = p, cost
				d.spare = plan{}
			} else {
				d.spare = p
			}
			if cost == 0 || best.crowded() {
				break
			}
		}
		if bestCost == 0 || best.crowded() {
			break
		}
	}
	return best
}

// crowded tells that there is more than any figure that is flown has: it is
// drawn as it comes and without labels, so that the work stays bounded.
func (p *plan) crowded() bool { return len(p.marks) > 32 || len(p.pieces) > 256 }

// A drafter draws one figure in different stylings.
type drafter struct {
	legs   []leg
	trace  figure.Trace
	flip   float64
	slope  int     // the leg whose length is chosen, -1 for none
	pivots bool    // whether there is a stall turn
	inner  float64 // how long the lines inside the figure are
	spare  plan    // to be drawn over
}

// try draws the figure, moves marks along their lines where something crosses
// there, and counts what still lies on top of something else.
func (d *drafter) try(style styling) (plan, float64) {
	p := d.draw(style, d.spare)
	if p.crowded() {
		return p, 0
	}
	if shift(&p, d.legs, &style) {
		p = d.draw(style, p)
	}
	if d.slope < 0 { // only the way out can be chosen
		return p, endsOverlap(&p)
	}
	return p, overlaps(&p)
}

func (d *drafter) draw(style styling, over plan) plan {
	p := pen{flip: d.flip, style: style, state: d.trace.States[0]}
	p.pieces, p.marks = over.pieces[:0], over.marks[:0]
	if p.pieces == nil {
		p.pieces, p.marks = make([]piece, 0, 6*len(d.legs)+4), make([]mark, 0, 8)
	}
	final := d.trace.States[len(d.trace.States)-1]
	_, p.whole = final.Attitude()
	in, out := 0.0, 0.0
	if d.slope < 0 {
		in, out = style.longer, max(0, style.slope)
	}
	p.toward = side(p.project(final.Nose), d.flip)
	if len(d.legs) == 0 || !d.legs[0].first {
		p.wayIn(in)
	}
	for i := range d.legs {
		p.part = i
		p.leg(d, i)
	}
	if p.whole && (len(d.legs) == 0 || !d.legs[len(d.legs)-1].last) {
		p.wayOut(out)
	}
	p.end, p.out = p.at, p.project(p.state.Nose).unit()
	return p.plan
}

// side is the side of the page that a way leads to, 1 for the right; straight
// up or down leads to the side ahead.
func side(way point, flip float64) float64 {
	if math.Abs(way.x) < 1e-6 {
		return flip
	}
	return math.Copysign(1, way.x)
}

func (p *pen) leg(d *drafter, i int) {
	l := &d.legs[i]
	p.state = l.begin
	switch l.Kind {
	case figure.Line:
		p.straight(l.Rotations, d.length(p, i), p.style.shifts[i])
	case figure.Arc:
		p.arc(l.Move)
	case figure.Turn:
		p.turn(l.Move)
	case figure.Pivot:
		p.pivot(l.Move, d.gap(i))
	case figure.Slide:
		p.slide(l.Move, d.gap(i))
	case figure.Spin:
		p.spin(l.Move)
	}
	if i+1 < len(d.legs) {
		p.state = d.legs[i+1].begin
	} else {
		p.state = d.trace.States[len(d.trace.States)-1]
	}
}

// length is how long a line is drawn.
func (d *drafter) length(p *pen, i int) float64 {
	l := &d.legs[i]
	if l.first || l.last {
		if len(l.Rotations) == 0 && len(d.legs) > 1 {
			return bareWay
		}
		return max(2*bareWay, marked(len(l.Rotations))+bareWay)
	}
	length := d.inner + p.style.longer
	if i == d.slope {
		length += p.style.slope
	}
	return length
}

// gap is how far apart the lines up and down of a fall are: far enough for the
// marks on both.
func (d *drafter) gap(i int) float64 {
	gap := 8.0
	for _, j := range []int{i - 1, i + 1} {
		if j >= 0 && j < len(d.legs) && len(d.legs[j].Rotations) > 0 {
			gap += 7
		}
	}
	return gap
}
