package db

import (
	"slices"
	"strings"

	"github.com/google/uuid"

	"halfpoint/scoring/document"
)

const (
	maxProgrammes = 20 // of a category
	maxPenalties  = 50 // kinds of a contest
)

// check complains about all that a change may not do, and about all that the
// set-up cannot be afterwards. The rules of a bundle are those of a bundle's own
// reader.
func (m *merged) check(u *uses, reason string) error {
	c := &setupCheck{merged: m, uses: u}
	c.counts()
	c.texts()
	c.kindsOnce()
	c.codesOnce()
	c.programmesInOrder()
	c.references()
	c.usedEntries()
	c.usedProgrammes(reason)
	if err := c.report.Err(); err != nil {
		return err // a bundle of rows that refer to nothing would only say so again
	}
	if err := c.bundle(); err != nil {
		return err
	}
	return c.report.Err()
}

type setupCheck struct {
	*merged
	uses   *uses
	report document.Report
}

// add complains about a row, where the change names it, or else about the row
// whose removal is to blame.
func (c *setupCheck) add(id uuid.UUID, field, format string, args ...any) {
	c.report.Add(c.place(id, field), format, args...)
}

// place is that of a row's field in the change.
func (c *setupCheck) place(id uuid.UUID, field string) string {
	place := c.places[id]
	if place != "" && field != "" {
		place += "." + field
	}
	return place
}

func (c *setupCheck) counts() {
	programmes := map[uuid.UUID]int{}
	for _, p := range c.after.Programmes {
		programmes[p.Category]++
	}
	most := 0
	for _, n := range programmes {
		most = max(most, n)
	}
	for _, list := range []struct {
		name    string
		n, most int
	}{
		{"pilots", len(c.after.Pilots), maxPilots},
		{"officials", len(c.after.Officials), maxJudges},
		{"categories", len(c.after.Categories), maxCategories},
		{"penalties", len(c.after.Penalties), maxPenalties},
		{"programmes", most, maxProgrammes},
	} {
		if list.n > list.most {
			c.report.Add(list.name, "%d are more than the %d that there can be", list.n, list.most)
		}
	}
}

// texts looks at what was typed.
func (c *setupCheck) texts() {
	c.contestTexts()
	c.penaltyTexts()
	c.peopleTexts()
	for _, g := range c.categories.put {
		c.name(g.ID, "code", g.Code)
		c.line(g.ID, "name", g.Name)
	}
	for _, e := range c.entries.put {
		c.line(e.ID, "team", e.Team)
	}
	for _, p := range c.programmes.put {
		c.name(p.ID, "code", p.Code)
		c.line(p.ID, "name", p.Name)
	}
}

func (c *setupCheck) contestTexts() {
	p := c.contestPut
	if p == nil {
		return
	}
	c.name(p.ID, "name", p.Name)
	c.line(p.ID, "place", p.Place)
	if !slices.Contains([]string{Closed, Published, Live}, p.Opened) {
		c.add(p.ID, "opened", "%q is none of closed, published and live", p.Opened)
	}
}

func (c *setupCheck) penaltyTexts() {
	for _, p := range c.penalties.put {
		KindBound.Check(&c.report, c.place(p.ID, "kind"), p.Kind)
		if p.Points < 0 || p.Points > maxPenaltyPoints {
			c.add(p.ID, "points", "%v is not from 0 to %d points", p.Points, maxPenaltyPoints)
		}
	}
}

func (c *setupCheck) peopleTexts() {
	for _, o := range c.officials.put {
		c.name(o.ID, "code", o.Code)
		c.line(o.ID, "name", o.Name)
		c.line(o.ID, "affiliation", o.Affiliation)
	}
	for _, p := range c.pilots.put {
		c.name(p.ID, "code", p.Code)
		c.line(p.ID, "name", p.Name)
		c.line(p.ID, "affiliation", p.Affiliation)
		c.line(p.ID, "aircraft", p.Aircraft)
		AboutBound.Check(&c.report, c.place(p.ID, "note"), p.Note)
	}
}

// maxPenaltyPoints is well above any score.
const maxPenaltyPoints = 1_000_000

// name and line hold what was typed to its bound.
func (c *setupCheck) name(id uuid.UUID, field, text string) {
	NameBound.Check(&c.report, c.place(id, field), text)
}

func (c *setupCheck) line(id uuid.UUID, field, text string) {
	LineBound.Check(&c.report, c.place(id, field), text)
}

// kindsOnce complains of penalties of one name.
func (c *setupCheck) kindsOnce() {
	kinds := map[string]bool{}
	for _, p := range c.after.Penalties {
		if kinds[p.Kind] {
			c.add(p.ID, "kind", "there is another penalty %q", p.Kind)
		}
		kinds[p.Kind] = true
	}
}

// codesOnce complains of officials of one code: the reader of a bundle looks at
// the judges' alone.
func (c *setupCheck) codesOnce() {
	codes := map[string]bool{}
	for _, o := range c.after.Officials {
		if codes[o.Code] {
			c.add(o.ID, "code", "another official has the code %q", o.Code)
		}
		codes[o.Code] = true
	}
}

// programmesInOrder complains of programmes of a category that would be flown at
// the same time.
func (c *setupCheck) programmesInOrder() {
	type place struct {
		category uuid.UUID
		position int
	}
	taken := map[place]bool{}
	for _, p := range c.after.Programmes {
		at := place{p.Category, p.Position}
		if taken[at] {
			c.add(p.ID, "position", "another programme of the category is flown at this place")
		}
		taken[at] = true
	}
}

// references holds every row to rows that there are.
func (c *setupCheck) references() {
	pilots, categories := ids(c.after.Pilots), ids(c.after.Categories)
	judges := map[uuid.UUID]bool{}
	for _, o := range c.after.Officials {
		judges[o.ID] = o.Duty == judgeDuty
	}
	for _, e := range c.after.Entries {
		c.refers(e.ID, "category", e.Category, categories, "an entry is in this category: take the entry out first")
		c.refers(e.ID, "pilot", e.Pilot, pilots, "this pilot is entered in a category: take the entry out first")
	}
	for _, p := range c.after.Programmes {
		c.refers(p.ID, "category", p.Category, categories, "a programme is in this category: take the programme out first")
		for _, judge := range p.Panel {
			c.refers(p.ID, "panel", judge, judges, "this judge is on a panel: take the seat out first")
		}
	}
}

func ids[R any, P rowOf[R]](list []R) map[uuid.UUID]bool {
	there := map[uuid.UUID]bool{}
	for i := range list {
		there[P(&list[i]).head().ID] = true
	}
	return there
}

// refers complains of a row that refers to nothing: about the row, or about the
// one that the change takes away from under it.
func (c *setupCheck) refers(row uuid.UUID, field string, to uuid.UUID, there map[uuid.UUID]bool, why string) {
	switch {
	case there[to]:
	case c.places[row] != "":
		c.add(row, field, "there is no such one in the contest")
	default:
		c.add(to, "", "%s", why)
	}
}

// usedEntries keeps the entries of pilots who have flights or sequences.
func (c *setupCheck) usedEntries() {
	left := map[[2]uuid.UUID]bool{}
	for _, e := range c.after.Entries {
		left[[2]uuid.UUID{e.Category, e.Pilot}] = true
	}
	for _, e := range c.before.Entries {
		if key := [2]uuid.UUID{e.Category, e.Pilot}; c.uses.entered[key] && !left[key] {
			c.add(e.ID, "", "the pilot has a flight or a sequence in this category; withdraw the flight instead")
		}
	}
}

// usedProgrammes keeps programmes that are being flown as they are.
func (c *setupCheck) usedProgrammes(reason string) {
	after := map[uuid.UUID]ProgrammeRow{}
	for _, p := range c.after.Programmes {
		after[p.ID] = p
	}
	for _, was := range c.before.Programmes {
		is, stays := after[was.ID]
		switch {
		case !c.uses.flown[was.ID]:
		case !stays:
			c.add(was.ID, "", "the programme has flights or sequences")
		case is.Kind != was.Kind:
			c.add(was.ID, "kind", "the programme has flights or sequences of its kind")
		case is.Category != was.Category:
			c.add(was.ID, "category", "the programme has flights or sequences in its category")
		default:
			c.startedProgramme(was, is, reason)
		}
	}
}

// startedProgramme lets a method change after the first call only with a reason,
// and keeps the seats that have graded.
func (c *setupCheck) startedProgramme(was, is ProgrammeRow, reason string) {
	if c.uses.called[was.ID] && is.Method != was.Method && strings.TrimSpace(reason) == "" {
		c.add(was.ID, "method", "the first flight was called: a change now needs a reason, which is published with the results")
	}
	for n, judge := range was.Panel {
		if c.uses.graded[[2]uuid.UUID{was.ID, judge}] && !slices.Contains(is.Panel, judge) {
			c.add(was.ID, "panel", "seat %d has graded; have it marked absent instead", n+1)
		}
	}
}
