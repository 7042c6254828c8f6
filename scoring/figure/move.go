package figure

import (
	"slices"
	"strconv"
)

// Kind tells what a move is.
type Kind uint8

// The kinds of moves.
const (
	Line  Kind = iota + 1 // straight on
	Arc                   // part of a loop
	Turn                  // level turn, with or without rolls
	Pivot                 // stall turn: from vertical up to vertical down, yawing
	Slide                 // from vertical up backwards, falling through to vertical down
	Spin                  // from level, stalled, to vertical down
)

// A Move is one piece of a figure. Only the fields of its kind are set.
type Move struct {
	Kind Kind

	// Rotations stand on a line, centred on it, or at the apex of an arc.
	Rotations []Rotation

	Degrees int  // arc: 45 to 360, a multiple of 45; turn: 90, 180, 270 or 360
	Push    bool // arc: pushed (outside), else pulled
	At      int  // arc: degrees into it where the apex is, 0 for its middle

	Left      bool // turn, pivot, spin: to the left, else to the right
	HalfRolls int  // turn: half rolls spread over it, 0 to 16
	Inward    bool // turn: the first roll goes to the side turned to
	Alternate bool // turn: each roll to the other side from the one before

	CanopyUp bool // slide: in the fall the nose passes the horizon with the canopy up

	Quarters int  // spin: quarter turns, 1 to 16
	Inverted bool // spin: from inverted flight
}

// RotationKind tells a roll from the two flicks.
type RotationKind uint8

// The kinds of rotations.
const (
	Roll RotationKind = iota + 1
	Flick
	OutsideFlick
)

// A Rotation turns the aeroplane about its long axis.
type Rotation struct {
	Kind     RotationKind
	Quarters int  // quarter turns, 1 to 16
	Points   int  // roll: a stop after every 1/Points turn, 2, 4 or 8; 0 for none
	Left     bool // to the left, else to the right
}

// Signed is the rotation in quarters, positive to the right.
func (r Rotation) Signed() int {
	if r.Left {
		return -r.Quarters
	}
	return r.Quarters
}

// sum adds rotations up in quarters, sides counted.
func sum(rotations []Rotation) int {
	total := 0
	for _, r := range rotations {
		total += r.Signed()
	}
	return total
}

// Exchanged is the move with every left and right exchanged: the mirror image
// of the same figure.
func (m Move) Exchanged() Move {
	if m.Kind == Turn || m.Kind == Pivot || m.Kind == Spin {
		m.Left = !m.Left
	}
	m.Rotations = slices.Clone(m.Rotations)
	for i := range m.Rotations {
		m.Rotations[i].Left = !m.Rotations[i].Left
	}
	return m
}

// MarshalJSON writes the move as ReadMoves reads it, what is left out by
// default left out.
func (m Move) MarshalJSON() ([]byte, error) {
	return m.appendJSON(make([]byte, 0, 64)), nil
}

func (m Move) appendJSON(b []byte) []byte {
	switch m.Kind {
	case Line:
		b = appendRotations(append(b, `{"line":`...), m.Rotations)
	case Arc:
		b = strconv.AppendInt(append(b, `{"arc":`...), int64(m.Degrees), 10)
		b = appendFlag(b, "push", m.Push)
		if len(m.Rotations) > 0 {
			b = appendRotations(append(b, `,"apex":`...), m.Rotations)
		}
		if m.At != 0 {
			b = strconv.AppendInt(append(b, `,"at":`...), int64(m.At), 10)
		}
	case Turn:
		b = strconv.AppendInt(append(b, `{"turn":`...), int64(m.Degrees), 10)
		b = appendFlag(b, "left", m.Left)
		if m.HalfRolls != 0 {
			b = appendShare(append(b, `,"rolls":`...), m.HalfRolls, 2)
		}
		b = appendFlag(b, "inward", m.Inward)
		b = appendFlag(b, "alternate", m.Alternate)
	case Pivot:
		b = appendFlag(append(b, `{"pivot":true`...), "left", m.Left)
	case Slide:
		b = append(append(append(b, `{"slide":"`...), slideName(m.CanopyUp)...), '"')
	case Spin:
		b = appendShare(append(b, `{"spin":`...), m.Quarters, 4)
		b = appendFlag(b, "inverted", m.Inverted)
		b = appendFlag(b, "left", m.Left)
	}
	return append(b, '}')
}

func appendRotations(b []byte, rotations []Rotation) []byte {
	b = append(b, '[')
	for i, r := range rotations {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(append(b, `{"kind":"`...), r.Kind.String()...), `","turns":`...)
		b = appendShare(b, r.Quarters, 4)
		if r.Points != 0 {
			b = strconv.AppendInt(append(b, `,"points":`...), int64(r.Points), 10)
		}
		b = append(appendFlag(b, "left", r.Left), '}')
	}
	return append(b, ']')
}

func (k RotationKind) String() string {
	switch k {
	case Roll:
		return "roll"
	case Flick:
		return "flick"
	case OutsideFlick:
		return "outside-flick"
	}
	return ""
}

func slideName(canopyUp bool) string {
	if canopyUp {
		return "canopy-up"
	}
	return "canopy-down"
}

func appendFlag(b []byte, name string, set bool) []byte {
	if !set {
		return b
	}
	return append(append(append(b, `,"`...), name...), `":true`...)
}

// appendShare writes n halves or quarters as a decimal number.
func appendShare(b []byte, n, parts int) []byte {
	return strconv.AppendFloat(b, float64(n)/float64(parts), 'f', -1, 64)
}
