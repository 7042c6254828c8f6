package draw

import (
	"math/rand/v2"
	"slices"

	"halfpoint/scoring/figure"
)

// randomFigure strings together moves that can be flown one after the other,
// with rotations as a line of a programme has.
func randomFigure(r *rand.Rand) Subject {
	s := Subject{Entry: figure.Attitude{Inverted: r.IntN(2) == 0, Heading: 90 * r.IntN(4)}}
	for tries := 0; tries < 40 && len(s.Moves) < 1+r.IntN(9); tries++ {
		longer := append(slices.Clone(s.Moves), randomMove(r))
		if len(figure.Follow(longer, s.Entry, 0).States) > len(longer) {
			s.Moves = longer
		}
	}
	return s
}

func randomMove(r *rand.Rand) figure.Move {
	side := r.IntN(2) == 0
	switch r.IntN(8) {
	case 0:
		return figure.Move{Kind: figure.Turn, Degrees: 90 * (1 + r.IntN(4)), Left: side, HalfRolls: r.IntN(9), Inward: r.IntN(2) == 0, Alternate: r.IntN(2) == 0}
	case 1:
		return figure.Move{Kind: figure.Pivot, Left: side}
	case 2:
		return figure.Move{Kind: figure.Slide, CanopyUp: side}
	case 3:
		return figure.Move{Kind: figure.Spin, Quarters: 1 + r.IntN(8), Left: side, Inverted: r.IntN(2) == 0}
	case 4, 5:
		return figure.Move{Kind: figure.Line, Rotations: randomRotations(r)}
	}
	return figure.Move{Kind: figure.Arc, Degrees: 45 * (1 + r.IntN(8)), Push: side}
}

func randomRotations(r *rand.Rand) (list []figure.Rotation) {
	for range r.IntN(figure.DefaultRotationsPerLine + 1) {
		kind := []figure.RotationKind{figure.Roll, figure.Roll, figure.Flick, figure.OutsideFlick}[r.IntN(4)]
		list = append(list, figure.Rotation{Kind: kind, Quarters: 1 + r.IntN(8), Left: r.IntN(2) == 0})
	}
	return list
}
