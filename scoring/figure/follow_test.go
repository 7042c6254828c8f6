package figure

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestFaultsStandAtTheirMove(t *testing.T) {
	const half, quarter = `{"kind":"roll","turns":0.5}`, `{"kind":"roll","turns":0.25}`
	const quarterLeft = `{"kind":"roll","turns":0.25,"left":true}`
	for _, c := range []struct {
		why, moves string
		inverted   bool
		want       []int
	}{
		{"knife edge on a level line", `[{"line":[` + quarter + `]}]`, false, []int{0}},
		{"sides counted, a quarter each way", `[{"line":[` + quarter + `,` + quarterLeft + `]}]`, false, nil},
		{"two quarters make a half", `[{"line":[` + quarter + `,` + quarter + `]}]`, false, nil},
		{"lines in a row are one line", `[{"line":[` + quarter + `]},{"line":[` + quarter + `]}]`, false, nil},
		{"the sum's fault at the last of them", `[{"line":[` + quarter + `]},{"line":[]},{"turn":90}]`, false, []int{1}},
		{"knife edge on a 45° line", `[{"arc":45},{"line":[` + quarter + `]},{"arc":45,"push":true}]`, false, []int{1}},
		{"before a spin too", `[{"line":[` + quarter + `]},{"spin":1},{"arc":90}]`, false, []int{0}},
		{"quarters stay on vertical lines", `[{"arc":90},{"line":[` + quarter + `]},{"arc":90,"push":true}]`, false, nil},
		{"ends straight up", `[{"arc":90}]`, false, []int{0}},
		{"ends straight up after a line", `[{"arc":90},{"line":[]}]`, false, []int{1}},
		{"a turn from a slope", `[{"arc":45},{"turn":90}]`, false, []int{1}},
		{"a pivot from level", `[{"pivot":true}]`, false, []int{0}},
		{"a pivot from straight down", `[{"arc":90},{"pivot":true},{"pivot":true}]`, false, []int{2}},
		{"a slide from a slope", `[{"arc":45},{"slide":"canopy-up"}]`, false, []int{1}},
		{"an upright spin from inverted", `[{"spin":1},{"arc":90}]`, true, []int{0}},
		{"an inverted spin from upright", `[{"spin":1,"inverted":true},{"arc":90}]`, false, []int{0}},
		{"a spin after a half roll, as written", `[{"line":[` + half + `]},{"spin":1,"inverted":true},{"arc":90}]`, false, nil},
		{"a spin from a vertical", `[{"arc":90},{"spin":1}]`, false, []int{1}},
		{"an apex where the arc is not level", `[{"arc":225,"apex":[` + half + `]}]`, false, []int{0}},
		{"an apex named by at", `[{"arc":225,"at":180,"apex":[` + half + `]},{"arc":45,"push":true}]`, false, []int{1}},
		{"and what is then the way out", `[{"arc":225,"at":180,"apex":[` + half + `]},{"arc":45}]`, false, nil},
		{"an apex that ends on knife edge", `[{"arc":360,"apex":[` + quarter + `]}]`, false, []int{0}},
		{"the middle of 135 is never level", `[{"arc":45},{"arc":135,"apex":[` + half + `]}]`, false, []int{1}},
		{"the bottom of an arc", `[{"arc":45,"push":true},{"arc":90,"apex":[` + half + `]},{"arc":45}]`, false, nil},
		{"three on one line", `[{"line":[` + half + `,` + half + `,` + half + `]}]`, false, []int{0}},
		{"three on lines in a row", `[{"line":[` + half + `,` + half + `]},{"line":[` + half + `]},{"line":[` + half + `]}]`, false, []int{1}},
		{"a spin counts", `[{"spin":1},{"line":[` + half + `,` + half + `]},{"arc":90}]`, false, []int{1}},
		{"up and down are two lines", `[{"arc":90},{"line":[` + half + `,` + half + `]},{"pivot":true},{"line":[` + half + `,` + half + `]},{"arc":90}]`, false, nil},
		{"three at an apex, and the first of state", `[{"pivot":true},{"arc":360,"apex":[` + half + `,` + half + `,` + half + `]},{"turn":90}]`, false, []int{0, 1}},
	} {
		var got []int
		for _, f := range follow(t, c.inverted, c.moves).Faults {
			got = append(got, f.Move)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %s has faults at %v, want %v", c.why, c.moves, got, c.want)
		}
	}
}

// TestFollowedStatesHoldTogether follows random moves: nose and canopy stay at
// a right angle in one vertical plane, and wherever a move was followed a line
// could be flown with whole half turns to spare.
func TestFollowedStatesHoldTogether(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		moves := randomMoves(random)
		trace := Follow(moves, Attitude{random.IntN(2) == 0, 90 * random.IntN(4)}, 2)
		for i, s := range trace.States {
			n, c := s.Nose, s.Canopy
			if n.X*c.X+n.Y*c.Y+n.Z*c.Z != 0 || n.X*n.Y != 0 || n == (Direction{}) || c == (Direction{}) {
				t.Fatalf("after %d moves of %v the state is %+v", i, moves, s)
			}
			afterLine := i > 0 && moves[i-1].Kind == Line
			if !afterLine && !s.Vertical() && !s.wingsLevel() {
				t.Fatalf("after %d moves of %v it is on knife edge: %+v", i, moves, s)
			}
		}
		if exit, ok := trace.Exit(); ok && exit.State() != trace.States[len(moves)] {
			t.Fatalf("%v ends %+v, which is not %+v", moves, trace.States[len(moves)], exit)
		}
	}
}

// TestExchangedSidesChangeNoWords flies random figures mirrored: headings
// across change places, faults and words stay.
func TestExchangedSidesChangeNoWords(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	flown := 0
	for range 50000 {
		moves := randomMoves(random)
		mirrored := make([]Move, len(moves))
		for i, m := range moves {
			mirrored[i] = m.Exchanged()
		}
		begin := Attitude{Inverted: random.IntN(2) == 0}
		a, b := Follow(moves, begin, 2), Follow(mirrored, begin, 2)
		if !slices.Equal(a.Faults, b.Faults) {
			t.Fatalf("%v has faults %v, mirrored %v", moves, a.Faults, b.Faults)
		}
		if x, y := English().Describe(moves, a), English().Describe(mirrored, b); x != y {
			t.Fatalf("%v is called %q, mirrored %q", moves, x, y)
		}
		exit, ok := a.Exit()
		if !ok {
			continue
		}
		flown++
		want := Attitude{exit.Inverted, (360 - exit.Heading) % 360}
		if other, _ := b.Exit(); other != want {
			t.Fatalf("%v ends %+v, mirrored %+v", moves, exit, other)
		}
	}
	if flown < 500 {
		t.Errorf("only %d of the figures could be flown", flown)
	}
}

// TestALineLeftOutChangesNothing puts empty lines between the moves.
func TestALineLeftOutChangesNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 5000 {
		moves := randomMoves(random)
		padded := []Move{{Kind: Line}}
		for _, m := range moves {
			padded = append(padded, m, Move{Kind: Line})
		}
		a, b := Follow(moves, Attitude{}, 2), Follow(padded, Attitude{}, 2)
		exit, ok := a.Exit()
		other, otherOK := b.Exit()
		if exit != other || ok != otherOK {
			t.Fatalf("%v ends %+v, with empty lines %+v", moves, exit, other)
		}
		if x, y := ShapeOf(moves, a), ShapeOf(padded, b); x != y {
			t.Fatalf("%v is a %s, with empty lines a %s", moves, x, y)
		}
	}
}

func randomMoves(r *rand.Rand) []Move {
	moves := make([]Move, 1+r.IntN(6))
	for i := range moves {
		moves[i] = randomMove(r)
	}
	return moves
}

func randomMove(r *rand.Rand) Move {
	flip := func() bool { return r.IntN(2) == 0 }
	switch r.IntN(8) {
	case 0, 1:
		return Move{Kind: Line, Rotations: randomRotations(r)}
	case 2:
		m := Move{Kind: Turn, Degrees: 90 * (1 + r.IntN(4)), Left: flip(), HalfRolls: r.IntN(17)}
		m.Inward, m.Alternate = flip(), flip()
		return m
	case 3:
		return Move{Kind: Pivot, Left: flip()}
	case 4:
		return Move{Kind: Slide, CanopyUp: flip()}
	case 5:
		return Move{Kind: Spin, Quarters: 1 + r.IntN(16), Inverted: flip(), Left: flip()}
	}
	m := Move{Kind: Arc, Degrees: 45 * (1 + r.IntN(8)), Push: flip()}
	if flip() {
		m.Rotations = randomRotations(r)
	}
	if m.Degrees > 45 && flip() {
		m.At = 45 * (1 + r.IntN(m.Degrees/45-1))
	}
	return m
}

func randomRotations(r *rand.Rand) []Rotation {
	list := make([]Rotation, r.IntN(3))
	for i := range list {
		list[i] = Rotation{Kind: Roll + RotationKind(r.IntN(3)), Quarters: 1 + r.IntN(16), Left: r.IntN(2) == 0}
		if list[i].Kind == Roll {
			list[i].Points = []int{0, 0, 4, 8}[r.IntN(4)]
		}
	}
	return list
}
