package line

import (
	"slices"
	"strings"
)

// What a block is about.
const (
	BlockStatus   = "status"   // the flight is not over, or that is contradicted
	BlockSheet    = "sheet"    // a seat has not signed
	BlockConflict = "conflict" // a cell has grades that differ
	BlockAbsent   = "absent"   // it is contradicted whether a seat is absent
	BlockRuling   = "ruling"
	BlockPenalty  = "penalty"
	BlockRecord   = "record" // it waits for a decision
)

// block lists what keeps the flight from becoming official. Only the attempt
// that counts is asked; a flight that ends without a score needs no sheets.
func (f *flight) block() {
	state := &f.state
	switch {
	case state.StatusConflict:
		f.add(Block{Cause: BlockStatus, State: Conflict})
	case state.Status != StatusClosed && !isUnflown(state.Status):
		f.add(Block{Cause: BlockStatus, State: state.Status})
	}
	if !isUnflown(state.Status) {
		if a := state.CountingAttempt(); a != nil {
			f.blockAttempt(a)
		}
	}
	at := len(state.Blocks)
	for _, e := range f.entries {
		relevant := !e.cell.counted() || e.cell.attempt == state.Counting && !isUnflown(state.Status)
		if relevant && (waits(e.standing) || e.standing.Standing == Waits) {
			f.add(Block{Cause: BlockRecord, Judge: e.cell.judge, Item: e.cell.item, Record: e.ID, State: e.standing.Standing})
		}
	}
	slices.SortFunc(state.Blocks[at:], func(a, b Block) int { return strings.Compare(a.Record, b.Record) })
}

func (f *flight) add(b Block) { f.state.Blocks = append(f.state.Blocks, b) }

// CountingAttempt is the attempt that counts, nil where that is undecided.
func (f *Flight) CountingAttempt() *Attempt {
	for i := range f.Attempts {
		if f.Attempts[i].Attempt == f.Counting {
			return &f.Attempts[i]
		}
	}
	return nil
}

// Sheet is a judge's sheet of the attempt that counts, nil where there is none.
func (f *Flight) Sheet(judge string) *Sheet {
	a := f.CountingAttempt()
	if a == nil {
		return nil
	}
	for i := range a.Sheets {
		if a.Sheets[i].Judge == judge {
			return &a.Sheets[i]
		}
	}
	return nil
}

func (f *flight) blockAttempt(a *Attempt) {
	for _, r := range a.Rulings {
		if r.Conflict {
			f.add(Block{Cause: BlockRuling, Item: r.Item, State: r.Ruling})
		}
	}
	for _, p := range a.Penalties {
		if p.Conflict {
			f.add(Block{Cause: BlockPenalty, State: p.Kind})
		}
	}
	for i := range a.Sheets {
		if !a.Sheets[i].OffPanel {
			f.blockSheet(&a.Sheets[i])
		}
	}
}

func (f *flight) blockSheet(s *Sheet) {
	if s.AbsentConflict {
		f.add(Block{Cause: BlockAbsent, Judge: s.Judge})
	}
	if s.Absent {
		return
	}
	if s.Signature.State != Signed {
		f.add(Block{Cause: BlockSheet, Judge: s.Judge, State: s.Signature.State})
	}
	for _, c := range s.Cells {
		if c.Conflict {
			f.add(Block{Cause: BlockConflict, Judge: s.Judge, Item: c.Item})
		}
	}
}
