package document

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Bound is what a text of somebody's own may be that is kept and shown.
type Bound struct {
	Least, Most int  // characters
	Lines       bool // it may have more than one line
}

// Check complains of a text that is outside the bound.
func (b Bound) Check(report *Report, place, text string) {
	if fault := b.Fault(text); fault != "" {
		report.Add(place, "%s", fault)
	}
}

// Fault says what is wrong with a text that is outside the bound, or that cannot be
// kept or shown; empty where nothing is. A text of one line has no space at its ends,
// where nobody would see it.
func (b Bound) Fault(text string) string {
	switch n := utf8.RuneCountInString(text); {
	case b.Least > 0 && strings.TrimSpace(text) == "":
		return "it is empty; give it a text"
	case n < b.Least:
		return fmt.Sprintf("%d characters are fewer than %d", n, b.Least)
	case n > b.Most:
		return fmt.Sprintf("%d characters are more than %d", n, b.Most)
	case !utf8.ValidString(text) || strings.ContainsFunc(text, b.isUnshown):
		return "it has a character that cannot be shown"
	case !b.Lines && strings.TrimSpace(text) != text:
		return "it begins or ends with a space"
	}
	return ""
}

func (b Bound) isUnshown(r rune) bool {
	return unicode.IsControl(r) && (!b.Lines || !strings.ContainsRune("\n\r\t", r))
}
