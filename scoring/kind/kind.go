// Package kind says of which kind a figure is, and by kinds where a pilot's
// points were won and lost over several programmes.
package kind

import (
	"strings"

	"halfpoint/scoring"
	"halfpoint/scoring/document"
	"halfpoint/scoring/figure"
)

// A Kind is what most decides how a figure is flown. Each item is of one.
type Kind string

// The kinds, in the order in which they are told.
const (
	Line        Kind = "line"         // lines and angles without a rotation
	Roll        Kind = "roll"         // the same with rolls
	Turn        Kind = "turn"         // level, without rolls
	RollingTurn Kind = "rolling-turn" //
	StallTurn   Kind = "stall-turn"   //
	Slide       Kind = "slide"        //
	Loop        Kind = "loop"         // loops, parts of them and eights, with rolls or without
	Combination Kind = "combination"  // of loops with lines
	Flick       Kind = "flick"        // any figure with one
	Spin        Kind = "spin"         // any figure with one
	Other       Kind = "other"        // nothing tells
	Mark        Kind = "mark"         // not a figure: positioning, presentation
)

// All are the kinds in their order.
var All = []Kind{Line, Roll, Turn, RollingTurn, StallTurn, Slide, Loop, Combination, Flick, Spin, Other, Mark}

// Of is the kind of an item: by its class where that is not the general one,
// else by its catalogue numbers, else by its moves. A figure with a spin or a
// flick is of that kind whatever else is in it.
func Of(item *scoring.Item) Kind {
	if item.Kind == scoring.Overall {
		return Mark
	}
	switch item.ItemClass() {
	case scoring.Spin:
		return Spin
	case scoring.Flick:
		return Flick
	case scoring.Tailslide:
		return Slide
	case scoring.RollingTurn:
		return RollingTurn
	}
	if found := byNumbers(item.Elements); found != Other {
		return found
	}
	return byMoves(movesOf(item))
}

// families are the kinds of the families of catalogue numbers; from memory.
var families = map[string]Kind{
	"1": Line, "2": Turn, "3": Line, "5": StallTurn, "6": Slide, "7": Loop, "8": Combination,
}

func byNumbers(numbers []string) Kind {
	found, rolls := Other, false
	for _, number := range numbers {
		family, _, _ := strings.Cut(number, ".")
		if of, known := families[family]; known && found == Other {
			found = of
		}
		rolls = rolls || family == "9"
	}
	return rolled(found, rolls)
}

// rolled is a line's kind with rolls on it: the rolls are what is flown.
func rolled(found Kind, rolls bool) Kind {
	if found == Line && rolls {
		return Roll
	}
	return found
}

// movesOf reads the moves of an item; what cannot be read is none.
func movesOf(item *scoring.Item) []figure.Move {
	if len(item.Moves) == 0 {
		return nil
	}
	var report document.Report
	value, ok := document.Parse(item.Moves, &report)
	if !ok {
		return nil
	}
	moves := figure.ReadMoves(value)
	if report.Err() != nil {
		return nil
	}
	return moves
}

func byMoves(moves []figure.Move) Kind {
	if len(moves) == 0 {
		return Other
	}
	rolls, arcs := false, []int{}
	for _, m := range moves {
		switch {
		case m.Kind == figure.Spin:
			return Spin
		case flicks(m.Rotations):
			return Flick
		case m.Kind == figure.Arc:
			arcs = append(arcs, m.Degrees)
		}
		rolls = rolls || len(m.Rotations) > 0
	}
	if found := byTurning(moves); found != Other {
		return found
	}
	return rolled(byArcs(arcs), rolls)
}

func flicks(rotations []figure.Rotation) bool {
	for _, r := range rotations {
		if r.Kind != figure.Roll {
			return true
		}
	}
	return false
}

// byTurning tells figures by the one move that is in no other.
func byTurning(moves []figure.Move) Kind {
	for _, m := range moves {
		switch {
		case m.Kind == figure.Slide:
			return Slide
		case m.Kind == figure.Pivot:
			return StallTurn
		case m.Kind == figure.Turn && m.HalfRolls > 0:
			return RollingTurn
		case m.Kind == figure.Turn:
			return Turn
		}
	}
	return Other
}

// byArcs tells a loop, whose arcs are half ones and more or corners that go all
// the way round, from lines joined by corners and from both together.
func byArcs(arcs []int) Kind {
	large, corners, round := 0, 0, 0
	for _, degrees := range arcs {
		round += degrees
		if degrees >= 180 {
			large++
		} else {
			corners++
		}
	}
	switch {
	case large > 0 && corners > 0:
		return Combination
	case large > 0 || round >= 360:
		return Loop
	}
	return Line
}
