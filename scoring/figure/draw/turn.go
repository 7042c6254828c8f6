package draw

import (
	"math"

	"halfpoint/scoring/figure"
)

// turn draws a level turn as it is seen from a little above, with an arrow for
// each roll: its tip inside the turn for one inward.
func (p *pen) turn(m *figure.Move, radius float64) {
	w := bow{p.project(p.state.Nose).times(radius), p.project(leftOf(p.state.Nose)).times(radius)}
	if !m.Left {
		w.inward = w.inward.times(-1)
	}
	degrees, dashed := float64(m.Degrees), p.inverted()
	p.rolls(m, w, radius)
	if m.HalfRolls%2 == 0 {
		p.bend(w, degrees, dashed)
		return
	}
	p.bend(w, degrees/2, dashed)
	p.bend(w.after(degrees/2), degrees/2, !dashed)
}

func leftOf(nose figure.Direction) figure.Direction {
	return figure.Direction{X: -nose.Y, Y: nose.X}
}

// rolls stands the arrows along a turn, as many as there is room for, the
// number of rolls at the middle one, and on a full circle a head that tells
// which way round it is flown.
func (p *pen) rolls(m *figure.Move, w bow, radius float64) {
	room := int(float64(m.Degrees) * math.Pi / 180 * radius / (markPitch + 3))
	count := min((m.HalfRolls+1)/2, max(1, room))
	for i := range count {
		mark := mark{shape: rollArrow, part: p.part, half: m.HalfRolls%2 == 1 && i == count-1}
		if i == count/2 {
			mark.label = turnsLabel(2 * m.HalfRolls)
		}
		at := alongTurn(m.Degrees, float64(i), count)
		along := w.after(at).ahead.unit()
		inside := along.across()
		if inside.dot(w.after(at).inward) < 0 {
			inside = inside.times(-1)
		}
		if m.Inward == (m.Alternate && i%2 == 1) {
			inside = inside.times(-1)
		}
		p.marks = append(p.marks, mark.stand(p.at.plus(w.to(at)), along, inside))
	}
	if m.Degrees == 360 {
		at := headAt(count)
		p.mark(mark{shape: flightHead}, p.at.plus(w.to(at)), w.after(at).ahead, false)
	}
}

// alongTurn is how many degrees into a turn the i-th of so many marks stands:
// evenly, and on a full circle away from the level flight that touches it.
func alongTurn(degrees int, i float64, count int) float64 {
	n := float64(count)
	fromMiddle := (i+0.5)/n - 0.5
	if most := 0.5 - 0.5/n; degrees == 360 && most > 0.3 {
		fromMiddle *= 0.3 / most
	}
	return float64(degrees) * (0.5 + fromMiddle)
}

// headAt is where on a full circle with so many marks the head stands, between
// two of them.
func headAt(count int) float64 {
	switch count {
	case 0:
		return 180
	case 1:
		return 90
	}
	return alongTurn(360, float64(count/2)-0.5, count)
}
