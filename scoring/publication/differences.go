package publication

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"halfpoint/scoring"
)

// What a Change is about.
const (
	ChangedStatus   = "status" // of a flight
	ChangedRank     = "rank"
	ChangedScore    = "score"
	ChangedTotal    = "total"
	ChangedPenalty  = "penalties" // in points
	ChangedGrade    = "grade"
	ChangedRuling   = "ruling"
	ChangedMethod   = "method" // or an option of it
	ChangedPanel    = "panel"
	ChangedSequence = "sequence"
	ChangedCounts   = "counts" // whether the programme adds to totals
	ChangedCut      = "cut"
)

// A Change is one thing that a publication says and the one before it did not.
type Change struct {
	What  string
	Pilot string // id in the bundle, or the name of a team; empty for the programme as a whole
	Team  bool   // Pilot is a team
	Item  int    // of a grade or a ruling, from 1
	Judge string // of a grade: id in the bundle
	// Both empty where it is too long to be said.
	From, To string
}

// Differences lists what a publication changed of the one before it of the same
// scope: of a programme its set-up, then each pilot's flight; of a category the
// standing. Pilots are in the order of the bundle.
func Differences(kind string, before, after *Parsed) []Change {
	d := &differ{}
	if kind == OfCategory {
		_, old := before.Category()
		_, now := after.Category()
		d.standing(old, now)
		return d.changes
	}
	old, oldResult := before.Programme()
	now, nowResult := after.Programme()
	d.setup(old, now)
	d.flights(old, oldResult, now, nowResult)
	return d.changes
}

type differ struct{ changes []Change }

// note adds a change where there is one.
func (d *differ) note(c Change, from, to string) {
	if from != to {
		c.From, c.To = from, to
		d.changes = append(d.changes, c)
	}
}

func (d *differ) standing(old, now *scoring.CategoryResult) {
	was := map[string]*scoring.OverallResult{}
	for i := range old.Overall {
		was[old.Overall[i].Pilot] = &old.Overall[i]
	}
	for i := range now.Overall {
		o := &now.Overall[i]
		before := was[o.Pilot]
		if before == nil {
			before = &scoring.OverallResult{}
		}
		d.note(Change{What: ChangedTotal, Pilot: o.Pilot}, decimals(before.Total), decimals(o.Total))
		d.note(Change{What: ChangedRank, Pilot: o.Pilot}, rank(before.Rank), rank(o.Rank))
	}
	d.teams(old.Teams, now.Teams)
}

func (d *differ) teams(old, now []scoring.TeamResult) {
	was := map[string]scoring.TeamResult{}
	for _, t := range old {
		was[t.Team] = t
	}
	for _, t := range now {
		before, known := was[t.Team]
		c := Change{Pilot: t.Team, Team: true}
		c.What = ChangedTotal
		d.note(c, decimals(before.Total), decimals(t.Total))
		c.What = ChangedRank
		if known {
			d.note(c, rank(&before.Rank), rank(&t.Rank))
		} else {
			d.note(c, "", rank(&t.Rank))
		}
	}
}

func (d *differ) setup(old, now *scoring.Programme) {
	d.method(old.Method, now.Method)
	d.note(Change{What: ChangedPanel}, strings.Join(old.Panel, ", "), strings.Join(now.Panel, ", "))
	d.note(Change{What: ChangedCut}, strconv.Itoa(old.Cut), strconv.Itoa(now.Cut))
	d.note(Change{What: ChangedCounts}, strconv.FormatBool(old.Counts), strconv.FormatBool(now.Counts))
	if !reflect.DeepEqual(old.Sequence, now.Sequence) {
		d.changes = append(d.changes, Change{What: ChangedSequence})
	}
}

// method notes each option that was changed, as "name value".
func (d *differ) method(old, now scoring.Method) {
	was, is := reflect.ValueOf(old), reflect.ValueOf(now)
	for i := range was.NumField() {
		name := strings.Split(was.Type().Field(i).Tag.Get("json"), ",")[0]
		d.note(Change{What: ChangedMethod}, fmt.Sprintf("%s %v", name, was.Field(i)), fmt.Sprintf("%s %v", name, is.Field(i)))
	}
}

func (d *differ) flights(old *scoring.Programme, oldResult *scoring.ProgrammeResult, now *scoring.Programme, nowResult *scoring.ProgrammeResult) {
	at := map[string]int{}
	for i := range old.Flights {
		at[old.Flights[i].Pilot] = i
	}
	for i := range now.Flights {
		before := flown{flight: &scoring.Flight{}, result: &scoring.FlightResult{}, panel: old.Panel}
		if j, ok := at[now.Flights[i].Pilot]; ok {
			before.flight, before.result = &old.Flights[j], &oldResult.Flights[j]
		}
		d.flight(before, flown{&now.Flights[i], &nowResult.Flights[i], now.Panel})
	}
}

// flown is a flight and what came of it.
type flown struct {
	flight *scoring.Flight
	result *scoring.FlightResult
	panel  []string
}

// flight notes what changed of a flight. A flight that nobody had graded before
// has all its grades new, which says nothing.
func (d *differ) flight(old, now flown) {
	c := Change{Pilot: now.flight.Pilot}
	c.What = ChangedStatus
	d.note(c, old.flight.Status, now.flight.Status)
	c.What = ChangedScore
	d.note(c, score(old.result), score(now.result))
	c.What = ChangedRank
	d.note(c, placed(old.result), placed(now.result))
	c.What = ChangedPenalty
	d.note(c, penalties(old.result), penalties(now.result))
	if len(old.flight.Sheets) == 0 {
		return
	}
	if !reflect.DeepEqual(old.flight.Sequence, now.flight.Sequence) {
		d.changes = append(d.changes, Change{What: ChangedSequence, Pilot: now.flight.Pilot})
	}
	d.grades(old, now)
	d.rulings(old.flight, now.flight)
}

func (d *differ) grades(old, now flown) {
	judges := slices.Clone(now.panel)
	for _, judge := range old.panel {
		if !slices.Contains(judges, judge) {
			judges = append(judges, judge)
		}
	}
	for _, judge := range judges {
		was, is := gradesOf(old.flight, judge), gradesOf(now.flight, judge)
		for i := range max(len(was), len(is)) {
			d.note(Change{What: ChangedGrade, Pilot: now.flight.Pilot, Item: i + 1, Judge: judge}, nth(was, i), nth(is, i))
		}
	}
}

func gradesOf(f *scoring.Flight, judge string) []scoring.Grade {
	for i := range f.Sheets {
		if f.Sheets[i].Judge == judge {
			return f.Sheets[i].Grades
		}
	}
	return nil
}

func nth(grades []scoring.Grade, i int) string {
	if i >= len(grades) {
		return ""
	}
	return grades[i].String()
}

func (d *differ) rulings(old, now *scoring.Flight) {
	was, is := rulingsOf(old), rulingsOf(now)
	items := maps.Clone(was)
	maps.Copy(items, is)
	for _, item := range slices.Sorted(maps.Keys(items)) {
		d.note(Change{What: ChangedRuling, Pilot: now.Pilot, Item: item}, was[item], is[item])
	}
}

// rulingsOf are the rulings of each item, in words.
func rulingsOf(f *scoring.Flight) map[int]string {
	of := map[int][]string{}
	for _, r := range f.Rulings {
		word := r.Ruling
		if r.Grade != nil {
			word += " " + r.Grade.String()
		}
		of[r.Item] = append(of[r.Item], word)
	}
	words := map[int]string{}
	for item, list := range of {
		slices.Sort(list)
		words[item] = strings.Join(list, ", ")
	}
	return words
}

func decimals(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }

func rank(r *int) string {
	if r == nil {
		return ""
	}
	return strconv.Itoa(*r)
}

func score(f *scoring.FlightResult) string {
	if f.Placing == nil {
		return ""
	}
	return decimals(f.Score)
}

func placed(f *scoring.FlightResult) string {
	if f.Placing == nil {
		return ""
	}
	return rank(f.Rank)
}

func penalties(f *scoring.FlightResult) string {
	if f.Judged == nil {
		return ""
	}
	return strconv.FormatFloat(f.Penalties, 'f', -1, 64)
}
