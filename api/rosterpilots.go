package api

import (
	"slices"
	"strings"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/table"
)

// pilotTitles are the columns of a table of pilots and entries.
var pilotTitles = []string{"code", "name", "affiliation", "aircraft", "note", "category", "ranked", "team"}

// pilotRows has a row for each entry, and one for each pilot without any.
func pilotRows(s *db.Setup) [][]string {
	rows := [][]string{pilotTitles}
	categories := map[uuid.UUID]string{}
	for _, c := range s.Categories {
		categories[c.ID] = c.Code
	}
	for _, p := range s.Pilots {
		who, entered := []string{p.Code, p.Name, p.Affiliation, p.Aircraft, p.Note}, false
		for _, e := range s.Entries {
			if e.Pilot == p.ID {
				entered = true
				rows = append(rows, append(slices.Clone(who), categories[e.Category], inYesNo(e.Ranked), e.Team))
			}
		}
		if !entered {
			rows = append(rows, append(who, "", "", ""))
		}
	}
	return rows
}

func inYesNo(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

// An entryKey is a category and a pilot.
type entryKey struct{ category, pilot uuid.UUID }

// A pilotReader lays a table over the pilots and entries that there are.
type pilotReader struct {
	*roster
	setup   *db.Setup
	pilots  []db.PilotRow // those that there are, then new ones
	entries []db.EntryRow
	entered map[entryKey]int // the row of the table that enters a pilot
}

func readPilots(text []byte, s *db.Setup) (SetupTable, error) {
	p := &pilotReader{
		roster: newRoster(), setup: s, entered: map[entryKey]int{},
		pilots: slices.Clone(s.Pilots), entries: slices.Clone(s.Entries),
	}
	for _, one := range s.Pilots {
		p.enter(one.ID, one.Code, one.Name)
	}
	p.read(text, pilotTitles, p.row)
	return SetupTable{
		Rows: p.rows, Officials: []SetupOfficial{},
		Pilots:  each(unlike(p.pilots, s.Pilots), setupPilotOf),
		Entries: each(unlike(p.entries, s.Entries), setupEntryOf),
	}, p.err()
}

// unlike leaves out the rows that are as they were.
func unlike[R comparable](now, before []R) (rows []R) {
	for i, r := range now {
		if i >= len(before) || r != before[i] {
			rows = append(rows, r)
		}
	}
	return rows
}

func (p *pilotReader) row(r table.Record) {
	who, ok := p.find(r)
	if !ok {
		return
	}
	one := p.pilot(who)
	if who.code != "" {
		r.Check("code", db.NameBound, who.code)
	}
	readText(r, "name", &one.Name, db.NameBound, who.first)
	readText(r, "affiliation", &one.Affiliation, db.LineBound, who.first)
	readText(r, "aircraft", &one.Aircraft, db.LineBound, who.first)
	readText(r, "note", &one.Note, db.AboutBound, who.first)
	p.entry(r, who)
}

// pilot is the row of a pilot, made where there is none.
func (p *pilotReader) pilot(who person) *db.PilotRow {
	made := db.PilotRow{Code: who.code}
	return rowFor(&p.pilots, who, made, func(one *db.PilotRow) *db.RowHead { return &one.RowHead })
}

// entry reads what a row says of a category.
func (p *pilotReader) entry(r table.Record, who person) {
	text := r.Text("category")
	if text == "" {
		p.withoutEntry(r, who)
		return
	}
	category, ok := p.category(text)
	if !ok {
		r.Complain("category", "there is no category %q; there are: %s", text, p.categories())
		return
	}
	key := entryKey{category, who.id}
	if line := p.entered[key]; line > 0 {
		r.Complain("category", "row %d enters the same pilot in this category", line)
		return
	}
	p.entered[key] = r.Line
	e := p.entryRow(key)
	readText(r, "team", &e.Team, db.LineBound, 0)
	if r.Has("ranked") {
		p.ranked(r, e)
	}
}

func (p *pilotReader) withoutEntry(r table.Record, who person) {
	switch {
	case r.Text("team") != "":
		r.Complain("team", "a pilot without a category has no team")
	case r.Text("ranked") != "":
		r.Complain("ranked", "a pilot without a category is neither ranked nor hors concours")
	case who.first > 0:
		r.Complain("name", "row %d is about the same pilot", who.first)
	}
}

// category finds one by its code or its name.
func (p *pilotReader) category(text string) (uuid.UUID, bool) {
	for _, c := range p.setup.Categories {
		if strings.EqualFold(c.Code, text) || strings.EqualFold(c.Name, text) {
			return c.ID, true
		}
	}
	return uuid.Nil, false
}

func (p *pilotReader) categories() string {
	codes := make([]string, len(p.setup.Categories))
	for i, c := range p.setup.Categories {
		codes[i] = c.Code
	}
	if len(codes) == 0 {
		return "none yet"
	}
	return strings.Join(codes, ", ")
}

// entryRow is the row of an entry, made where there is none.
func (p *pilotReader) entryRow(key entryKey) *db.EntryRow {
	last := 0
	for i, e := range p.entries {
		if e.Category != key.category {
			continue
		}
		if e.Pilot == key.pilot {
			return &p.entries[i]
		}
		last = max(last, e.Position)
	}
	p.entries = append(p.entries, db.EntryRow{
		RowHead: db.RowHead{ID: uuid.New(), Position: last + 1}, Category: key.category, Pilot: key.pilot, Ranked: true,
	})
	return &p.entries[len(p.entries)-1]
}

func (p *pilotReader) ranked(r table.Record, e *db.EntryRow) {
	switch strings.ToLower(r.Text("ranked")) {
	case "", "yes", "y", "true", "1":
		e.Ranked = true
	case "no", "n", "false", "0":
		e.Ranked = false
	default:
		r.Complain("ranked", "%q is neither yes nor no; no is hors concours", r.Text("ranked"))
	}
}
