package draw

import "halfpoint/scoring/figure"

// A leg is a move as it is drawn: lines in a row are one leg.
type leg struct {
	figure.Move
	begin figure.State
	level bool // a line flown level
	first bool // a line that is the way in
	last  bool // a line that is the way out
}

// legs sets out the moves as far as they were followed, with the lines that
// may be left out before and after a fall drawn nevertheless.
func legs(moves []figure.Move, trace figure.Trace) []leg {
	followed := min(len(moves), len(trace.States)-1)
	list := make([]leg, 0, followed+4)
	for i, m := range moves[:followed] {
		begin := trace.States[i]
		fall := m.Kind == figure.Pivot || m.Kind == figure.Slide
		before := len(list) - 1
		switch {
		case m.Kind == figure.Line && before >= 0 && list[before].Kind == figure.Line:
			list[before].Rotations = append(list[before].Rotations[:len(list[before].Rotations):len(list[before].Rotations)], m.Rotations...)
			continue
		case fall && (before < 0 || list[before].Kind != figure.Line),
			m.Kind != figure.Line && before >= 0 && isFall(list[before].Kind):
			list = append(list, leg{Move: figure.Move{Kind: figure.Line}, begin: begin})
		}
		list = append(list, leg{Move: m, begin: begin})
	}
	for i := range list {
		l := &list[i]
		l.level = l.Kind == figure.Line && l.begin.Level()
		l.first = l.level && i == 0
		l.last = l.level && i == len(list)-1
	}
	return list
}

func isFall(k figure.Kind) bool { return k == figure.Pivot || k == figure.Slide }

// marked is how long a line with so many marks is at least.
func marked(n int) float64 {
	if n == 0 {
		return shortLine
	}
	return shortLine + markPitch*float64(n)
}

// inner is how long the lines inside the figure are drawn: all as long as the
// one with the most marks, and short only where many have to fit.
func inner(legs []leg) float64 {
	most, lines, falls := 0, 0, false
	for i := range legs {
		l := &legs[i]
		falls = falls || isFall(l.Kind)
		if l.Kind == figure.Line && !l.first && !l.last {
			lines++
			most = max(most, len(l.Rotations))
		}
	}
	if most == 0 && (falls || lines <= 3) {
		return plainLine
	}
	return marked(most)
}

// lastSlope is the last line inside the figure that is not level, -1 for none:
// its length decides how high the figure ends.
func lastSlope(legs []leg) int {
	for i := len(legs) - 1; i >= 0; i-- {
		if legs[i].Kind == figure.Line && !legs[i].level {
			return i
		}
	}
	return -1
}
