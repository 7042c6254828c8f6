package line

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"strings"
)

// Entry is what a sheet says of one item: a grade as [IsGrade] takes it and a
// remark, which may be empty.
type Entry struct {
	Grade  string
	Remark string
}

var escape = strings.NewReplacer(`\`, `\\`, "\t", `\t`, "\r", `\r`, "\n", `\n`)

// SheetText is the text that a signature stands for: UTF-8 lines ended by LF,
// `halfpoint-sheet/1`, the contest, the flight, the judge, the digest of the
// sequence, then for each item its number from 1, a tab, the grade, a tab and
// the remark with backslash, tab, CR and LF escaped by a backslash. The remark
// must come in Unicode's form NFC: the writing device brings it there, and it
// is taken here as it is.
func SheetText(contest, flight, judge, sequence string, entries []Entry) []byte {
	text := make([]byte, 0, 240+24*len(entries))
	for _, line := range []string{"halfpoint-sheet/1", contest, flight, judge, sequence} {
		text = append(append(text, line...), '\n')
	}
	for i, e := range entries {
		text = strconv.AppendInt(text, int64(i+1), 10)
		text = append(append(append(text, '\t'), e.Grade...), '\t')
		if e.Remark != "" {
			text = append(text, escape.Replace(e.Remark)...)
		}
		text = append(text, '\n')
	}
	return text
}

// SheetDigest is the lower-case hexadecimal SHA-256 of [SheetText].
func SheetDigest(contest, flight, judge, sequence string, entries []Entry) string {
	return sum(SheetText(contest, flight, judge, sequence, entries))
}

// SequenceItem is what one item of a sequence asks for.
type SequenceItem struct {
	Kind     string   // figure or overall
	K        string   // as written, "18" or "18.5"
	Name     string   // "" for none
	Elements []string // catalogue numbers
	Moves    string   // one text for the same moves, such as their JSON; "" for none
}

// SequenceDigest names what is flown: the lower-case hexadecimal SHA-256 of
// LF-ended lines `halfpoint-sequence/1`, then for each item its number, kind,
// elements with spaces between, and moves, tabs between them. An item without
// elements and moves is known by its name and K only, and has those in place of
// the two. So a corrected K or spelling leaves the grades of a figure good, and
// another figure does not.
func SequenceDigest(items []SequenceItem) string {
	text := []byte("halfpoint-sequence/1\n")
	for i, item := range items {
		what, how := strings.Join(item.Elements, " "), item.Moves
		if what == "" && how == "" {
			what, how = "name "+item.Name, "k "+item.K
		}
		line := []string{strconv.Itoa(i + 1), escape.Replace(item.Kind), escape.Replace(what), escape.Replace(how)}
		text = append(append(text, strings.Join(line, "\t")...), '\n')
	}
	return sum(text)
}

func sum(text []byte) string {
	digest := sha256.Sum256(text)
	return hex.EncodeToString(digest[:])
}
