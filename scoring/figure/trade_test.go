package figure

import (
	"slices"
	"testing"
)

// exitOf follows moves from heading 0 and fails where they have a fault.
func exitOf(t *testing.T, inverted bool, text string) Attitude {
	t.Helper()
	exit, ok := follow(t, inverted, text).Exit()
	if !ok {
		t.Fatalf("%s has a fault", text)
	}
	return exit
}

func follow(t *testing.T, inverted bool, text string) Trace {
	t.Helper()
	moves, wrong := parseMoves(text)
	if wrong != nil {
		t.Fatalf("%s: complaints at %v", text, wrong)
	}
	return Follow(moves, Attitude{Inverted: inverted}, 0)
}

// The facts below are common practice of the trade, no source.

func TestHalfCubanComesOutUprightAfterAHalfRoll(t *testing.T) {
	for turns, upright := range map[string]bool{"0.5": true, "1.5": true} {
		text := `[{"arc":225},{"line":[{"kind":"roll","turns":` + turns + `}]},{"arc":45}]`
		if exit := exitOf(t, false, text); exit != (Attitude{!upright, 180}) {
			t.Errorf("with %s rolls it ends %+v", turns, exit)
		}
	}
}

func TestHalfCubanNeedsAPushAfterAFullRoll(t *testing.T) {
	text := `[{"arc":225},{"line":[{"kind":"roll","turns":1}]},{"arc":45,"push":true}]`
	if exit := exitOf(t, false, text); exit != (Attitude{true, 180}) {
		t.Errorf("pushed out it ends %+v, want inverted", exit)
	}
	trace := follow(t, false, `[{"arc":225},{"line":[{"kind":"roll","turns":1}]},{"arc":45}]`)
	if len(trace.Faults) != 1 || trace.Faults[0].Move != 2 {
		t.Errorf("pulled out: faults %v, want one at the pull", trace.Faults)
	}
}

func TestFourPointRollStopsEveryNinetyDegrees(t *testing.T) {
	s := Attitude{}.State()
	right, down, left, up := Direction{0, -1, 0}, Direction{0, 0, -1}, Direction{0, 1, 0}, Direction{0, 0, 1}
	var canopy []Direction
	for range 4 {
		s = s.Roll(1)
		canopy = append(canopy, s.Canopy)
	}
	if want := []Direction{right, down, left, up}; !slices.Equal(canopy, want) {
		t.Errorf("the canopy stops at %v, want %v", canopy, want)
	}
}

func TestTwoPointsOfFourEndInverted(t *testing.T) {
	if exit := exitOf(t, false, `[{"line":[{"kind":"roll","turns":0.5,"points":4}]}]`); exit != (Attitude{true, 0}) {
		t.Errorf("it ends %+v, want inverted", exit)
	}
}

func TestTwoPointsOfEightEndOnKnifeEdge(t *testing.T) {
	trace := follow(t, false, `[{"line":[{"kind":"roll","turns":0.25,"points":8}]}]`)
	if len(trace.Faults) != 1 || trace.Faults[0].Move != 0 {
		t.Errorf("faults %v, want one at the line", trace.Faults)
	}
}

func TestLoopsInCorners(t *testing.T) {
	corner := func(arc string, n int) string {
		text := "["
		for i := range n {
			if i > 0 {
				text += `,{"line":[]},`
			}
			text += `{"arc":` + arc + `}`
		}
		return text + "]"
	}
	for name, text := range map[string]string{"square": corner("90", 4), "octagon": corner("45", 8)} {
		if exit := exitOf(t, false, text); exit != (Attitude{false, 0}) {
			t.Errorf("a %s loop ends %+v, want as it began", name, exit)
		}
	}
}

func TestHammerheadAxis(t *testing.T) {
	across := func(up, down string) bool {
		return exitOf(t, false, `[{"arc":90},{"line":[`+up+`]},{"pivot":true},{"line":[`+down+`]},{"arc":90}]`).Across()
	}
	quarter, threeQuarter := `{"kind":"roll","turns":0.25}`, `{"kind":"roll","turns":0.75}`
	if across(quarter, threeQuarter) {
		t.Error("a quarter up and three quarters down do not come back on the entry axis")
	}
	if !across(quarter, "") {
		t.Error("a quarter up and none down do not leave across")
	}
	if exit := exitOf(t, false, `[{"arc":90},{"pivot":true},{"arc":90}]`); exit != (Attitude{false, 180}) {
		t.Errorf("without rolls it ends %+v, want back the way it came", exit)
	}
}

func TestOutsideLoopFromInvertedEndsInverted(t *testing.T) {
	if exit := exitOf(t, true, `[{"arc":360,"push":true}]`); exit != (Attitude{true, 0}) {
		t.Errorf("it ends %+v", exit)
	}
}

func TestSpinOfOneAndAQuarterLeavesAcross(t *testing.T) {
	for _, side := range []string{"true", "false"} {
		for _, inverted := range []string{"true", "false"} {
			text := `[{"spin":1.25,"inverted":` + inverted + `,"left":` + side + `},{"arc":90}]`
			if exit := exitOf(t, inverted == "true", text); !exit.Across() || exit.Inverted {
				t.Errorf("%s ends %+v, want upright across", text, exit)
			}
		}
	}
}

func TestFullFlickAtTheTopKeepsInverted(t *testing.T) {
	for turns, want := range map[string]Attitude{"1": {false, 0}, "0.5": {true, 0}} {
		text := `[{"arc":360,"apex":[{"kind":"flick","turns":` + turns + `}]}]`
		if exit := exitOf(t, false, text); exit != want {
			t.Errorf("after %s flick the loop ends %+v, want %+v", turns, exit, want)
		}
	}
	top := Attitude{}.State().arc(180, false)
	if after := top.Roll(4); !top.Inverted() || after != top {
		t.Errorf("a full turn goes from %+v to %+v, want from inverted to inverted", top, after)
	}
}

func TestTailSlideWheelsThroughItsOwnPlane(t *testing.T) {
	for _, kind := range []string{"canopy-up", "canopy-down"} {
		if exit := exitOf(t, false, `[{"arc":90},{"slide":"`+kind+`"},{"arc":90}]`); exit != (Attitude{false, 0}) {
			t.Errorf("%s: pulled out it ends %+v, want on its heading", kind, exit)
		}
	}
}

func TestTurnSidesAreSeenFromAbove(t *testing.T) {
	for _, inverted := range []bool{false, true} {
		if exit := exitOf(t, inverted, `[{"turn":90,"left":true}]`); exit != (Attitude{inverted, 90}) {
			t.Errorf("left ends %+v", exit)
		}
		if exit := exitOf(t, inverted, `[{"turn":270,"rolls":1.5,"inward":true,"alternate":true}]`); exit != (Attitude{!inverted, 90}) {
			t.Errorf("two-seventy to the right with one and a half rolls ends %+v", exit)
		}
	}
}

func TestSpinSidesAreSeenFromAbove(t *testing.T) {
	// A quarter to the left brings the canopy, which upright looks where the
	// nose was, to the left of it: pulled out, the aeroplane flies there.
	if exit := exitOf(t, false, `[{"spin":0.25,"left":true},{"arc":90}]`); exit != (Attitude{false, 90}) {
		t.Errorf("upright to the left it ends %+v", exit)
	}
	// Inverted, the canopy looks back: a pull leads the other way.
	if exit := exitOf(t, true, `[{"spin":0.25,"inverted":true,"left":true},{"arc":90}]`); exit != (Attitude{false, 270}) {
		t.Errorf("inverted to the left it ends %+v", exit)
	}
}

// TestLoopsAndEightsAreNamedByTheWayTheyGoRound: a hat of four corners is no
// square loop, two halves of a loop are no S.
func TestLoopsAndEightsAreNamedByTheWayTheyGoRound(t *testing.T) {
	t.Parallel()
	const half = `{"line":[{"kind":"roll","turns":0.5}]}`
	const quarter = `{"line":[{"kind":"roll","turns":0.25}]}`
	for text, want := range map[string]Shape{
		`[{"arc":90},{"arc":90},{"arc":90},{"arc":90}]`:                                                  SquareLoop,
		`[{"arc":90},{"arc":90},` + half + `,{"arc":90,"push":true},{"arc":90,"push":true}]`:             SquareLoop,
		`[{"arc":90},` + half + `,{"arc":90,"push":true},{"arc":90,"push":true},{"arc":90,"push":true}]`: SquareLoop,
		`[{"arc":90},{"arc":90,"push":true},{"arc":90,"push":true},{"arc":90}]`:                          "",
		`[{"arc":90},{"arc":90,"push":true},{"arc":90},{"arc":90,"push":true}]`:                          "",
		`[{"arc":90},` + quarter + `,{"arc":90},{"arc":90},` + quarter + `,{"arc":90}]`:                  SquareLoop,
		`[{"arc":180},{"arc":180,"push":true}]`:                                                          VerticalS,
		`[{"arc":180},{"arc":180}]`:                                                                      "",
		`[{"arc":225},{"arc":270,"push":true},{"arc":45}]`:                                               CubanEight,
		`[{"arc":225},` + half + `,{"arc":270},` + half + `,{"arc":45}]`:                                 CubanEight,
		`[{"arc":225},{"arc":270},{"arc":45}]`:                                                           "",
	} {
		moves, _ := parseMoves(text)
		trace := Follow(moves, Attitude{}, 0)
		if got := ShapeOf(moves, trace); got != want || len(trace.Faults) > 0 {
			t.Errorf("%s is %q with faults %v, want %q", text, got, trace.Faults, want)
		}
	}
}
