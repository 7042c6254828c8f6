package draw

import "halfpoint/scoring/figure"

// Sizes at the top of a fall and of a spin.
const (
	fallGap    = 16.0 // between the lines up and down
	markedGap  = 6.0  // more for each of them with marks
	pivotBow   = 5.0
	slideSpike = 15.0 // how far an aeroplane slides back before it falls through
	spinCorner = 5.0
	spinLine   = 22.0 // the part of a spin's line that its mark takes up
)

// pivot draws the stall turn as a cap with corners, and on it an arrow up where
// the aeroplane turns away from the reader, down where it turns towards the
// reader; where it turns along the page, the cap leads to that side.
func (p *pen) pivot(m *figure.Move, over float64) {
	top := p.at
	p.curve(top.plus(point{over / 4, -pivotBow}), top.plus(point{over * 3 / 4, -pivotBow}), top.plus(point{over, 0}), false)
	if yaw := yawOf(p.state, m.Left); yaw.Y != 0 {
		way := p.project(yaw)
		arrow := mark{shape: yawArrow, part: p.part}
		p.marks = append(p.marks, arrow.stand(top.plus(point{over / 2, -pivotBow * 0.75}), point{1, 0}, point{way.x, 4.5 * way.y}.unit()))
	}
}

// yawOf is the direction in which a stall turn's nose falls: that of a wing of
// an aeroplane pointing straight up.
func yawOf(s figure.State, left bool) figure.Direction {
	if left {
		return figure.Direction{X: s.Canopy.Y, Y: -s.Canopy.X}
	}
	return figure.Direction{X: -s.Canopy.Y, Y: s.Canopy.X}
}

// slide draws the tail slide: on and back along the line, then a hook to the side
// through which the nose falls, dashed for canopy down.
func (p *pen) slide(m *figure.Move, gap float64) {
	swing := p.project(p.state.Canopy)
	if m.CanopyUp {
		swing = swing.times(-1)
	}
	over := p.side(swing) * gap
	foot := p.at
	p.line(slideSpike, false)
	p.at = foot
	p.curve(foot.plus(point{over / 2, 12}), foot.plus(point{over, -25}), foot.plus(point{over, 0}), !m.CanopyUp)
}

// spin draws the corner from level flight into the vertical and the spin's own
// mark below it.
func (p *pen) spin(m *figure.Move) {
	down := point{0, 1}
	p.bend(bow{p.project(p.state.Nose).times(spinCorner), down.times(spinCorner)}, 90, p.inverted())
	begin := p.at
	end := begin.plus(down.times(spinLine))
	p.pieces = append(p.pieces, piece{a: begin, b: begin, c: end, d: end, part: p.part})
	p.at = end
	mark := mark{shape: openSpin, half: true, label: turnsLabel(m.Quarters)}
	if m.Inverted {
		mark.shape = filledSpin
	}
	p.mark(mark, begin.plus(down.times(spinLine/2)), down, m.Left)
}
