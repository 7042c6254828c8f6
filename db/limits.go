package db

import (
	"encoding/json"
	"fmt"
	"regexp"
	"time"
	"unicode/utf8"

	"halfpoint/scoring"
	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
)

// What a contest may hold beside what a record of its line may.
const (
	maxPilots     = 500
	maxJudges     = 50
	maxCategories = 20
)

// limits collects what is in a bundle that can be scored and cannot be a
// contest here.
type limits struct{ report document.Report }

// nul finds the character U+0000 in JSON, where it is always escaped.
var nul = regexp.MustCompile(`(^|[^\\])(\\\\)*\\u0000`)

// checkLimits complains, as document.Complaints, about all of it at once. Text
// is the bundle as we write it.
func checkLimits(b *scoring.Bundle, text []byte) error {
	l := &limits{}
	l.texts(text)
	l.days("contest.", b.Contest.Starts, b.Contest.Ends)
	l.atMost("judges", len(b.Judges), maxJudges)
	l.atMost("pilots", len(b.Pilots), maxPilots)
	l.atMost("categories", len(b.Categories), maxCategories)
	for p := range b.Pilots {
		AboutBound.Check(&l.report, fmt.Sprintf("pilots[%d].note", p), b.Pilots[p].Note)
	}
	for c := range b.Categories {
		for p := range b.Categories[c].Programmes {
			l.programme(fmt.Sprintf("categories[%d].programmes[%d]", c, p), &b.Categories[c].Programmes[p])
		}
	}
	return l.report.Err()
}

// checkSequence complains, as document.Complaints, of a sequence that cannot be
// registered.
func checkSequence(s *scoring.Sequence) error {
	text, err := json.Marshal(s)
	if err != nil {
		return fmt.Errorf("writing a sequence: %w", err)
	}
	l := &limits{}
	l.texts(text)
	l.atMost("items", len(s.Items), line.MaxItem)
	return l.report.Err()
}

// texts looks for what Postgres holds in no text.
func (l *limits) texts(text []byte) {
	if nul.Match(text) {
		l.report.Add("", "a text has the character U+0000, which cannot be stored")
	}
}

func (l *limits) atMost(place string, n, most int) {
	if n > most {
		l.report.Add(place, "%d are more than the %d that there can be", n, most)
	}
}

// days looks at the first and the last day of a contest, at places that begin
// alike.
func (l *limits) days(at, starts, ends string) {
	l.day(at+"starts", starts)
	l.day(at+"ends", ends)
	if starts != "" && ends != "" && ends < starts {
		l.report.Add(at+"ends", "%s is before it starts, on %s", ends, starts)
	}
}

func (l *limits) day(place, text string) {
	if day, err := time.Parse(time.DateOnly, text); text != "" && (err != nil || day.Year() < 1) {
		l.report.Add(place, "%q is no day of the calendar", text)
	}
}

func (l *limits) programme(place string, p *scoring.Programme) {
	l.sequence(place+".sequence", p.Sequence)
	for n := range p.Flights {
		f := &p.Flights[n]
		place := fmt.Sprintf("%s.flights[%d]", place, n)
		l.sequence(place+".sequence", f.Sequence)
		FreeBound.Check(&l.report, place+".description", f.Description)
		l.remarks(place, f)
		l.rulings(place, len(p.Items(f)), f)
		l.penalties(place, f)
	}
}

func (l *limits) sequence(place string, s *scoring.Sequence) {
	if s != nil {
		l.atMost(place+".items", len(s.Items), line.MaxItem)
	}
}

func (l *limits) remarks(place string, f *scoring.Flight) {
	for s := range f.Sheets {
		for n, remark := range f.Sheets[s].Remarks {
			if count := utf8.RuneCountInString(remark); count > line.MaxText {
				l.report.Add(fmt.Sprintf("%s.sheets[%d].remarks[%d]", place, s, n), "%d characters are more than %d", count, line.MaxText)
			}
		}
	}
}

// rulings must be on an item: a bundle may leave the sequence of a flight that
// was not flown out, and a record cannot.
func (l *limits) rulings(place string, items int, f *scoring.Flight) {
	for n, r := range f.Rulings {
		if r.Item < 1 || r.Item > items {
			l.report.Add(fmt.Sprintf("%s.rulings[%d].item", place, n), "there is no item %d in the flight's sequence", r.Item)
		}
	}
}

// penalties of one kind in a flight are one record with a count.
func (l *limits) penalties(place string, f *scoring.Flight) {
	given := map[string]bool{}
	for n, p := range f.Penalties {
		place := fmt.Sprintf("%s.penalties[%d]", place, n)
		if count := utf8.RuneCountInString(p.Kind); count < 1 || count > line.MaxName {
			l.report.Add(place+".kind", "%d characters; a kind of penalty has 1 to %d", count, line.MaxName)
		}
		if p.Count > line.MaxCount {
			l.report.Add(place+".count", "%d occurrences are more than %d", p.Count, line.MaxCount)
		}
		if given[p.Kind] {
			l.report.Add(place+".kind", "%q is given twice in the flight; give it once with a count", p.Kind)
		}
		given[p.Kind] = true
	}
}
