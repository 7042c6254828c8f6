package line

import (
	"slices"
	"strings"
)

// flight is one flight while it is resolved.
type flight struct {
	*pool
	plan     *FlightSetup
	entries  []*entry // in order
	statuses []*entry // heads
	state    Flight
}

func (p *pool) flight(plan *FlightSetup) *flight {
	return &flight{pool: p, plan: plan, entries: p.byFlight[plan.Flight].entries, state: Flight{Flight: plan.Flight, Attempts: []Attempt{}}}
}

func (f *flight) resolve() Flight {
	byAttempt := map[int][]*entry{}
	if f.state.Counting > 0 {
		byAttempt[f.state.Counting] = nil
	}
	runs(f.entries, func(a, b *cell) bool { return a.attempt == b.attempt }, func(run []*entry) {
		if run[0].cell.counted() {
			byAttempt[run[0].cell.attempt] = run
		} else {
			f.settleOthers(run)
		}
	})
	for n, entries := range byAttempt {
		f.state.Attempts = append(f.state.Attempts, f.attempt(n, entries))
	}
	slices.SortFunc(f.state.Attempts, func(a, b Attempt) int { return a.Attempt - b.Attempt })
	f.block()
	return f.state
}

// settleOthers settles the records of no attempt. Statuses that differ and yet
// agree, one being further on, are no conflict.
func (f *flight) settleOthers(list []*entry) {
	runs(list, sameCell, func(run []*entry) { f.settle(run) })
	if !f.state.StatusConflict {
		for _, e := range f.statuses {
			e.standing.Standing = Head
		}
	}
}

func (f *flight) attempt(n int, entries []*entry) Attempt {
	a := Attempt{Attempt: n, Sheets: make([]Sheet, 0, len(f.plan.Panel))}
	byJudge := map[string][]*entry{}
	runs(entries, func(a, b *cell) bool { return a.judge == b.judge && a.ofSheet() == b.ofSheet() }, func(run []*entry) {
		if run[0].cell.ofSheet() {
			byJudge[run[0].cell.judge] = append(byJudge[run[0].cell.judge], run...)
			return
		}
		runs(run, sameCell, func(run []*entry) { f.verdict(&a, run) })
	})
	for _, judge := range f.plan.Panel {
		a.Sheets = append(a.Sheets, f.sheet(judge, byJudge[judge]))
		delete(byJudge, judge)
	}
	panel := len(a.Sheets)
	for judge, list := range byJudge {
		sheet := f.sheet(judge, list)
		sheet.OffPanel = true
		a.Sheets = append(a.Sheets, sheet)
	}
	others := a.Sheets[panel:]
	slices.SortFunc(others, func(a, b Sheet) int { return strings.Compare(a.Judge, b.Judge) })
	return a
}

// verdict adds what a cell of rulings or penalties says.
func (f *flight) verdict(a *Attempt, run []*entry) {
	heads, agreed := f.settle(run)
	if len(heads) == 0 {
		return
	}
	first, ids := heads[0], idsOf(heads)
	if first.Kind == KindPenalty {
		v := Verdict{Penalty: first.penalty(), Conflict: !agreed, Heads: ids}
		if !agreed {
			v.Count, v.Points = 0, 0
		}
		if v.Conflict || v.Count > 0 {
			a.Penalties = append(a.Penalties, v)
		}
		return
	}
	r := Ruling{Item: first.Item, Ruling: first.Ruling, Grade: first.Grade, Conflict: !agreed, Heads: ids}
	if !agreed {
		r.Ruling, r.Grade = first.cell.name, ""
	}
	if r.Conflict || !isWithdrawal(r.Ruling) {
		a.Rulings = append(a.Rulings, r)
	}
}
