package figure

import (
	"fmt"
	"slices"
)

// DefaultRotationsPerLine is how many rotations may stand on one line or at
// one apex where no limit says otherwise.
const DefaultRotationsPerLine = 2

// A Fault is what is wrong with a figure at one of its moves, counted from 0.
type Fault struct {
	Move int
	Text string
}

// A Trace is what the aeroplane did.
type Trace struct {
	// States holds the state before each move that was followed and, after
	// the last of them, the state it ended in.
	States []State
	// Faults in the order of their moves.
	Faults []Fault
}

// Exit is the attitude in which the figure ended; ok is false where it has a
// fault.
func (t Trace) Exit() (a Attitude, ok bool) {
	if len(t.Faults) > 0 {
		return Attitude{}, false
	}
	return t.States[len(t.States)-1].Attitude()
}

// Follow follows the moves of one figure from level flight. The faults are
// every line and apex with more than rotationsPerLine rotations, and the first
// move that cannot be flown from where it begins, after which the figure is
// not followed further.
func Follow(moves []Move, begin Attitude, rotationsPerLine int) Trace {
	t := Trace{States: make([]State, 1, len(moves)+1)}
	t.States[0] = begin.State()
	fault := followStates(&t, moves)
	t.Faults = crowded(moves, rotationsPerLine)
	if fault.Text != "" {
		t.Faults = append(t.Faults, fault)
		slices.SortStableFunc(t.Faults, func(a, b Fault) int { return a.Move - b.Move })
	}
	return t
}

// followStates adds the states of the moves up to the first fault, which it
// returns.
func followStates(t *Trace, moves []Move) (fault Fault) {
	state := t.States[0]
	lineSum := 0
	for i, m := range moves {
		if m.Kind == Line {
			lineSum += sum(m.Rotations)
			lineEnds := i+1 == len(moves) || moves[i+1].Kind != Line
			if lineEnds && lineSum%2 != 0 && !state.Vertical() {
				return Fault{i, "the rotations on this " + slope(state) + " line do not add up to whole half turns: it would end on knife edge"}
			}
		} else {
			lineSum = 0
		}
		next, wrong := step(state, m)
		if wrong != "" {
			return Fault{i, wrong}
		}
		state = next
		t.States = append(t.States, state)
	}
	if _, level := state.Attitude(); !level {
		return Fault{len(moves) - 1, "the figure ends " + pointing(state) + "; every figure ends level with the wings level"}
	}
	return Fault{}
}

// step is the state after a move, or why it cannot be flown.
func step(s State, m Move) (next State, wrong string) {
	switch m.Kind {
	case Line:
		return s.Roll(sum(m.Rotations)), ""
	case Arc:
		return stepArc(s, m)
	case Turn:
		if _, level := s.Attitude(); !level {
			return s, "a turn begins level with the wings level, not " + pointing(s)
		}
		return s.Roll(2*m.HalfRolls).turn(m.Degrees, m.Left), ""
	case Pivot, Slide:
		return stepFall(s, m)
	case Spin:
		return stepSpin(s, m)
	}
	return s, "not a move"
}

func stepArc(s State, m Move) (State, string) {
	end := s.arc(m.Degrees, m.Push)
	if len(m.Rotations) == 0 {
		return end, ""
	}
	at, known := apexAt(m)
	if !known || !s.arc(at, m.Push).Level() {
		return s, "the rotations at the apex would not be flown level: name with \"at\" how many degrees into the arc it is level"
	}
	quarters := sum(m.Rotations)
	if quarters%2 != 0 {
		return s, "the rotations at the apex do not add up to whole half turns"
	}
	return end.Roll(quarters), ""
}

// apexAt is how many degrees into an arc its apex is; it is not known where
// the middle is no multiple of 45.
func apexAt(m Move) (degrees int, known bool) {
	if m.At != 0 {
		return m.At, true
	}
	return m.Degrees / 2, m.Degrees%90 == 0
}

func stepFall(s State, m Move) (State, string) {
	name, after := "a stall turn", s.pivot()
	if m.Kind == Slide {
		name, after = "a tail slide", s.slide()
	}
	if !s.Vertical() || !s.Up() {
		return s, name + " begins straight up, not " + pointing(s)
	}
	return after, ""
}

func stepSpin(s State, m Move) (State, string) {
	a, level := s.Attitude()
	if !level {
		return s, "a spin begins level with the wings level, not " + pointing(s)
	}
	if a.Inverted != m.Inverted {
		return s, "the spin is written " + attitudeWord(m.Inverted) + " but begins " + attitudeWord(a.Inverted)
	}
	quarters := m.Quarters
	if m.Left { // seen from above, which is the pilot's left with the nose down
		quarters = -quarters
	}
	return s.stall().Roll(quarters), ""
}

// crowded finds every line and apex with too many rotations, at the move with
// the first too many. Lines in a row are one line, and a spin is one rotation
// of the line it ends on.
func crowded(moves []Move, most int) (faults []Fault) {
	if most == 0 {
		most = DefaultRotationsPerLine
	}
	onLine := 0
	for i, m := range moves {
		before, where := 0, "at one apex"
		switch m.Kind {
		case Line:
			before, where = onLine, "on one line"
			onLine += len(m.Rotations)
		case Spin:
			onLine = 1
		default:
			onLine = 0
		}
		if before <= most && before+len(m.Rotations) > most {
			faults = append(faults, Fault{i, fmt.Sprintf("%d rotations %s; at most %d are allowed", before+len(m.Rotations), where, most)})
		}
	}
	return faults
}

func slope(s State) string {
	if s.Level() {
		return "level"
	}
	return "45°"
}

func attitudeWord(inverted bool) string {
	if inverted {
		return "inverted"
	}
	return "upright"
}

// pointing says where a state points, for errors.
func pointing(s State) string {
	switch {
	case s.Vertical() && s.Up():
		return "straight up"
	case s.Vertical():
		return "straight down"
	case s.Up():
		return "45° up"
	case s.Down():
		return "45° down"
	}
	return "level"
}
