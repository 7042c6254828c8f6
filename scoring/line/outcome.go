package line

import (
	"maps"
	"slices"
)

// Outcome is what a flight hands on to be scored: of the attempt that counts,
// what is in force. What is not entered, in conflict, late, held or otherwise
// undecided is not in it; [Flight].Blocks says whether anything is.
type Outcome struct {
	Flight string
	// Status is scheduled, flown, not-flown, withdrawn or disqualified.
	Status    string
	Sheets    []Column // the panel's seats in their order
	Rulings   []Decision
	Penalties []Penalty
}

// Column is one seat's sheet: a grade for each item, "" where none is entered,
// and remarks for each item, nil where there are none.
type Column struct {
	Judge   string
	By      string
	Absent  bool
	Grades  []string
	Remarks []string
}

// Decision is a ruling in force; Grade is given with a grade that is set.
type Decision struct {
	Item   int
	Ruling string
	Grade  string
}

// Outcome returns what the flight hands on to be scored.
func (f *Flight) Outcome() Outcome {
	o := Outcome{Flight: f.Flight, Status: "scheduled"}
	switch {
	case isUnflown(f.Status):
		o.Status = f.Status
	case f.Status == StatusLanded, f.Status == StatusClosed:
		o.Status = "flown"
	}
	a := f.CountingAttempt()
	if a == nil {
		return o
	}
	for i := range a.Sheets {
		if !a.Sheets[i].OffPanel {
			o.Sheets = append(o.Sheets, a.Sheets[i].column())
		}
	}
	for _, r := range a.Rulings {
		if !r.Conflict {
			o.Rulings = append(o.Rulings, Decision{r.Item, r.Ruling, r.Grade})
		}
	}
	for _, p := range a.Penalties {
		if !p.Conflict {
			o.Penalties = append(o.Penalties, p.Penalty)
		}
	}
	return o
}

func (s *Sheet) column() Column {
	c := Column{Judge: s.Judge, By: s.By, Absent: s.Absent, Grades: make([]string, len(s.Cells))}
	for i, cell := range s.Cells {
		c.Grades[i] = cell.Grade
		if cell.Remark != "" && c.Remarks == nil {
			c.Remarks = make([]string, len(s.Cells))
		}
		if c.Remarks != nil {
			c.Remarks[i] = cell.Remark
		}
	}
	return c
}

// Sign returns what a signature of the sheet as it stands covers and stands
// for; ready is false while a cell is empty or in conflict.
func (s *Sheet) Sign() (covers []string, entries []Entry, ready bool) {
	ready = len(s.Cells) > 0
	for _, c := range s.Cells {
		covers = append(covers, c.Heads...)
		entries = append(entries, Entry{c.Grade, c.Remark})
		ready = ready && c.Grade != ""
	}
	return covers, entries, ready
}

// Seen returns what a closing of the flight's attempt covers: the ids, in
// order, of all records of it, whatever they are worth. What a later record
// says is then closed out.
func Seen(records []Stored, flight string, attempt int) []string {
	ids := map[string]bool{}
	for i := range records {
		c := cellOf(&records[i].Record)
		if c.flight == flight && c.attempt == max(attempt, 1) {
			ids[records[i].ID] = true
		}
	}
	return slices.Sorted(maps.Keys(ids))
}
