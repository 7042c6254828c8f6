package figure

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"halfpoint/scoring/document"
)

// parseMoves reads moves from their JSON alone, with the complaints' places.
func parseMoves(text string) ([]Move, []string) {
	var report document.Report
	v, ok := document.Parse([]byte(text), &report)
	var moves []Move
	if ok {
		moves = ReadMoves(v)
	}
	var places []string
	for _, c := range report.Complaints() {
		places = append(places, c.Place)
	}
	return moves, places
}

func TestMovesReadAndWrittenAgain(t *testing.T) {
	for _, text := range []string{
		`[{"line":[]}]`,
		`[{"line":[{"kind":"roll","turns":1.5,"points":4,"left":true},{"kind":"flick","turns":0.25},{"kind":"outside-flick","turns":4}]}]`,
		`[{"arc":225,"push":true,"apex":[{"kind":"roll","turns":0.25,"points":8}],"at":180}]`,
		`[{"arc":45}]`,
		`[{"turn":270,"left":true,"rolls":1.5,"inward":true,"alternate":true},{"turn":90}]`,
		`[{"pivot":true},{"pivot":true,"left":true}]`,
		`[{"slide":"canopy-up"},{"slide":"canopy-down"}]`,
		`[{"spin":1.25},{"spin":4,"inverted":true,"left":true}]`,
	} {
		moves, wrong := parseMoves(text)
		if wrong != nil {
			t.Errorf("%s: complaints at %v", text, wrong)
		}
		again, err := json.Marshal(moves)
		if err != nil || string(again) != text {
			t.Errorf("%s was written as %s (%v)", text, again, err)
		}
	}
}

func TestMovesLeftOut(t *testing.T) {
	moves, wrong := parseMoves(`[{"arc": 90.0, "push": false, "apex": []}, {"turn": 9e1, "rolls": 0, "left": false}]`)
	want := []Move{{Kind: Arc, Degrees: 90}, {Kind: Turn, Degrees: 90}}
	if wrong != nil || !reflect.DeepEqual(moves, want) {
		t.Errorf("read %+v with complaints at %v", moves, wrong)
	}
	if moves, wrong := parseMoves(`[]`); moves != nil || wrong != nil {
		t.Errorf("an empty list is %v with complaints at %v, want no moves", moves, wrong)
	}
}

func TestMoveErrorsHavePlaces(t *testing.T) {
	roll := `{"kind":"roll","turns":1}`
	for text, want := range map[string]string{
		`5`:                         "",
		`[5]`:                       "[0]",
		`[{}]`:                      "[0]",
		`[{"lin":[]}]`:              "[0].lin [0]",
		`[{"line":[],"arc":45}]`:    "[0]",
		`[{"line":[],"left":true}]`: "[0].left",
		`[{"line":{}}]`:             "[0].line",
		`[{"arc":45,"left":true}]`:  "[0].left",
		`[{"arc":0}]`:               "[0].arc",
		`[{"arc":405}]`:             "[0].arc",
		`[{"arc":100}]`:             "[0].arc",
		`[{"arc":"45"}]`:            "[0].arc",
		`[{"arc":90,"push":1}]`:     "[0].push",
		`[{"arc":90,"at":90}]`:      "[0].at",
		`[{"arc":45,"at":45}]`:      "[0].at",
		`[{"arc":225,"at":0}]`:      "[0].at",
		`[{"arc":225,"at":50}]`:     "[0].at",
		`[{"arc":1,"at":180}]`:      "[0].arc",
		`[{"turn":45}]`:             "[0].turn",
		`[{"turn":450}]`:            "[0].turn",
		`[{"turn":90,"rolls":0.25,"inward":null}]`: "[0].inward [0].rolls",
		`[{"turn":90,"rolls":8.5}]`:                "[0].rolls",
		`[{"turn":90,"rolls":-1}]`:                 "[0].rolls",
		`[{"pivot":false}]`:                        "[0].pivot",
		`[{"pivot":1,"left":2}]`:                   "[0].pivot [0].left",
		`[{"slide":"canopy"}]`:                     "[0].slide",
		`[{"slide":true}]`:                         "[0].slide",
		`[{"spin":0}]`:                             "[0].spin",
		`[{"spin":4.25}]`:                          "[0].spin",
		`[{"spin":1.1}]`:                           "[0].spin",
		`[{"spin":1e999}]`:                         "[0].spin",
		`[{"arc":45},{"line":[{"kind":"roll","turns":1},{"kind":"roll","turns":0.3}]}]`: "[1].line[1].turns",
		`[{"line":[{}]}]`:                                                                         "[0].line[0].kind [0].line[0].turns",
		`[{"line":[{"kind":"snap","turns":1}]}]`:                                                  "[0].line[0].kind",
		`[{"line":[{"kind":"flick","turns":1,"points":4}]}]`:                                      "[0].line[0].points",
		`[{"line":[{"kind":"roll","turns":1,"points":3}]}]`:                                       "[0].line[0].points",
		`[{"line":[{"kind":"roll","turns":1,"points":0}]}]`:                                       "[0].line[0].points",
		`[{"line":[{"kind":"roll","turns":0.75,"points":2}]}]`:                                    "[0].line[0].turns",
		`[{"line":[{"kind":"roll","turns":0,"speed":1}]}]`:                                        "[0].line[0].speed [0].line[0].turns",
		`[{"arc":360,"apex":[{"kind":"roll","turns":4.25}]}]`:                                     "[0].apex[0].turns",
		`[{"arc":360,"apex":[` + strings.Repeat(roll+",", 8) + roll + `]}]`:                       "[0].apex",
		`[` + strings.Repeat(`{"line":[]},`, 64) + `{"line":[]}]`:                                 "",
		`[` + strings.Repeat(`{"line":[]},`, 63) + `{"line":["` + strings.Repeat("x", 9) + `"]}]`: "[63].line[0]",
	} {
		_, places := parseMoves(text)
		if len(places) == 0 || strings.Join(places, " ") != want {
			t.Errorf("%.80s: complaints at %q, want %q", text, places, want)
		}
	}
}

func TestMostThatIsAllowed(t *testing.T) {
	roll := `{"kind":"roll","turns":4,"points":8}`
	line := `{"line":[` + strings.Repeat(roll+",", 7) + roll + `]}`
	if _, wrong := parseMoves(`[` + strings.Repeat(line+",", 63) + line + `]`); wrong != nil {
		t.Errorf("64 moves of 8 rotations: complaints at %v", wrong)
	}
}
