package line

import (
	"slices"
	"strings"
)

// sheet resolves one seat's records of an attempt, given in order.
func (f *flight) sheet(judge string, list []*entry) Sheet {
	s := Sheet{Judge: judge, Cells: make([]Cell, f.plan.Items)}
	for i := range s.Cells {
		s.Cells[i].Item = i + 1
	}
	byKind := map[Kind][]*entry{}
	runs(list, func(a, b *cell) bool { return a.kind == b.kind }, func(run []*entry) {
		byKind[run[0].Kind] = append(byKind[run[0].Kind], run...)
	})
	f.absence(&s, byKind[KindAbsent])
	reopens, _ := f.settle(byKind[KindReopen])
	s.Reopens = idsOf(reopens)
	signs := f.signature(&s, byKind[KindGrade], byKind[KindSign])
	heads := f.cells(&s, byKind[KindGrade])
	s.By = personIn(signs, heads)
	return s
}

func (f *flight) absence(s *Sheet, list []*entry) {
	heads, agreed := f.settle(list)
	s.AbsentHeads = idsOf(heads)
	s.AbsentConflict = !agreed
	s.Absent = agreed && len(heads) > 0 && heads[0].isAbsent()
}

// cells fills the cells and returns the heads of all that do not contradict.
func (f *flight) cells(s *Sheet, grades []*entry) []*entry {
	history := idsOf(grades)
	settle := f.settle
	if s.Signature.State == Signed {
		settle = f.settleSigned
	}
	var all []*entry
	at := 0
	runs(grades, sameCell, func(run []*entry) {
		ids := history[at : at+len(run) : at+len(run)]
		at += len(run)
		heads, agreed := settle(run)
		item := run[0].Item
		if item < 1 || item > len(s.Cells) {
			return
		}
		c := &s.Cells[item-1]
		c.History, c.Heads, c.Conflict = ids, ids, !agreed
		if len(heads) < len(run) {
			c.Heads = idsOf(heads)
		}
		if agreed && len(heads) > 0 {
			c.Grade, c.Remark = heads[0].Grade, remarks(heads)
			all = append(all, heads...)
		}
	})
	return all
}

// settleSigned settles a cell of a signed sheet: what the signature covers
// counts, and above it what officials took over since; everything else is what
// these replaced, or late.
func (f *flight) settleSigned(all []*entry) (heads []*entry, agreed bool) {
	if len(all) == 1 && all[0].covered {
		return f.settleAmong(all, all)
	}
	force := inForce(all)
	old := f.ancestors(force)
	var counts []*entry
	for i, e := range force {
		if e.covered || !old[i] && f.amends(e, force, old) {
			counts = append(counts, e)
		} else if old[i] {
			e.standing = Standing{Standing: Replaced}
		}
	}
	return f.settleAmong(all, counts)
}

// ancestors marks the records of a set that covered ones replace, directly or
// through others.
func (f *flight) ancestors(set []*entry) []bool {
	old, todo := make([]bool, len(set)), []int(nil)
	below := make([][]int, len(set))
	for _, l := range f.links(set) {
		below[l.by] = append(below[l.by], l.old)
	}
	for i, e := range set {
		if e.covered {
			todo = append(todo, i)
		}
	}
	for len(todo) > 0 {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, o := range below[i] {
			if !old[o] {
				old[o] = true
				todo = append(todo, o)
			}
		}
	}
	return old
}

// amends tells whether a record outside the signature counts all the same: an
// official's that takes over one that counted nothing, or one as late as
// itself.
func (f *flight) amends(e *entry, force []*entry, old []bool) bool {
	if e.takes {
		return true
	}
	if !e.decides() {
		return false
	}
	found := false
	e.names(func(id string) {
		x := f.byID[id]
		if x != nil && x != e && x.at < len(force) && force[x.at] == x && !x.covered && !old[x.at] && x.same(e) {
			found = true
		}
	})
	return found
}

// remarks joins the different remarks of heads, in the order of their ids.
func remarks(heads []*entry) string {
	var all []string
	for _, h := range heads {
		if h.Remark != "" && !slices.Contains(all, h.Remark) {
			all = append(all, h.Remark)
		}
	}
	return strings.Join(all, " / ")
}

// personIn is the person whom the signatures name as sitting in the seat, or
// where they name none the one whom all grades that name one name.
func personIn(signs, heads []*entry) string {
	for _, s := range signs {
		if s.By != "" {
			return s.By
		}
	}
	by := ""
	for _, h := range heads {
		if h.By != "" && by != "" && h.By != by {
			return ""
		}
		if h.By != "" {
			by = h.By
		}
	}
	return by
}
