package line

import "slices"

// decideStatus finds the status, the attempt that counts and the wind from the
// flight's status records.
func (f *flight) decideStatus() {
	f.state.Counting = 1
	var said []*entry
	for _, e := range f.entries {
		if e.Kind == KindStatus && e.inForce() {
			said = append(said, e)
		}
	}
	f.statuses = f.heads(said)
	if len(f.statuses) == 0 {
		return
	}
	f.state.StatusHeads = idsOf(f.statuses)
	f.state.Wind = f.wind()
	status, attempt, agreed := furthest(f.statuses)
	f.state.Status, f.state.Counting, f.state.StatusConflict = status, attempt, !agreed
}

// furthest returns the status on which heads agree: the same one, or the
// furthest of the common course. The attempt is 0 where they differ about it.
func furthest(heads []*entry) (status string, attempt int, agreed bool) {
	status, attempt = heads[0].Status, heads[0].attempt()
	place := slices.Index(course, status)
	for _, h := range heads[1:] {
		if h.attempt() != attempt {
			return "", 0, false
		}
	}
	for _, h := range heads[1:] {
		other := slices.Index(course, h.Status)
		if h.Status != status && (other < 0 || place < 0) {
			return "", attempt, false
		}
		if other > place {
			status, place = h.Status, other
		}
	}
	return status, attempt, true
}

// wind is the side that the heads give, or where a head gives none the records
// it replaces, and so on; "" where they differ.
func (f *flight) wind() string {
	f.marks++
	side, todo := "", slices.Clone(f.statuses)
	for len(todo) > 0 {
		e := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if e.mark == f.marks {
			continue
		}
		e.mark = f.marks
		switch {
		case e.Wind == "":
			todo = append(todo, f.replacedBy(e)...)
		case side == "":
			side = e.Wind
		case side != e.Wind:
			return ""
		}
	}
	return side
}

// replacedBy returns the records in force of its cell that e replaces.
func (f *flight) replacedBy(e *entry) []*entry {
	var old []*entry
	e.names(func(id string) {
		if x := f.byID[id]; x != nil && x.cell == e.cell && x.inForce() {
			old = append(old, x)
		}
	})
	return old
}

// close bars what the closing of a flight had not seen of the attempt that
// counts. It has seen what it covers, what a signature it has seen covers and
// knows, and what any of these replace.
func (f *flight) close() {
	if f.state.Status != StatusClosed {
		return
	}
	f.see()
	for _, e := range f.entries {
		if e.cell.attempt == f.state.Counting && e.bar == "" && !e.seen {
			e.bar = Closed
		}
	}
}

func (f *flight) see() {
	var todo []*entry
	look := func(found []*entry, near func(x *entry) bool) {
		for _, x := range found {
			if x != nil && !x.seen && near(x) {
				x.seen = true
				todo = append(todo, x)
			}
		}
	}
	for _, s := range f.statuses {
		if s.Status == StatusClosed {
			look(f.covers(s), func(x *entry) bool {
				return x.Flight == s.Flight && x.cell.attempt == f.state.Counting
			})
		}
	}
	for len(todo) > 0 {
		e := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		near := func(x *entry) bool { return x.cell.sameSheet(&e.cell) }
		look(f.covers(e), near)
		for _, ids := range [][]string{e.After, e.Replaces, e.Adopts} {
			look(f.find(ids), near)
		}
	}
}
