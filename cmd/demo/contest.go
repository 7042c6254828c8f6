// Package demo is an invented contest, half flown, and the judges who go on
// grading it. Its people, clubs, aeroplanes, catalogue numbers and K are made
// up; its sequences say nothing about what can be flown safely.
package demo

import (
	_ "embed"
	"encoding/json"
	"fmt"

	"halfpoint/scoring"
)

// seed makes every demo the same contest.
const seed = 0x48616c66706f696e

//go:embed people.json
var peopleJSON []byte

// people are names, clubs and, for pilots, aeroplanes; and what an announcer is to
// tell of some, by their names.
type people struct {
	Judges [][2]string       `json:"judges"`
	Pilots [][3]string       `json:"pilots"`
	Notes  map[string]string `json:"notes"`
	Free   map[string]string `json:"free"` // a free style in its pilot's words
}

// A level is one category of the contest.
type level struct {
	id, name  string
	pilots    int
	figures   int // of a sequence
	minK      int // of a sequence, in points
	maxK      int
	inverted  bool
	bold      bool    // the last pilot of the free asks for more than maxK
	skill     float64 // what the field flies on the average, 0 to 10
	programme [3]progress
}

// progress is how far a programme has come when the demo begins.
type progress struct {
	method string
	flown  int // flights that are graded, of those entered
}

var levels = []level{
	{"meadow", "Meadow", 14, 7, 94, 100, false, false, 6.6, [3]progress{{scoring.Consensus, 14}, {scoring.Consensus, 6}, {scoring.Consensus, 0}}},
	{"ridge", "Ridge", 9, 9, 128, 134, true, false, 7.2, [3]progress{{scoring.Consensus, 9}, {scoring.Consensus, 9}, {scoring.Consensus, 4}}},
	{"summit", "Summit", 5, 10, 148, 154, true, true, 7.8, [3]progress{{scoring.Normalised, 5}, {scoring.TrimmedMean, 3}, {scoring.Consensus, 0}}},
}

// Contest makes the contest as it stands when the demo begins.
func Contest() (*scoring.Bundle, error) {
	var who people
	if err := json.Unmarshal(peopleJSON, &who); err != nil {
		return nil, fmt.Errorf("reading the demo's people: %w", err)
	}
	figures, err := readFigures()
	if err != nil {
		return nil, err
	}
	b := &scoring.Bundle{
		Format:  scoring.BundleFormat,
		Contest: scoring.Contest{Name: "Tarn Valley Cup", Place: "Oskerfield", Starts: "2026-06-12", Ends: "2026-06-14"},
	}
	for i, j := range who.Judges {
		b.Judges = append(b.Judges, scoring.Judge{ID: fmt.Sprintf("j%d", i+1), Name: j[0], Affiliation: j[1]})
	}
	for i, p := range who.Pilots {
		b.Pilots = append(b.Pilots, scoring.Pilot{
			ID: fmt.Sprintf("p%d", i+1), Name: p[0], Affiliation: p[1], Aircraft: p[2], Note: who.Notes[p[0]],
		})
	}
	first := 0
	for i := range levels {
		b.Categories = append(b.Categories, makeCategory(&levels[i], b, first, figures))
		first += levels[i].pilots
	}
	who.describe(b)
	return b, nil
}

// describe gives free styles their pilots' words.
func (who *people) describe(b *scoring.Bundle) {
	names := map[string]string{}
	for _, p := range b.Pilots {
		names[p.ID] = p.Name
	}
	for _, c := range b.Categories {
		for _, p := range c.Programmes {
			for i := range p.Flights {
				if p.OwnSequences() {
					p.Flights[i].Description = who.Free[names[p.Flights[i].Pilot]]
				}
			}
		}
	}
}

func makeCategory(l *level, b *scoring.Bundle, first int, figures []scoring.Item) scoring.Category {
	c := scoring.Category{
		ID: l.id, Name: l.name,
		Combine: scoring.Combine{By: scoring.BySumPercent, TieBreak: []string{scoring.Unknown, scoring.Free}, TeamBest: 2},
	}
	pilots := b.Pilots[first : first+l.pilots]
	for i, p := range pilots {
		// The last of the largest field flies for the fun of it, without a rank.
		c.Entries = append(c.Entries, scoring.Entry{Pilot: p.ID, Ranked: l.pilots < 10 || i < l.pilots-1, Team: p.Affiliation})
	}
	for i, kind := range []string{scoring.Known, scoring.Free, scoring.Unknown} {
		c.Programmes = append(c.Programmes, makeProgramme(l, kind, l.programme[i], b.Judges, pilots, figures))
	}
	return c
}

func makeProgramme(l *level, kind string, so progress, judges []scoring.Judge, pilots []scoring.Pilot, figures []scoring.Item) scoring.Programme {
	p := scoring.Programme{ID: kind, Name: programmeNames[kind], Kind: kind, Counts: true, Method: scoring.DefaultMethod(so.method)}
	for _, j := range judges {
		p.Panel = append(p.Panel, j.ID)
	}
	if !p.OwnSequences() {
		p.Sequence = compose(l, figures, l.id+"/"+kind)
	}
	for i, at := range runningOrder(l.id+"/"+kind, len(pilots)) {
		f := scoring.Flight{Pilot: pilots[at].ID, Status: scoring.Scheduled}
		if p.OwnSequences() {
			f.Sequence = compose(l.asks(i == len(pilots)-1), figures, l.id+"/"+kind+"/"+f.Pilot)
		}
		if i < so.flown {
			f.Status = scoring.Flown
			grade(l, &p, &f)
		}
		p.Flights = append(p.Flights, f)
	}
	return p
}

// overLimit is how far above maxK the bold go, in points.
const overLimit = 6

// asks is the level as a pilot takes it: the last one may be bold.
func (l *level) asks(last bool) *level {
	if !last || !l.bold {
		return l
	}
	bolder := *l
	bolder.minK, bolder.maxK = l.maxK+1, l.maxK+overLimit
	return &bolder
}

var programmeNames = map[string]string{scoring.Known: "Known", scoring.Free: "Free", scoring.Unknown: "Unknown"}
