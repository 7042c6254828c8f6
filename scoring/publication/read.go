package publication

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// fixedLines is how many lines a statement has before its sources.
const fixedLines = 15

// maxProgram is how many characters the name of a program has at most.
const maxProgram = 100

var uuidForm = regexp.MustCompile(`^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$`)

// Read reads a statement. A text that [Statement.Text] does not write is an
// error that names the line.
func Read(text string) (*Statement, error) {
	lines := strings.Split(text, "\n")
	if len(lines) <= fixedLines || lines[len(lines)-1] != "" {
		return nil, fmt.Errorf("a statement has %d lines or more, each ended by LF", fixedLines)
	}
	r := reader{lines: lines[:len(lines)-1]}
	s := r.statement()
	if r.err != nil {
		return nil, r.err
	}
	return s, nil
}

// A reader takes line after line and keeps the first error.
type reader struct {
	lines []string
	at    int
	err   error
}

func (r *reader) statement() *Statement {
	r.oneOf(Format)
	s := &Statement{
		Key: r.hash().String(), Contest: r.id(), Scope: r.scope(), Number: r.number(1),
		State: r.oneOf(Provisional, Official), Published: r.time(), ProtestUntil: r.maybeTime(), Reason: r.hash(),
		Program: r.program(), Bundle: r.hash(), Results: r.hash(), Preceding: r.maybeHash(),
		JournalNumber: r.number(0), JournalHash: r.maybeHash(),
	}
	for r.at < len(r.lines) {
		s.Programmes = append(s.Programmes, r.source(s.Scope))
	}
	return s
}

func (r *reader) next() string {
	line := r.lines[r.at]
	r.at++
	return line
}

func (r *reader) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf("line %d of the statement: "+format, append([]any{r.at}, args...)...)
	}
}

func (r *reader) oneOf(words ...string) string {
	line := r.next()
	for _, word := range words {
		if line == word {
			return word
		}
	}
	r.fail("%q where %s was expected", line, strings.Join(words, " or "))
	return ""
}

func (r *reader) hash() Hash { return r.parseHash(r.next()) }

func (r *reader) parseHash(text string) Hash {
	h, err := ParseHash(text)
	if err != nil {
		r.fail("%w", err)
	}
	return h
}

// maybeHash reads a hash or that there is none; all zeros is no hash of
// anything.
func (r *reader) maybeHash() Hash {
	line := r.next()
	if line == none {
		return Hash{}
	}
	h := r.parseHash(line)
	if h == (Hash{}) {
		r.fail("a hash of zeros where %s was expected", none)
	}
	return h
}

func (r *reader) id() string { return r.checkID(r.next()) }

func (r *reader) checkID(id string) string {
	if !uuidForm.MatchString(id) {
		r.fail("%q is no UUID in lower case", id)
	}
	return id
}

func (r *reader) scope() Scope {
	line := r.next()
	kind, id, _ := strings.Cut(line, " ")
	if kind != OfProgramme && kind != OfCategory {
		r.fail("%q where %s or %s with a UUID was expected", line, OfProgramme, OfCategory)
	}
	return Scope{kind, r.checkID(id)}
}

func (r *reader) number(least int64) int64 {
	line := r.next()
	n, err := strconv.ParseInt(line, 10, 64)
	if err != nil || n < least || strconv.FormatInt(n, 10) != line {
		r.fail("%q is no number from %d up", line, least)
	}
	return n
}

func (r *reader) maybeTime() time.Time {
	if r.lines[r.at] == none {
		r.at++
		return time.Time{}
	}
	return r.time()
}

func (r *reader) time() time.Time {
	line := r.next()
	t, err := time.Parse(timeLayout, line)
	if err != nil || t.IsZero() || t.Format(timeLayout) != line {
		r.fail("%q is no time like %s", line, timeLayout)
	}
	return t
}

func (r *reader) program() string {
	line := r.next()
	if !IsProgram(line) {
		r.fail("%q is no name of a program", line)
	}
	return line
}

// IsProgram tells whether a text can stand in a statement as the name and
// version of a program: up to 100 printable characters.
func IsProgram(name string) bool {
	notPrinted := func(c rune) bool { return c == utf8.RuneError || !unicode.IsPrint(c) }
	return name != "" && utf8.RuneCountInString(name) <= maxProgram && !strings.ContainsFunc(name, notPrinted)
}

// source reads a programme that a category's standing is made of.
func (r *reader) source(scope Scope) Source {
	id, hash, _ := strings.Cut(r.next(), " ")
	if scope.Kind != OfCategory {
		r.fail("a %s's statement ends here", scope.Kind)
	}
	return Source{r.checkID(id), r.parseHash(hash)}
}
