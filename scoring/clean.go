package scoring

import "slices"

// A Table is a programme's sheets with every code decided on: what counts as a
// number, what is a gap that the method has to fill, and why.
type Table struct {
	Programme *Programme
	Seats     int           // judges on the panel
	Flights   []CleanFlight // every flight of the programme, in its order
}

// A CleanFlight is one flight of a Table. A flight that scores 0 without
// having been graded, and one that is only scheduled, has no cells.
type CleanFlight struct {
	Flight     *Flight
	Items      []Item
	Cells      []Cell // by item, then seat: item × seats + seat
	Absent     []bool // by seat
	Complete   bool   // flown, and every grade is there
	Unresolved []int  // items that need a decision, from 1; never nil
}

// A Cell is one seat's grade for one item.
type Cell struct {
	Grade  Grade  // as given
	Value  Grade  // what counts, 0 to 20 half points, where it is not a gap
	Gap    bool   // no value: the method fills it
	Reason Reason // why the value is not the grade
}

// Scored tells whether the flight takes part in the method.
func (f *CleanFlight) Scored() bool { return f.Complete && len(f.Unresolved) == 0 }

// Graded tells whether a seat graded the flight: it is not absent and has an
// entry other than "not seen".
func (f *CleanFlight) Graded(seat int) bool {
	if f.Absent[seat] {
		return false
	}
	for i := seat; i < len(f.Cells); i += len(f.Absent) {
		if f.Cells[i].Grade != NotSeen {
			return true
		}
	}
	return false
}

// Row is the cells of an item, counted from 0, by seat.
func (f *CleanFlight) Row(item int) []Cell {
	n := len(f.Absent)
	return f.Cells[item*n : (item+1)*n : (item+1)*n]
}

// Scored lists the flights that take part in the method.
func (t *Table) Scored() []*CleanFlight {
	var scored []*CleanFlight
	for i := range t.Flights {
		if t.Flights[i].Scored() {
			scored = append(scored, &t.Flights[i])
		}
	}
	return scored
}

// Clean decides on every code of a programme's sheets.
func Clean(p *Programme) *Table {
	t := &Table{Programme: p, Seats: len(p.Panel), Flights: make([]CleanFlight, len(p.Flights))}
	seats := make(map[string]int, t.Seats)
	for seat, judge := range p.Panel {
		seats[judge] = seat
	}
	for i := range p.Flights {
		t.Flights[i] = cleanFlight(p, &p.Flights[i], seats)
	}
	return t
}

func cleanFlight(p *Programme, flight *Flight, seats map[string]int) CleanFlight {
	f := CleanFlight{Flight: flight, Items: p.Items(flight), Absent: make([]bool, len(seats)), Unresolved: []int{}}
	if flight.Status != Flown {
		return f
	}
	f.Cells = make([]Cell, len(f.Items)*len(seats))
	f.enterSheets(seats)
	f.Complete = true
	for i := range f.Items {
		row := cleanRow{cells: f.Row(i), absent: f.Absent, method: &p.Method, rulings: rulingsOf(flight, i+1)}
		f.Complete = f.Complete && row.entered()
		row.clean()
		if row.gapsOnly() {
			f.Unresolved = append(f.Unresolved, i+1)
		}
	}
	return f
}

// enterSheets copies the grades into the cells; what no sheet holds stays not
// entered.
func (f *CleanFlight) enterSheets(seats map[string]int) {
	for i := range f.Cells {
		f.Cells[i].Grade = NotEntered
	}
	for _, sheet := range f.Flight.Sheets {
		seat, ok := seats[sheet.Judge]
		if !ok {
			continue
		}
		f.Absent[seat] = sheet.Absent
		for i, g := range sheet.Grades[:min(len(sheet.Grades), len(f.Items))] {
			f.Row(i)[seat].Grade = g
		}
	}
}

// rulingsOf lists the rulings on an item, counted from 1.
func rulingsOf(f *Flight, item int) []Ruling {
	var rulings []Ruling
	for _, r := range f.Rulings {
		if r.Item == item {
			rulings = append(rulings, r)
		}
	}
	return rulings
}

// A cleanRow is one item of one flight while its codes are decided on.
type cleanRow struct {
	cells   []Cell
	absent  []bool
	method  *Method
	rulings []Ruling

	n, hard, zeros int // seats that graded; hard zeros; zeros of any kind
}

// entered tells whether every seat that is there has an entry.
func (r *cleanRow) entered() bool {
	for seat, c := range r.cells {
		if c.Grade == NotEntered && !r.absent[seat] {
			return false
		}
	}
	return true
}

// clean gives every cell its value, or a gap, and its reason.
func (r *cleanRow) clean() {
	r.count()
	if r.hardZeroConfirmed() {
		for seat := range r.cells {
			r.cells[seat].Value, r.cells[seat].Reason = 0, ReasonHardZeroConfirmed
		}
		return
	}
	for seat := range r.cells {
		r.cleanCell(seat)
	}
	if set := r.gradeSet(); set != nil && r.gapsOnly() {
		for seat := range r.cells {
			c := &r.cells[seat]
			c.Value, c.Gap, c.Reason = *set, false, ReasonGradeSet
		}
	}
}

func (r *cleanRow) count() {
	for seat, c := range r.cells {
		if r.absent[seat] || c.Grade == NotSeen || c.Grade == NotEntered {
			continue
		}
		r.n++
		switch c.Grade {
		case HardZero:
			r.hard++
			r.zeros++
		case PerceptionZero, 0:
			r.zeros++
		}
	}
}

// hardZeroConfirmed tells whether the item is a zero for all: by a ruling, or
// by a majority that no ruling takes back. One judge alone is no majority.
func (r *cleanRow) hardZeroConfirmed() bool {
	switch {
	case r.ruled(HardZeroConfirmed):
		return true
	case r.ruled(HardZeroOverruled) || r.hard < 2:
		return false
	case r.method.HardZeroMajority == HalfOrMore:
		return 2*r.hard >= r.n
	}
	return 2*r.hard > r.n
}

func (r *cleanRow) cleanCell(seat int) {
	c := &r.cells[seat]
	switch {
	case r.absent[seat]:
		c.Gap, c.Reason = true, ReasonSeatAbsent
	case c.Grade == NotSeen:
		c.Gap, c.Reason = true, ReasonNotSeen
	case c.Grade == HardZero:
		c.Gap, c.Reason = r.hardZero()
	case c.Grade == PerceptionZero:
		c.Gap, c.Reason = r.perceptionZero()
	case c.Grade.Numeric():
		c.Value = c.Grade
	}
}

// hardZero says what becomes of the hard zeros of a row in which they are not
// confirmed.
func (r *cleanRow) hardZero() (gap bool, reason Reason) {
	switch {
	case r.ruled(HardZeroOverruled):
		return true, ReasonHardZeroOverruled
	case 2*r.zeros > r.n:
		return false, ReasonZeroByMajority
	}
	return true, ReasonHardZeroNotUpheld
}

// perceptionZero says what becomes of the perception zeros of a row.
func (r *cleanRow) perceptionZero() (gap bool, reason Reason) {
	switch {
	case r.ruled(PerceptionZeroConfirmed):
		return false, ReasonPerceptionZeroConfirmed
	case r.ruled(PerceptionZeroOverruled):
		return true, ReasonPerceptionZeroOverruled
	case r.method.PerceptionZero != AsGraded && 2*r.zeros < r.n:
		return true, ReasonPerceptionZeroNotUpheld
	}
	return false, NoReason
}

func (r *cleanRow) ruled(ruling string) bool {
	return slices.ContainsFunc(r.rulings, func(one Ruling) bool { return one.Ruling == ruling })
}

func (r *cleanRow) gradeSet() *Grade {
	for _, one := range r.rulings {
		if one.Ruling == GradeSet {
			return one.Grade
		}
	}
	return nil
}

// gapsOnly tells whether the row has no value at all.
func (r *cleanRow) gapsOnly() bool {
	return !slices.ContainsFunc(r.cells, func(c Cell) bool { return !c.Gap })
}
