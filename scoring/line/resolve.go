package line

import (
	"cmp"
	"encoding/json"
	"slices"
	"strings"
)

// Resolve returns the state of every flight of the set-up. It changes nothing
// of what it is given, and the order and repetition of records make no
// difference. Malformed records (see [Check]) do no harm; what they do is not
// promised.
func Resolve(setup Setup, records []Stored) State {
	setup.Flights = bounded(setup.Flights)
	p := gather(setup, records)
	flights := make([]*flight, len(setup.Flights))
	for i := range setup.Flights {
		flights[i] = p.flight(&setup.Flights[i])
		flights[i].decideStatus()
		flights[i].close()
	}
	p.setAside()
	p.takeOver()
	state := State{Flights: make([]Flight, 0, len(flights))}
	for _, f := range flights {
		state.Flights = append(state.Flights, f.resolve())
	}
	state.Unplaced = p.unplaced()
	state.Standings = p.standings()
	return state
}

// bounded copies the flights with a number of items that a sequence can have.
func bounded(flights []FlightSetup) []FlightSetup {
	flights = slices.Clone(flights)
	for i := range flights {
		flights[i].Items = min(max(flights[i].Items, 0), MaxItem)
	}
	return flights
}

// cell is what records of one kind compete for.
type cell struct {
	flight  string
	attempt int
	kind    Kind
	judge   string
	item    int
	name    string // a penalty's kind, a ruling's question
}

func cellOf(r *Record) cell {
	c := cell{flight: r.Flight, kind: r.Kind, attempt: r.attempt()}
	switch r.Kind {
	case KindGrade:
		c.judge, c.item = r.Judge, r.Item
	case KindSign, KindReopen, KindAbsent:
		c.judge = r.Judge
	case KindRuling:
		c.item, c.name = r.Item, rulingFamily(r.Ruling)
	case KindPenalty:
		c.name = r.penalty().Kind
	default:
		c.attempt = 0
	}
	return c
}

func (r *Record) attempt() int { return max(r.Attempt, 1) }

func (r *Record) penalty() Penalty {
	if r.Penalty == nil {
		return Penalty{}
	}
	return *r.Penalty
}

// ofSheet tells whether the cell belongs to one seat's sheet.
func (c *cell) ofSheet() bool {
	return c.kind == KindGrade || c.kind == KindSign || c.kind == KindReopen || c.kind == KindAbsent
}

// counted tells whether the cell belongs to an attempt.
func (c *cell) counted() bool { return c.attempt > 0 }

// sameSheet tells whether two cells are of one seat's sheet, or of what the
// officials recorded of one attempt.
func (c *cell) sameSheet(o *cell) bool {
	return c.attempt == o.attempt && c.judge == o.judge && c.flight == o.flight && c.counted()
}

// order sorts the records of a flight: by attempt, the officials' first, then
// sheet by sheet; inside a cell by id.
func order(a, b *entry) int {
	if c := cmp.Compare(a.cell.attempt, b.cell.attempt); c != 0 {
		return c
	}
	if c := strings.Compare(a.cell.judge, b.cell.judge); c != 0 {
		return c
	}
	if c := strings.Compare(string(a.cell.kind), string(b.cell.kind)); c != 0 {
		return c
	}
	if c := cmp.Compare(a.cell.item, b.cell.item); c != 0 {
		return c
	}
	if c := strings.Compare(a.cell.name, b.cell.name); c != 0 {
		return c
	}
	return strings.Compare(a.ID, b.ID)
}

// entry is a record while it is resolved.
type entry struct {
	*Stored
	cell cell
	// bar is held, other-sequence or closed, "" for none; cause goes with it.
	bar, cause string
	aside      bool // set aside
	away       bool // taken over into another cell
	takes      bool // an official's, taking over records of the same content
	seen       bool // by the closing
	standing   Standing

	cover   []*entry // what it covers, once looked up; nil for what is not here
	set, at int      // the set it is in while heads are looked for, and its place there
	mark    int      // the signature that covers it, while that is looked at
	covered bool
}

// inForce tells whether the record takes part in its cell.
func (e *entry) inForce() bool {
	return !e.aside && !e.away && (e.bar == "" || e.bar == Closed && e.takes)
}

// same tells whether two records of one kind say the same.
func (e *entry) same(o *entry) bool {
	switch e.Kind {
	case KindGrade:
		return e.Grade == o.Grade
	case KindRuling:
		return e.Ruling == o.Ruling && e.Grade == o.Grade
	case KindPenalty:
		return e.penalty() == o.penalty()
	case KindAbsent:
		return e.isAbsent() == o.isAbsent()
	case KindStatus:
		return e.Status == o.Status && e.attempt() == o.attempt()
	}
	return true
}

func (e *entry) isAbsent() bool { return e.Absent != nil && *e.Absent }

// decides tells whether an official made the record and said why.
func (e *entry) decides() bool { return e.Author.official() && e.Reason != "" }

// pool is the set of records.
type pool struct {
	setup    Setup
	entries  []entry
	byID     map[string]*entry
	byFlight map[string]*group
	sets     int // how many sets heads were looked for in
	marks    int // how many signatures were looked at
	scratch  []*entry
}

// group is the records that name one flight, in order.
type group struct {
	plan    *FlightSetup // nil for a flight that the set-up does not know
	entries []*entry
}

func gather(setup Setup, records []Stored) *pool {
	p := &pool{setup: setup, byID: make(map[string]*entry, len(records)), byFlight: map[string]*group{}}
	for i := range setup.Flights {
		p.byFlight[setup.Flights[i].Flight] = &group{plan: &setup.Flights[i]}
	}
	p.entries = make([]entry, 0, len(records)) // never grows: byID points into it
	for i := range records {
		r := &records[i]
		if twin := p.byID[r.ID]; twin != nil {
			twin.Stored = first(twin.Stored, r)
			continue
		}
		p.entries = append(p.entries, entry{Stored: r})
		p.byID[r.ID] = &p.entries[len(p.entries)-1]
	}
	p.sort()
	return p
}

// sort gives every record its cell, what bars it, and its place among those of
// its flight.
func (p *pool) sort() {
	for i := range p.entries {
		e := &p.entries[i]
		g := p.byFlight[e.Flight]
		if g == nil {
			g = &group{}
			p.byFlight[e.Flight] = g
		}
		e.cell = cellOf(&e.Record)
		e.bar, e.cause = bar(e.Stored, g.plan)
		g.entries = append(g.entries, e)
	}
	for _, g := range p.byFlight {
		slices.SortFunc(g.entries, order)
	}
}

// find returns the records with these ids, nil for one that is not here.
func (p *pool) find(ids []string) []*entry {
	if len(ids) == 0 {
		return nil
	}
	found := make([]*entry, len(ids))
	for i, id := range ids {
		found[i] = p.byID[id]
	}
	return found
}

// covers returns the records that e covers.
func (p *pool) covers(e *entry) []*entry {
	if e.cover == nil {
		e.cover = p.find(e.Covers)
	}
	return e.cover
}

// first chooses between two records of one id. Stores refuse a second one with
// other content; should two come all the same, the choice must not depend on
// which came first.
func first(a, b *Stored) *Stored {
	if a == b || a.Author == b.Author && a.Same(b.Record) {
		return a
	}
	x, _ := json.Marshal(a) // fails for no record that was read from JSON
	y, _ := json.Marshal(b)
	if string(y) < string(x) {
		return b
	}
	return a
}

func (p *pool) standings() map[string]Standing {
	all := make(map[string]Standing, len(p.entries))
	for i := range p.entries {
		all[p.entries[i].ID] = p.entries[i].standing
	}
	return all
}
