package draw

import (
	"slices"

	"halfpoint/scoring/figure"
)

// A leg is a move as it is drawn: lines in a row are one leg.
type leg struct {
	figure.Move
	begin figure.State
	first bool // a level line that is the way in
	last  bool // a level line that is the way out
}

// legs sets out the moves as far as they were followed, with the lines that
// may be left out drawn where the figure could not be read without.
func legs(moves []figure.Move, trace figure.Trace) []leg {
	followed := min(len(moves), len(trace.States)-1)
	list := make([]leg, 0, 2*followed)
	for i := range moves[:followed] {
		m, last := &moves[i], len(list)-1
		if m.Kind == figure.Line && last >= 0 && list[last].Kind == figure.Line {
			list[last].Rotations = slices.Concat(list[last].Rotations, m.Rotations)
			continue
		}
		if last >= 0 && lineBetween(&list[last].Move, m) {
			list = append(list, leg{Move: figure.Move{Kind: figure.Line}, begin: trace.States[i]})
		}
		list = append(list, leg{Move: *m, begin: trace.States[i]})
	}
	if last := len(list) - 1; last >= 0 {
		list[0].first = list[0].levelLine()
		list[last].last = list[last].levelLine()
	}
	return list
}

func (l *leg) levelLine() bool { return l.Kind == figure.Line && l.begin.Level() }

// inside tells a line that is neither the way in nor the way out.
func (l *leg) inside() bool { return l.Kind == figure.Line && !l.first && !l.last }

// lineBetween tells whether a line is drawn between two moves that have none:
// around falls, before a spin, and between two arcs that would look like one.
func lineBetween(a, b *figure.Move) bool {
	switch {
	case a.Kind == figure.Line || b.Kind == figure.Line:
		return false
	case isFall(a.Kind) || isFall(b.Kind) || b.Kind == figure.Spin:
		return true
	}
	return a.Kind == figure.Arc && b.Kind == figure.Arc && pushedAtEnd(a) == b.Push
}

func isFall(k figure.Kind) bool { return k == figure.Pivot || k == figure.Slide }

// pushedAtEnd tells whether an arc is pushed where it ends: an odd number of
// half turns at its apex makes a push of a pull.
func pushedAtEnd(m *figure.Move) bool {
	quarters := 0
	for _, r := range m.Rotations {
		quarters += r.Signed()
	}
	return m.Push != (quarters%4 != 0)
}

// proportion is how long a line without marks is to a radius: long between
// corners, less between parts of loops. It also tells a square and an octagon,
// which come back to where they began.
func proportion(legs []leg) (long float64, ring bool) {
	lines, widest := 0, 0
	for i := range legs {
		switch l := &legs[i]; {
		case l.inside():
			lines++
		case l.Kind == figure.Arc:
			widest = max(widest, l.Degrees)
		}
	}
	switch {
	case widest <= 45 && lines == 7:
		return 2.2, true
	case widest <= 90:
		return 2.6, lines == 3
	}
	return 1.9, false
}
