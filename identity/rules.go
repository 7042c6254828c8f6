package identity

import (
	_ "embed"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// How long a password is, in characters.
const (
	LeastPassword = 12
	MostPassword  = 256
)

const (
	leastKinds = 5 // different characters
	leastOwn   = 8 // characters beside the words that anyone would try first
)

// common are passwords that everybody tries, from memory: the long ones of the
// lists that go round, in lower case, one a line.
//
//go:embed common.txt
var common string

// FaultOf says why a password is not good enough, or nothing. Known are words
// that anyone would try for its owner: the e-mail address, the name. There are
// no rules about kinds of characters (NIST SP 800-63B, section 5.1.1.2).
func FaultOf(password string, known ...string) string {
	text := strings.ToLower(norm.NFKC.String(password))
	switch length := utf8.RuneCountInString(text); {
	case length < LeastPassword:
		return fmt.Sprintf("has %d characters; at least %d are needed", length, LeastPassword)
	case length > MostPassword:
		return fmt.Sprintf("has %d characters; at most %d are taken", length, MostPassword)
	case kindsOf(text) < leastKinds:
		return "is made of too few different characters"
	case isCommon(text):
		return "is one that everybody tries first"
	case utf8.RuneCountInString(without(text, known)) < leastOwn:
		return "is little more than a name that belongs to it"
	}
	return ""
}

func kindsOf(text string) int {
	seen := map[rune]bool{}
	for _, r := range text {
		seen[r] = true
	}
	return len(seen)
}

func isCommon(text string) bool {
	for line := range strings.Lines(common) {
		if strings.TrimSpace(line) == text {
			return true
		}
	}
	return false
}

// without takes the known words out of a text, longer ones than three
// characters, and the program's name.
func without(text string, known []string) string {
	words := []string{"halfpoint"}
	for _, k := range known {
		k = strings.ToLower(norm.NFKC.String(k))
		words = append(words, k)
		words = append(words, strings.FieldsFunc(k, func(r rune) bool { return r == ' ' || r == '@' || r == '.' })...)
	}
	for _, word := range words {
		if utf8.RuneCountInString(word) > 3 {
			text = strings.ReplaceAll(text, word, "")
		}
	}
	return text
}
