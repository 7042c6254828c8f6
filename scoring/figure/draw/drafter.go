package draw

import (
	"slices"

	"halfpoint/scoring/figure"
)

// A drafter draws one figure in different sizes and lengths, until it fits and
// nothing lies on top of anything else.
type drafter struct {
	view
	legs    []leg
	states  []figure.State
	whole   bool    // followed to its end
	long    float64 // a line without marks, in radii
	ring    bool    // whether it comes back to where it began
	marked  float64 // how long the longest line with marks has to be
	crossed bool    // whether lines with marks cross beside three quarters of a loop
	radius  float64
	// changes of each leg from what it is at first, of the way in and of the
	// way out: how much longer a line is, how much wider a half loop over the
	// top or through the bottom, that a stall turn falls to the other side
	changes []float64
	spare   plan // to be drawn over
	tries   int  // how often it may still be drawn to see whether it is better
	later   int  // how often with the radii to come
}

func newDrafter(s Subject, wind Wind) *drafter {
	trace := figure.Follow(s.Moves, s.Entry, figure.MaxRotations*figure.MaxMoves)
	d := drafter{states: trace.States, legs: legs(s.Moves, trace), tries: 150}
	d.view = view{1, fromTheSide}
	if wind == FromLeft {
		d.flip = -1
	}
	if slices.ContainsFunc(d.legs, func(l leg) bool { return l.Kind == figure.Turn }) {
		d.away = fromAbove
	}
	_, d.whole = d.final().Attitude()
	d.long, d.ring = proportion(d.legs)
	for i := range d.legs {
		if l := &d.legs[i]; l.inside() {
			d.marked = max(d.marked, d.needed(l))
			d.crossed = d.crossed || len(l.Rotations) > 0 && (d.threeQuarters(i-1) || d.threeQuarters(i+1))
		}
	}
	d.changes = make([]float64, len(d.legs)+2)
	return &d
}

func (d *drafter) final() figure.State { return d.states[len(d.states)-1] }

// threeQuarters tells whether a leg is three quarters of a loop.
func (d *drafter) threeQuarters(i int) bool {
	return i >= 0 && i < len(d.legs) && d.legs[i].Kind == figure.Arc && d.legs[i].Degrees == 270
}

// pitch is how far apart the marks of a line stand: so far that their labels
// do not lie on each other.
func (d *drafter) pitch(l *leg) float64 {
	along := d.project(l.begin.Nose).unit()
	widest := 0.0
	for i := 1; i < len(l.Rotations); i++ {
		if a, b := l.Rotations[i-1], l.Rotations[i]; a.Left == b.Left {
			widest = max(widest, (textWidth(markOf(a).label)+textWidth(markOf(b).label))/2+6)
		}
	}
	beside, below := widest/max(abs(along.x), 1e-3), (digitHeight+3)/max(abs(along.y), 1e-3)
	return max(markPitch, min(beside, below))
}

// needed is how long a line has to be for its marks.
func (d *drafter) needed(l *leg) float64 {
	if len(l.Rotations) == 0 {
		return 0
	}
	return 26 + d.pitch(l)*float64(len(l.Rotations)-1)
}

// length is how long a line is drawn: all inside the figure as long as the one
// with the most marks.
func (d *drafter) length(i int) float64 {
	l := &d.legs[i]
	needed := d.needed(l)
	switch {
	case len(d.legs) == 1:
		return max(needed, 76)
	case l.first || l.last:
		return max(needed+6, d.bare()) + d.changes[i]
	}
	length := max(d.long*d.radius, d.marked)
	if d.crossed { // a radius from the loop; the marks stay off it
		length = max(length, 2*d.radius+d.marked)
	}
	if i > 0 && d.legs[i-1].Kind == figure.Spin {
		length = max(needed, length-spinLine)
	}
	return max(needed, length+d.changes[i], 6)
}

// bare is how long the ways in and out are without marks: those of a ring on one
// side of it.
func (d *drafter) bare() float64 {
	if d.ring {
		return max(d.long*d.radius, d.marked)/2 - 4.5
	}
	return min(max(15, d.radius+3), 25)
}

// gap is how far apart the lines up and down of a fall are: far enough for the
// marks on both.
func (d *drafter) gap(i int) float64 {
	gap := fallGap
	for _, j := range []int{i - 1, i + 1} {
		if j >= 0 && j < len(d.legs) && len(d.legs[j].Rotations) > 0 {
			gap += markedGap
		}
	}
	return gap
}

func (d *drafter) draw() plan {
	p := pen{view: d.view, state: d.states[0]}
	p.pieces, p.marks = d.spare.pieces[:0], d.spare.marks[:0]
	if p.pieces == nil {
		p.pieces, p.marks = make([]piece, 0, 6*len(d.legs)+4), make([]mark, 0, 8)
	}
	n := len(d.legs)
	if n == 0 || !d.legs[0].first {
		p.line(d.bare()+d.changes[n], p.inverted())
	}
	for i := range d.legs {
		p.part = i + 1
		d.leg(&p, i)
	}
	p.state = d.final()
	if p.whole = d.whole; p.whole && (n == 0 || !d.legs[n-1].last) {
		p.part = n + 1
		p.line(d.bare()+d.changes[n+1], p.inverted())
	}
	p.end = p.at
	return p.plan
}

func (d *drafter) leg(p *pen, i int) {
	l := &d.legs[i]
	p.state = l.begin
	switch l.Kind {
	case figure.Line:
		p.straight(l.Rotations, d.length(i), d.pitch(l))
	case figure.Arc:
		p.arc(&l.Move, d.radius, d.changes[i])
	case figure.Turn:
		p.turn(&l.Move, d.turnRadius(l))
	case figure.Pivot:
		p.pivot(&l.Move, d.gap(i)*d.pivotSide(i))
	case figure.Slide:
		p.slide(&l.Move, d.gap(i))
	case figure.Spin:
		p.spin(&l.Move)
	}
}

func (d *drafter) turnRadius(l *leg) float64 {
	if l.HalfRolls > 0 {
		return 1.6 * d.radius
	}
	return 1.2 * d.radius
}

// pivotSide is the side of the page to which a stall turn falls: that of the
// yaw, where it is along the page, or that to which the figure leaves, or the
// other.
func (d *drafter) pivotSide(i int) float64 {
	l := &d.legs[i]
	if yaw := yawOf(l.begin, l.Left); yaw.Y == 0 {
		return d.side(d.project(yaw))
	}
	side := d.side(d.project(d.final().Nose))
	if d.changes[i] != 0 {
		return -side
	}
	return side
}

// side is the side of the page that a way leads to, 1 for the right; straight
// up or down leads to the side ahead.
func (v *view) side(way point) float64 {
	switch {
	case way.x > 1e-6:
		return 1
	case way.x < -1e-6:
		return -1
	}
	return v.flip
}
