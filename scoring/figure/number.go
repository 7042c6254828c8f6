package figure

import (
	"strconv"
	"strings"
)

// A number is a catalogue number's four parts; a prefix has one to four, and 0
// where it has none.
type number [4]int

// parseNumber reads four numbers with dots between them.
func parseNumber(text string) (n number, ok bool) {
	n, parts := parseParts(text)
	return n, parts == 4
}

// A Prefix stands for every catalogue number that begins with its parts.
type Prefix struct {
	text string
	n    number
}

// ParsePrefix reads one to four numbers with dots between them; a dot at the
// end says nothing.
func ParsePrefix(text string) (p Prefix, ok bool) {
	n, parts := parseParts(strings.TrimSuffix(text, "."))
	return Prefix{text, n}, parts > 0
}

func (p Prefix) String() string { return p.text }

// covers tells whether a number begins with the prefix, part by part.
func (p Prefix) covers(n number) bool {
	for i, part := range p.n {
		if part != 0 && part != n[i] {
			return false
		}
	}
	return true
}

// parseParts reads up to four parts, the first 1 to 9, the others 1 to 999,
// without leading zeros; parts is 0 where the text is anything else.
func parseParts(text string) (n number, parts int) {
	most := 1
	for part := range strings.SplitSeq(text, ".") {
		if parts == len(n) || len(part) == 0 || len(part) > most || part[0] == '0' {
			return n, 0
		}
		value, err := strconv.ParseUint(part, 10, 16)
		if err != nil {
			return n, 0
		}
		n[parts] = int(value)
		parts++
		most = 3
	}
	return n, parts
}

func (n number) String() string {
	b := make([]byte, 0, 16)
	for i, part := range n {
		if i > 0 {
			b = append(b, '.')
		}
		b = strconv.AppendInt(b, int64(part), 10)
	}
	return string(b)
}
