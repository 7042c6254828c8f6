package document

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Bound is what a text of somebody's own may be that is kept and shown.
type Bound struct {
	Least, Most int  // characters
	Lines       bool // it may have more than one line
}

// Check complains of a text that is outside the bound, or that cannot be kept or
// shown. A text of one line has no space at its ends, where nobody would see it.
func (b Bound) Check(report *Report, place, text string) {
	switch n := utf8.RuneCountInString(text); {
	case b.Least > 0 && strings.TrimSpace(text) == "":
		report.Add(place, "it is empty; give it a text")
	case n < b.Least:
		report.Add(place, "%d characters are fewer than %d", n, b.Least)
	case n > b.Most:
		report.Add(place, "%d characters are more than %d", n, b.Most)
	case !utf8.ValidString(text) || strings.ContainsFunc(text, b.isUnshown):
		report.Add(place, "it has a character that cannot be shown")
	case !b.Lines && strings.TrimSpace(text) != text:
		report.Add(place, "it begins or ends with a space")
	}
}

func (b Bound) isUnshown(r rune) bool {
	return unicode.IsControl(r) && (!b.Lines || !strings.ContainsRune("\n\r\t", r))
}
