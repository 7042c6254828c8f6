package scoring

import "strings"

// The classes of figures whose grades are compared with one another in a free
// programme.
const (
	General     = "general"
	Spin        = "spin"
	Flick       = "flick"
	Tailslide   = "tailslide"
	RollingTurn = "rolling-turn"
)

var classes = []string{General, Spin, Flick, Tailslide, RollingTurn}

// ItemClass is the class the item says it is of, or the one that follows from
// the families of its catalogue numbers.
func (i *Item) ItemClass() string {
	switch {
	case i.Class != "":
		return i.Class
	case i.has("9.11") || i.has("9.12"):
		return Spin
	case i.has("9.9") || i.has("9.10"):
		return Flick
	case i.has("6"):
		return Tailslide
	case i.has("2") && i.has("9"):
		return RollingTurn
	}
	return General
}

// has tells whether a catalogue number of the item is in the family, compared
// part by part: 9.1 is not 9.11.
func (i *Item) has(family string) bool {
	for _, number := range i.Elements {
		rest, ok := strings.CutPrefix(number, family)
		if ok && (rest == "" || rest[0] == '.') {
			return true
		}
	}
	return false
}
