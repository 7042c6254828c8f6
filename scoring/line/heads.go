package line

// link says that the record at one place of a set replaces that at another.
type link struct{ by, old int }

// competes tells whether records of this kind take the place of one another.
// Signatures and reopenings all stand until a reopening makes them void, and
// so does what is set aside.
func (e *entry) competes() bool {
	return e.Kind != KindSign && e.Kind != KindReopen && e.Kind != KindAside
}

// names calls f with the ids that the record replaces or takes over.
func (e *entry) names(f func(id string)) {
	for _, id := range e.Replaces {
		f(id)
	}
	if e.decides() {
		for _, id := range e.Adopts {
			f(id)
		}
	}
}

// links returns who replaces whom in a set. Records that replace one another in
// a circle, which no honest device can write, replace nothing.
func (p *pool) links(set []*entry) []link {
	p.sets++
	for i, e := range set {
		e.set, e.at = p.sets, i
	}
	var links []link
	for i, e := range set {
		e.names(func(id string) {
			if x := p.byID[id]; x != nil && x.set == p.sets && x != e {
				links = append(links, link{i, x.at})
			}
		})
	}
	return outsideCircles(len(set), links)
}

// heads returns the records of a set that no other one of it replaces.
func (p *pool) heads(set []*entry) []*entry {
	if len(set) < 2 || !set[0].competes() {
		return set
	}
	replaced := make([]bool, len(set))
	for _, l := range p.links(set) {
		replaced[l.old] = true
	}
	var heads []*entry
	for i, e := range set {
		if !replaced[i] {
			heads = append(heads, e)
		}
	}
	return heads
}

// outsideCircles drops the links of records that stand in a circle of
// replacing, or between two circles.
func outsideCircles(n int, links []link) []link {
	if len(links) < 2 {
		return links
	}
	back := make([]link, len(links))
	for i, l := range links {
		back[i] = link{l.old, l.by}
	}
	below, above := peel(n, links), peel(n, back)
	kept := links[:0]
	for _, l := range links {
		if !below[l.by] || !above[l.by] {
			kept = append(kept, l)
		}
	}
	return kept
}

// peel takes away, as long as there is one, a record that nothing left
// replaces, and marks what remains: everything on or below a circle.
func peel(n int, links []link) []bool {
	remains, count := make([]bool, n), make([]int, n)
	olds := make([][]int, n)
	for _, l := range links {
		count[l.old]++
		olds[l.by] = append(olds[l.by], l.old)
	}
	var free []int
	for i := range n {
		remains[i] = true
		if count[i] == 0 {
			free = append(free, i)
		}
	}
	for len(free) > 0 {
		i := free[len(free)-1]
		free, remains[i] = free[:len(free)-1], false
		for _, old := range olds[i] {
			if count[old]--; count[old] == 0 {
				free = append(free, old)
			}
		}
	}
	return remains
}

// agree tells whether all records say the same.
func agree(heads []*entry) bool {
	for _, h := range heads {
		if !h.same(heads[0]) {
			return false
		}
	}
	return true
}

func idsOf(list []*entry) []string {
	if len(list) == 0 {
		return nil
	}
	ids := make([]string, len(list))
	for i, e := range list {
		ids[i] = e.ID
	}
	return ids
}
