package publication

import (
	"strconv"
	"strings"
	"time"
)

// Format is the first line of every statement.
const Format = "halfpoint-publication/1"

// The states of published results.
const (
	Provisional = "provisional" // can be protested
	Official    = "official"
)

// The kinds of scopes.
const (
	OfProgramme = "programme"
	OfCategory  = "category" // the standing over its programmes
)

// A Scope is what results are published of.
type Scope struct {
	Kind string // OfProgramme or OfCategory
	ID   string // UUID
}

func (s Scope) String() string { return s.Kind + " " + s.ID }

// A Statement is what the key signs, a text of lines that each end with LF, in
// the order of the fields; docs/publications.md lists the lines.
type Statement struct {
	Key           string // fingerprint of the key that signs
	Contest       string // UUID
	Scope         Scope
	Number        int64 // counts the contest's publications from 1
	State         string
	Published     time.Time // UTC, whole microseconds
	ProtestUntil  time.Time // the same; zero where there is no time for protests
	Reason        Hash      // of the reason's text, which may be empty
	Program       string    // name and version of what computed the results
	Bundle        Hash
	Results       Hash
	Preceding     Hash // of the contest's statement before this one; zero before the first
	JournalNumber int64
	JournalHash   Hash // of that row; zero where there is none yet

	// Programmes are those a category's standing is made of.
	Programmes []Source
}

// A Source is a programme as it was published.
type Source struct {
	Programme string // UUID
	Statement Hash
}

func (s Source) String() string { return s.Programme + " " + s.Statement.String() }

// none stands in a line where there is nothing.
const none = "-"

const timeLayout = "2006-01-02T15:04:05.000000Z"

// Text is the statement as it is signed.
func (s *Statement) Text() string {
	lines := []string{
		Format, s.Key, s.Contest, s.Scope.String(), strconv.FormatInt(s.Number, 10), s.State,
		s.Published.UTC().Format(timeLayout), timeOrNone(s.ProtestUntil), s.Reason.String(), s.Program,
		s.Bundle.String(), s.Results.String(), hashOrNone(s.Preceding),
		strconv.FormatInt(s.JournalNumber, 10), hashOrNone(s.JournalHash),
	}
	for _, source := range s.Programmes {
		lines = append(lines, source.String())
	}
	return strings.Join(lines, "\n") + "\n"
}

func timeOrNone(t time.Time) string {
	if t.IsZero() {
		return none
	}
	return t.UTC().Format(timeLayout)
}

func hashOrNone(h Hash) string {
	if h == (Hash{}) {
		return none
	}
	return h.String()
}
