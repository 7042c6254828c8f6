package figure

import "strings"

// A Shape names a figure that is recognised by its moves, in any language.
type Shape string

// The shapes known by name; the empty one is any other figure.
const (
	Loop             Shape = "loop"
	HalfLoopUp       Shape = "half-loop-up"
	HalfLoopDown     Shape = "half-loop-down"
	HalfCuban        Shape = "half-cuban-eight"
	ReverseHalfCuban Shape = "reverse-half-cuban-eight"
	CubanEight       Shape = "cuban-eight"
	SquareLoop       Shape = "square-loop"
	OctagonLoop      Shape = "octagon-loop"
	Hammerhead       Shape = "hammerhead"
	TailSlide        Shape = "tail-slide"
	SpinFigure       Shape = "spin"
	Humpty           Shape = "humpty"
	VerticalS        Shape = "vertical-s"
	HorizontalS      Shape = "horizontal-s"
	Goldfish         Shape = "goldfish"
	Wedge            Shape = "wedge"
	InclinedLine     Shape = "inclined-line"
	VerticalLine     Shape = "vertical-line"
	PlainTurn        Shape = "turn"
	RollingTurn      Shape = "rolling-turn"
	LevelLine        Shape = "level-line"
)

// shapes lists each shape's moves: an arc by its eighths of a loop, p for a
// pivot, s for a slide, x for a spin, t for a turn, - where a line is flown,
// which is left out when it has no rotations.
var shapes = []struct {
	moves string
	shape Shape
}{
	{"8", Loop},
	{"4", HalfLoopUp},
	{"5-1", HalfCuban},
	{"1-5", ReverseHalfCuban},
	{"5-6-1", CubanEight},
	{"2-2-2-2", SquareLoop},
	{"1-1-1-1-1-1-1-1", OctagonLoop},
	{"2-p-2", Hammerhead},
	{"2-s-2", TailSlide},
	{"x-2", SpinFigure},
	{"2-4-2", Humpty},
	{"44", VerticalS},
	{"5-5", HorizontalS},
	{"1-6-1", Goldfish},
	{"2-3-1", Wedge},
	{"1-3-2", Wedge},
	{"1-1", InclinedLine},
	{"2-2", VerticalLine},
	{"t", PlainTurn},
	{"-", LevelLine},
}

// ShapeOf recognises a figure by its moves, rotations and pull or push set
// aside. A figure with a fault has no shape.
func ShapeOf(moves []Move, trace Trace) Shape {
	if len(trace.Faults) > 0 {
		return ""
	}
	var buffer [MaxMoves]byte
	outline := outline(buffer[:0], moves)
	for _, s := range shapes {
		if matches(outline, s.moves) {
			return refine(s.shape, moves, trace)
		}
	}
	return ""
}

// outline writes moves as in shapes. Lines in a row are one line, and a line
// without rotations says nothing.
func outline(b []byte, moves []Move) []byte {
	for _, m := range moves {
		switch m.Kind {
		case Arc:
			b = append(b, byte('0'+m.Degrees/45))
		case Line:
			if len(m.Rotations) > 0 && (len(b) == 0 || b[len(b)-1] != '-') {
				b = append(b, '-')
			}
		case Turn:
			b = append(b, 't')
		case Pivot:
			b = append(b, 'p')
		case Slide:
			b = append(b, 's')
		case Spin:
			b = append(b, 'x')
		}
	}
	return b
}

// matches compares an outline with a shape's moves, whose lines may be missing.
func matches(outline []byte, moves string) bool {
	for i := range len(moves) {
		switch {
		case len(outline) > 0 && outline[0] == moves[i]:
			outline = outline[1:]
		case moves[i] != '-':
			return false
		}
	}
	return len(outline) == 0
}

// refine tells apart shapes with the same moves.
func refine(shape Shape, moves []Move, trace Trace) Shape {
	switch shape {
	case HalfLoopUp:
		for i, m := range moves {
			if m.Kind == Arc && trace.States[i].arc(45, m.Push).Down() {
				return HalfLoopDown
			}
		}
	case VerticalS, CubanEight:
		if bendOneWay(moves, trace) {
			return ""
		}
	case SquareLoop, OctagonLoop:
		if bendBack(moves, trace) {
			return ""
		}
	case PlainTurn:
		for _, m := range moves {
			if m.HalfRolls > 0 {
				return RollingTurn
			}
		}
	}
	return shape
}

// bendOneWay tells whether all arcs go the same way round, as those of an S or an
// eight do not, however they are pulled or pushed.
func bendOneWay(moves []Move, trace Trace) bool {
	return !anyBend(moves, trace, func(before, after Direction) bool { return after != before })
}

// bendBack tells whether an arc goes round against the one before it, as none of a
// loop in corners does. After a quarter roll it does neither that nor the contrary.
func bendBack(moves []Move, trace Trace) bool {
	return anyBend(moves, trace, func(before, after Direction) bool { return after == before.reversed() })
}

// anyBend tells whether something holds of the axes that two arcs in a row go
// round.
func anyBend(moves []Move, trace Trace, holds func(before, after Direction) bool) bool {
	before := Direction{}
	for i, m := range moves {
		if m.Kind != Arc {
			continue
		}
		after := trace.States[i].Nose.cross(trace.States[i].Canopy)
		if m.Push {
			after = after.reversed()
		}
		if before != (Direction{}) && holds(before, after) {
			return true
		}
		before = after
	}
	return false
}

// phrase replaces the first {} of a template.
func phrase(template, text string) string { return strings.Replace(template, "{}", text, 1) }
