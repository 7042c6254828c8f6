package figure

import (
	"strings"
	"testing"
)

// inTheTrade are words that a crowd does not know.
var inTheTrade = []string{"{}", "forty-five", "out inverted", "out upright", "pull", "push", "Cuban", "degree", "canopy", "  ", ",,", " ,", "..", ": ."}

// TestACrowdIsToldEveryFigure: each invented figure has words, whole sentences
// without a word of the trade.
func TestACrowdIsToldEveryFigure(t *testing.T) {
	t.Parallel()
	for _, c := range inventedFigures(t) {
		moves, _ := parseMoves(string(c.Moves))
		crowd := English().Describe(moves, Follow(moves, Attitude{Inverted: c.Inverted}, 0)).Crowd
		checkCrowd(t, c, crowd)
	}
}

func checkCrowd(t *testing.T, c dataCase, crowd string) {
	t.Helper()
	if len(crowd) < 30 || crowd[:1] != strings.ToUpper(crowd[:1]) || !strings.HasSuffix(crowd, ".") || !strings.Contains(crowd, "Look ") {
		t.Errorf("%s\nis told %q", c.Moves, crowd)
	}
	for _, word := range inTheTrade {
		if strings.Contains(crowd, word) {
			t.Errorf("%s\nis told with %q: %s", c.Moves, word, crowd)
		}
	}
}

// TestWhatACrowdIsTold: read aloud by hand, as a visitor would hear it.
func TestWhatACrowdIsTold(t *testing.T) {
	t.Parallel()
	for moves, want := range map[string]string{
		`[{"arc": 360, "apex": [{"kind": "roll", "turns": 0.5}], "at": 180}]`:                                                                   "A loop, all the way round, with a half roll at the top. It ends upside down. Look for one perfect circle, closed where it began.",
		`[{"arc": 90}, {"line": [{"kind": "roll", "turns": 0.25}]}, {"pivot": true}, {"line": [{"kind": "roll", "turns": 0.75}]}, {"arc": 90}]`: "Straight up until it stops, round on a wing tip, and straight down again, with a quarter roll on the way straight up, then a three-quarter roll on the way straight down. Look at the top, where it all but stops, swings round on a wing tip and comes straight down its own line.",
		`[{"line": [{"kind": "roll", "turns": 1, "points": 4}]}]`:                                                                               "A straight line at one height, with a roll in four steps. Look how it holds its height and its direction while it rotates.",
		`[{"line": []}]`: "A straight line at one height. Look how it holds its height and its direction.",
		`[{"arc": 45, "push": true}, {"line": [{"kind": "roll", "turns": 0.5}]}, {"arc": 225, "push": true}]`:    "A slope down, then most of a loop up: half of an eight that lies on its side, with a half roll on the slope down. Look for the rotation in the middle of the slope, and then a round loop.",
		`[{"arc": 225, "push": true}, {"arc": 45}]`:                                                              "Most of a loop, then a slope up: half of an eight that lies on its side. It ends upside down. Look for a round loop and a straight slope out of it.",
		`[{"arc": 90, "push": true}, {"arc": 180}, {"arc": 90, "push": true}]`:                                   "Straight down, round through the bottom, and straight up. Look for two lines straight as a plumb and a round half circle between them.",
		`[{"line": [{"kind": "roll", "turns": 2.5, "points": 2}, {"kind": "roll", "turns": 0.5, "points": 2}]}]`: "A straight line at one height, with two and a half rolls in steps and a half roll. Look how it holds its height and its direction while it rotates.",
		`[{"spin": 1}, {"line": [{"kind": "roll", "turns": 1, "left": true}]}, {"line": []}, {"arc": 90}]`:       "A spin, with one turn down like a corkscrew, then a full roll the other way on the way straight down. Look at the start: the nose drops as the wing stalls, and the turning stops exactly on its line.",
	} {
		read, _ := parseMoves(moves)
		if got := English().Describe(read, Follow(read, Attitude{}, 0)).Crowd; got != want {
			t.Errorf("%s\n%s\nwant\n%s", moves, got, want)
		}
	}
}
