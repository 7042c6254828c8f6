package webui

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"html/template"
	"io/fs"
	"net/http"
	"strings"

	"golang.org/x/text/language"
)

//go:embed drawn.gohtml
var drawnHTML string

var drawnPage = template.Must(template.New("drawn").Parse(drawnHTML))

// A drawing is a standing as a page shows it before any script has run, and where
// none runs at all: whoever has one bar of signal reads it when its text is there.
// The script puts its own page in its place.
type drawing struct {
	Language   string
	Words      words
	Title      string
	Way        []way // from the list of contests down
	State      string
	Said       []string
	Programmes []way
	Columns    []column
	Sure       bool // some ranks' certainty is known
	Rows       []row
}

type way struct{ Name, Address string }

type column struct {
	Name string
	Main bool // the one that the rank is taken from
}

type row struct {
	Rank     int // 0 for none
	Name     string
	Detail   string
	Unranked bool
	Numbers  []string // in the order of the columns; empty for none
	Sure     string   // the ranks that it may be, as 1–3
}

// Words are those of a drawing in one language. The build takes them from the
// messages; what varies in them stands in braces.
type words struct {
	Where, Contests, Programmes                          string
	Rank, Pilot, Score, Percent, Total, Strip, Unranked  string
	ProgrammeTitle, CategoryTitle, FlightsIn, Number, In string
	Published                                            string
	State                                                map[string]string
}

// A pen draws in the languages that there are words in.
type pen struct {
	languages []language.Tag
	matcher   language.Matcher
	words     []words // of each language
}

// readWords reads what the build wrote; nil where there was no build. Pages are not
// drawn ahead without it.
func readWords(files fs.FS) *pen {
	text, err := fs.ReadFile(files, "dist/words.json")
	if err != nil {
		return nil
	}
	var list []struct {
		Language language.Tag
		Words    words
	}
	if err := json.Unmarshal(text, &list); err != nil || len(list) == 0 {
		return nil
	}
	p := &pen{}
	for _, one := range list {
		p.languages = append(p.languages, one.Language)
		p.words = append(p.words, one.Words)
	}
	p.matcher = language.NewMatcher(p.languages)
	return p
}

// draw draws what an answer of the service holds, in the language that the reader's
// browser asks for; nothing where it is of another kind.
func (p *pen) draw(r *http.Request, kind string, answer []byte) []byte {
	of := drawings[kind]
	if p == nil || of == nil || answer == nil {
		return nil
	}
	wanted, _, _ := language.ParseAcceptLanguage(r.Header.Get("Accept-Language"))
	_, at, _ := p.matcher.Match(wanted...)
	d, err := of(answer, p.words[at])
	if err != nil {
		return nil
	}
	d.Language, d.Words = p.languages[at].String(), p.words[at]
	var out bytes.Buffer
	if err := drawnPage.Execute(&out, d); err != nil {
		return nil
	}
	return out.Bytes()
}

// fill puts what varies into words, given as name and value in turn.
func fill(text string, what ...string) string {
	var pairs []string
	for i := 0; i+1 < len(what); i += 2 {
		pairs = append(pairs, "{"+what[i]+"}", what[i+1])
	}
	return strings.NewReplacer(pairs...).Replace(text)
}
