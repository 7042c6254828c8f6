package figure

import (
	"slices"
	"strings"

	"halfpoint/scoring/document"
)

// What one figure may hold at most; more is an error of input.
const (
	MaxMoves     = 64
	MaxRotations = 8 // in one list
)

// moveForm says how a kind of move is written: the field that names it, the
// fields beside it, and how they are read.
type moveForm struct {
	name   string
	fields []string
	read   func(o document.Object, named document.Value) Move
}

var moveForms = []moveForm{
	{"line", nil, readLine},
	{"arc", []string{"push", "apex", "at"}, readArc},
	{"turn", []string{"left", "rolls", "inward", "alternate"}, readTurn},
	{"pivot", []string{"left"}, readPivot},
	{"slide", nil, readSlide},
	{"spin", []string{"inverted", "left"}, readSpin},
}

// known lists the fields a move of this form may have.
func (f moveForm) known() []string { return append([]string{f.name}, f.fields...) }

// ReadMoves reads the moves of a figure. Whatever is wrong is a complaint at
// its place, after which the moves are not to be followed.
func ReadMoves(v document.Value) []Move {
	list, ok := v.List()
	if !ok || len(list) == 0 {
		return nil
	}
	if len(list) > MaxMoves {
		v.Complain("%d moves; a figure has at most %d", len(list), MaxMoves)
		return nil
	}
	moves := make([]Move, len(list))
	for i, one := range list {
		moves[i] = readMove(one)
	}
	return moves
}

func readMove(v document.Value) Move {
	o, ok := v.AnyObject()
	if !ok {
		return Move{}
	}
	var named, known []string
	var form moveForm
	for _, f := range moveForms {
		known = append(known, f.known()...)
		if _, there := o.Optional(f.name); there {
			named, form = append(named, f.name), f
		}
	}
	if len(named) == 1 {
		o, _ = v.Object(form.known()...)
		value, _ := o.Optional(form.name)
		return form.read(o, value)
	}
	slices.Sort(known)
	v.Object(slices.Compact(known)...)
	if len(named) == 0 {
		v.Complain("names no move; a move names exactly one of line, arc, turn, pivot, slide, spin")
	} else {
		v.Complain("names %s; a move names exactly one", strings.Join(named, " and "))
	}
	return Move{}
}

func readLine(_ document.Object, named document.Value) Move {
	return Move{Kind: Line, Rotations: readRotations(named)}
}

func readArc(o document.Object, named document.Value) Move {
	m := Move{Kind: Arc, Push: readFlag(o, "push")}
	m.Degrees = readStep(named, 45, 45, 360)
	if apex, there := o.Optional("apex"); there {
		m.Rotations = readRotations(apex)
	}
	if at, there := o.Optional("at"); there {
		last := 315
		if m.Degrees != 0 {
			last = m.Degrees - 45
		}
		if last == 0 {
			at.Complain("an arc of 45 has no multiple of 45 inside it")
			return m
		}
		m.At = readStep(at, 45, 45, last)
	}
	return m
}

func readTurn(o document.Object, named document.Value) Move {
	m := Move{
		Kind: Turn, Left: readFlag(o, "left"),
		Inward: readFlag(o, "inward"), Alternate: readFlag(o, "alternate"),
	}
	m.Degrees = readStep(named, 90, 90, 360)
	if rolls, there := o.Optional("rolls"); there {
		m.HalfRolls, _ = readShare(rolls, 2, 0, 8)
	}
	return m
}

func readPivot(o document.Object, named document.Value) Move {
	if yes, ok := named.Bool(); ok && !yes {
		named.Complain("false where only true is known; leave the move out instead")
	}
	return Move{Kind: Pivot, Left: readFlag(o, "left")}
}

func readSlide(_ document.Object, named document.Value) Move {
	text, ok := named.Text()
	if ok && text != "canopy-up" && text != "canopy-down" {
		named.Complain(`%q where "canopy-up" or "canopy-down" was expected`, text)
	}
	return Move{Kind: Slide, CanopyUp: text == "canopy-up"}
}

func readSpin(o document.Object, named document.Value) Move {
	m := Move{Kind: Spin, Inverted: readFlag(o, "inverted"), Left: readFlag(o, "left")}
	m.Quarters, _ = readShare(named, 4, 1, 4)
	return m
}

func readRotations(v document.Value) []Rotation {
	list, ok := v.List()
	if !ok || len(list) == 0 {
		return nil
	}
	if len(list) > MaxRotations {
		v.Complain("%d rotations; a list holds at most %d", len(list), MaxRotations)
		return nil
	}
	rotations := make([]Rotation, len(list))
	for i, one := range list {
		rotations[i] = readRotation(one)
	}
	return rotations
}

func readRotation(v document.Value) Rotation {
	o, ok := v.Object("kind", "turns", "points", "left")
	if !ok {
		return Rotation{}
	}
	r := Rotation{Left: readFlag(o, "left")}
	if kind, there := o.Required("kind"); there {
		r.Kind = readRotationKind(kind)
	}
	if points, there := o.Optional("points"); there {
		r.Points = readPoints(points, r.Kind)
	}
	if turns, there := o.Required("turns"); there {
		r.Quarters, ok = readShare(turns, 4, 1, 4)
		if ok && r.Points == 2 && r.Quarters%2 != 0 {
			turns.Complain("a roll of two points stops after every half turn: a multiple of 0.5 was expected")
		}
	}
	return r
}

func readRotationKind(v document.Value) RotationKind {
	text, ok := v.Text()
	if !ok {
		return 0
	}
	for _, k := range []RotationKind{Roll, Flick, OutsideFlick} {
		if text == k.String() {
			return k
		}
	}
	v.Complain(`%q where "roll", "flick" or "outside-flick" was expected`, text)
	return 0
}

func readPoints(v document.Value, kind RotationKind) int {
	if kind == Flick || kind == OutsideFlick {
		v.Complain("a flick has no points; only a roll has")
		return 0
	}
	n, ok := v.Integer(2, 8)
	if ok && n != 2 && n != 4 && n != 8 {
		v.Complain("%d where 2, 4 or 8 was expected", n)
		return 0
	}
	return n
}

// readFlag reads a field that is false when left out.
func readFlag(o document.Object, name string) bool {
	v, there := o.Optional(name)
	if !there {
		return false
	}
	yes, _ := v.Bool()
	return yes
}

// readStep reads a multiple of step from low to high, 0 where it is none.
func readStep(v document.Value, step, low, high int) int {
	f, ok := v.Real()
	if !ok {
		return 0
	}
	if f < float64(low) || f > float64(high) || f != float64(int(f)) || int(f)%step != 0 {
		text, _ := v.Number()
		v.Complain("%s is not a multiple of %d from %d to %d", text, step, low, high)
		return 0
	}
	return int(f)
}

// readShare reads a number of turns as whole parts of one, at least low parts
// and at most high turns.
func readShare(v document.Value, parts, low, high int) (int, bool) {
	f, ok := v.Real()
	if !ok {
		return 0, false
	}
	n := f * float64(parts)
	if n < float64(low) || n > float64(high*parts) || n != float64(int(n)) {
		text, _ := v.Number()
		v.Complain("%s is not a multiple of %s from %s to %d", text, appendShare(nil, 1, parts), appendShare(nil, low, parts), high)
		return 0, false
	}
	return int(n), true
}
