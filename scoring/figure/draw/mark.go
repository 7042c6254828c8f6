package draw

import (
	"strconv"

	"halfpoint/scoring/figure"
)

// Sizes of marks, in the units of the page.
const (
	markReach = 9.0 // from the line to the tip of a mark
	markTail  = 6.0 // from the line to the end of a mark that crosses it
	markHalf  = 5.5 // half a triangle's length along the line
	markPitch = 15.0
	yawReach  = 9.0
	headLong  = 5.5 // an arrow's head
	headWide  = 2.8 // half its width
	dotRadius = 3.2
	barReach  = 6.0
)

type shape uint8

const (
	rollArrow shape = iota
	openTriangle
	filledTriangle
	openSpin
	filledSpin
	flightHead // which way round a circle is flown
	yawArrow   // to which side a stall turn is flown
)

// A mark stands on a line at a point.
type mark struct {
	shape shape
	at    point
	along point // the way of flight, of length 1
	tip   point // the way across the line to the mark's tip, of length 1
	half  bool  // at most half a turn: only on the tip's side of the line
	label string
	part  int
	room  box // what the mark takes up
}

// markOf is the mark of a rotation, not yet placed.
func markOf(r figure.Rotation) mark {
	m := mark{shape: rollArrow, half: r.Quarters <= 2, label: turnsLabel(r.Quarters)}
	switch {
	case r.Kind == figure.Flick:
		m.shape = openTriangle
	case r.Kind == figure.OutsideFlick:
		m.shape = filledTriangle
	case r.Points > 0:
		m.label = pointsLabel(r.Quarters*r.Points/4, r.Points)
	}
	return m
}

// place stands the mark at a point of a line. A rotation to the right has its
// tip on one side of the line, one to the left on the other.
func (m mark) place(at, along point, left bool, flip float64) mark {
	along = along.unit()
	tip := along.across().times(flip)
	if left {
		tip = tip.times(-1)
	}
	return m.stand(at, along, tip)
}

// stand places the mark with its tip on a given side.
func (m mark) stand(at, along, tip point) mark {
	m.at, m.along, m.tip = at, along, tip
	if m.arrowed() {
		m.room = m.arrow().box()
		return m
	}
	base1, base2, top := m.triangle()
	m.room = emptyBox.around(base1).around(base2).around(top).grow(0.7)
	return m
}

func (m *mark) arrowed() bool { return m.shape == rollArrow || m.shape == yawArrow }

// offset is the point so far along the line and across it.
func (m *mark) offset(along, tip float64) point {
	return m.at.plus(m.along.times(along)).plus(m.tip.times(tip))
}

// triangle are the corners of every other mark. A spin's is square at the top
// of its line.
func (m *mark) triangle() (base1, base2, top point) {
	foot := 0.0
	if !m.half {
		foot = -markTail
	}
	switch m.shape {
	case flightHead:
		return m.offset(-3.5, -3.5), m.offset(-3.5, 3.5), m.offset(4, 0)
	case openSpin, filledSpin:
		return m.offset(-markHalf, 0), m.offset(markHalf, 0), m.offset(-markHalf, markReach+1)
	}
	return m.offset(-markHalf, foot), m.offset(markHalf, foot), m.offset(0, markReach)
}

// An arrow is bowed, from its tail to the foot of its head.
type arrow struct{ tail, bow, foot, tip, left, right point }

// arrow is a roll's mark, from the line for at most half a roll, else across.
func (m *mark) arrow() arrow {
	var a arrow
	if m.shape == yawArrow {
		a.tail, a.bow, a.tip = m.at, m.offset(0, 3), m.offset(0, yawReach)
		return a.headed()
	}
	tail := 0.0
	if !m.half {
		tail = -markTail
	}
	a.tail, a.tip = m.offset(-2, tail), m.offset(-2.5, markReach)
	a.bow = m.offset(4, (tail+markReach)/2+0.5)
	return a.headed()
}

// headed is the arrow with its head.
func (a arrow) headed() arrow {
	into := a.tip.minus(a.bow).unit()
	a.foot = a.tip.minus(into.times(headLong))
	side := into.across().times(headWide)
	a.left, a.right = a.foot.plus(side), a.foot.minus(side)
	return a
}

func (a arrow) box() box {
	middle := halfway(halfway(a.tail, a.foot), a.bow)
	return emptyBox.around(a.tail).around(middle).around(a.tip).around(a.left).around(a.right).grow(0.5)
}

var quartersLabels = [4]string{"", "1/4", "1/2", "3/4"}

// turnsLabel writes turns as a whole number and a fraction.
func turnsLabel(quarters int) string {
	switch whole := quarters / 4; {
	case whole == 0:
		return quartersLabels[quarters]
	case quarters%4 == 0:
		return strconv.Itoa(whole)
	default:
		return strconv.Itoa(whole) + " " + quartersLabels[quarters%4]
	}
}

// pointsLabel writes how many points of how many to a full roll.
func pointsLabel(count, points int) string {
	return strconv.Itoa(count) + "×" + strconv.Itoa(points)
}
