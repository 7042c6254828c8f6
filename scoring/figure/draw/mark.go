package draw

import "halfpoint/scoring/figure"

// Sizes of marks, in the units of the page; a figure is about a hundred wide.
const (
	markReach = 7.0 // from the line to the tip of a mark
	markHalf  = 5.0 // half a mark's length along the line
	markPitch = 15.0
	dotRadius = 3.0
	barReach  = 6.0
)

type shape uint8

const (
	rollArrow shape = iota
	openTriangle
	filledTriangle
	openSpin
	filledSpin
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
	m.at, m.along = at, along.unit()
	m.tip = m.along.across().times(flip)
	if left {
		m.tip = m.tip.times(-1)
	}
	return m
}

// corners are the points that bound the mark: the base, or tail, and the tip.
// A spin's is a right-angled triangle, square at the top of its line.
func (m *mark) corners() (base1, base2, tip point) {
	base := m.at
	if m.shape == openSpin || m.shape == filledSpin {
		first, last := base.minus(m.along.times(markHalf)), base.plus(m.along.times(markHalf))
		return first, last, first.plus(m.tip.times(markReach + 2))
	}
	if !m.half {
		base = m.at.minus(m.tip.times(markReach))
	}
	return base.minus(m.along.times(markHalf)), base.plus(m.along.times(markHalf)), m.at.plus(m.tip.times(markReach))
}

func (m *mark) box() box {
	a, b, tip := m.corners()
	if m.shape == rollArrow {
		return emptyBox.around(between(a, b, 0.2)).around(between(a, b, 0.8)).
			around(tip.plus(m.along.times(3))).around(tip.minus(m.along.times(3)))
	}
	return emptyBox.around(a).around(b).around(tip)
}

var turnLabels = [17]string{
	"", "¼", "½", "¾", "1", "1¼", "1½", "1¾", "2", "2¼", "2½", "2¾", "3", "3¼", "3½", "3¾", "4",
}

func turnsLabel(quarters int) string {
	if quarters < 0 || quarters >= len(turnLabels) {
		return ""
	}
	return turnLabels[quarters]
}

var smallNumbers = [33]string{
	"0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "16", "17", "18", "19", "20",
	"21", "22", "23", "24", "25", "26", "27", "28", "29", "30", "31", "32",
}

// pointsLabel writes how many points of how many to a full roll.
func pointsLabel(count, points int) string {
	if count >= len(smallNumbers) || points >= len(smallNumbers) {
		return ""
	}
	return smallNumbers[count] + "×" + smallNumbers[points]
}

// rollsLabel writes the rolls of a turn.
func rollsLabel(halves int) string {
	label := smallNumbers[halves/2]
	switch {
	case halves == 1:
		return "½"
	case halves%2 == 1:
		return label + "½"
	}
	return label
}
