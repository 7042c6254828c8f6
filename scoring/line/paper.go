package line

import "slices"

// A Reading is what one person read off a paper sheet.
type Reading struct {
	// Entries has one for each item; an empty grade where the paper says
	// nothing, so that what a tablet entered stays.
	Entries []Entry
	// Signed: the judge's signature stands on the paper.
	Signed bool
}

// Unlike returns the items, counted from 1, to which two readings of the same
// paper give different grades; 0 stands for the signature. Remarks may differ:
// they count nothing.
func Unlike(a, b Reading) []int {
	var items []int
	if a.Signed != b.Signed {
		items = append(items, 0)
	}
	for i := range a.Entries {
		if a.Entries[i].Grade != b.Entries[i].Grade {
			items = append(items, i+1)
		}
	}
	return items
}

// Compared folds the readings of one paper, in the order in which they were
// made, to the two that are to be held against each other; there must be two or
// more. A third reading settles whatever it shares with one of the two before;
// where it shares nothing, it is the one before that is doubted still.
func Compared(readings []Reading) (before, last Reading) {
	before, last = readings[0], readings[1]
	for _, next := range readings[2:] {
		before, last = settled(before, last, next), next
	}
	return before, last
}

// settled is the reading that next is held against.
func settled(before, last, next Reading) Reading {
	against := Reading{Entries: slices.Clone(last.Entries), Signed: next.Signed}
	for i, e := range next.Entries {
		if before.Entries[i].Grade == e.Grade {
			against.Entries[i] = before.Entries[i]
		}
	}
	return against
}

// A Paper is a paper sheet whose two readings agree, beside the sheet as it
// stands.
type Paper struct {
	Contest  string
	Flight   string
	Sequence string // its digest
	Attempt  int
	Sheet    *Sheet
	Reading  Reading
}

// The reasons in the records that a paper makes.
const (
	keyedReason  = "keyed from paper"
	signedReason = "signed on paper"
)

// Empty returns the items, counted from 1, of which neither the paper nor the
// sheet has a grade.
func (p *Paper) Empty() []int {
	var items []int
	for i := range p.Sheet.Cells {
		if p.entry(i).Grade == "" {
			items = append(items, i+1)
		}
	}
	return items
}

// Records are what the paper adds to the sheet: the grades that the sheet does
// not show yet and, where the paper is signed, the signature. Each comes from
// fresh, which gives it an id and a place in a store.
func (p *Paper) Records(fresh func() Record) []Record {
	var records []Record
	var covers []string
	for i := range p.Sheet.Cells {
		c := &p.Sheet.Cells[i]
		if p.stands(i) {
			covers = append(covers, c.Heads...)
			continue
		}
		r := p.record(fresh(), KindGrade, keyedReason)
		e := p.entry(i)
		r.Item, r.Grade, r.Remark, r.Sequence, r.Replaces = c.Item, e.Grade, e.Remark, p.Sequence, c.Heads
		records, covers = append(records, r), append(covers, r.ID)
	}
	if p.Reading.Signed {
		records = append(records, p.signature(fresh(), covers))
	}
	return records
}

// stands tells whether the sheet says already what the paper says of an item.
func (p *Paper) stands(item int) bool {
	c, e := &p.Sheet.Cells[item], p.entry(item)
	return e.Grade == c.Grade && e.Remark == c.Remark && !c.Conflict
}

// entry is what the sheet will say of an item: the paper's, or what is there.
func (p *Paper) entry(item int) Entry {
	c, e := &p.Sheet.Cells[item], p.Reading.Entries[item]
	if e.Grade == "" {
		return Entry{c.Grade, c.Remark}
	}
	if e.Remark == "" {
		e.Remark = c.Remark
	}
	return e
}

func (p *Paper) record(r Record, kind Kind, reason string) Record {
	r.Kind, r.Flight, r.Attempt, r.Judge, r.Reason = kind, p.Flight, p.Attempt, p.Sheet.Judge, reason
	return r
}

func (p *Paper) signature(r Record, covers []string) Record {
	entries := make([]Entry, len(p.Sheet.Cells))
	for i := range entries {
		entries[i] = p.entry(i)
	}
	r = p.record(r, KindSign, signedReason)
	r.Covers, r.After = covers, p.Sheet.Reopens
	r.Digest = SheetDigest(p.Contest, p.Flight, p.Sheet.Judge, p.Sequence, entries)
	return r
}
