package line

import "slices"

// settle finds the heads of a cell without a signature and gives all its
// records their standing.
func (p *pool) settle(all []*entry) (heads []*entry, agreed bool) {
	return p.settleAmong(all, inForce(all))
}

func inForce(all []*entry) []*entry {
	for i, e := range all {
		if !e.inForce() {
			force := append([]*entry(nil), all[:i]...)
			for _, e := range all[i+1:] {
				if e.inForce() {
					force = append(force, e)
				}
			}
			return force
		}
	}
	return all
}

// settleAmong finds the heads of a cell among the records that count there.
func (p *pool) settleAmong(all, force []*entry) (heads []*entry, agreed bool) {
	heads = p.heads(force)
	agreed = agree(heads)
	for _, e := range force {
		e.standing = Standing{Standing: Replaced}
	}
	for _, e := range heads {
		e.standing.Standing = Head
		if !agreed {
			e.standing.Standing = Conflict
		}
	}
	if len(force) < len(all) {
		p.settleRest(all, force)
	}
	return heads, agreed
}

// settleRest gives the records of a cell that have no standing yet theirs: an
// official's record in force has taken them over, they are set aside, a later
// one of the same device that does not count either replaces them, or they
// wait for a decision.
func (p *pool) settleRest(all, force []*entry) {
	taken := p.takenBy(force)
	rest := map[string][]*entry{}
	for _, e := range all {
		if e.standing.Standing == "" {
			rest[e.Author.Device] = append(rest[e.Author.Device], e)
		}
	}
	for _, list := range rest {
		for _, e := range list {
			e.standing = Standing{Standing: Replaced}
		}
		for _, e := range p.heads(list) {
			e.standing = e.base()
		}
		for _, e := range list {
			switch {
			case e.away || taken[e]:
				e.standing = Standing{Standing: Replaced}
			case e.aside:
				e.standing = Standing{Standing: Aside}
			}
		}
	}
}

// takenBy returns the records that officials' records in force name.
func (p *pool) takenBy(force []*entry) map[*entry]bool {
	taken := map[*entry]bool{}
	for _, f := range force {
		if f.decides() {
			f.names(func(id string) {
				if x := p.byID[id]; x != nil && x.cell == f.cell {
					taken[x] = true
				}
			})
		}
	}
	return taken
}

// base is where a record stands that does not count.
func (e *entry) base() Standing {
	if e.bar != "" {
		return Standing{Standing: e.bar, Cause: e.cause}
	}
	return Standing{Standing: Late}
}

// runs calls f with each run of records that belong together.
func runs(list []*entry, together func(a, b *cell) bool, f func(run []*entry)) {
	for start := 0; start < len(list); {
		end := start + 1
		for end < len(list) && together(&list[start].cell, &list[end].cell) {
			end++
		}
		f(list[start:end:end])
		start = end
	}
}

func sameCell(a, b *cell) bool { return *a == *b }

// unplaced settles the records of flights that the set-up does not know and
// returns the ids of those that wait for a decision.
func (p *pool) unplaced() []string {
	var ids []string
	for _, g := range p.byFlight {
		if g.plan != nil {
			continue
		}
		runs(g.entries, sameCell, func(run []*entry) { p.settle(run) })
		for _, e := range g.entries {
			if waits(e.standing) {
				ids = append(ids, e.ID)
			}
		}
	}
	slices.Sort(ids)
	return ids
}

// waits tells whether a standing waits for a decision.
func waits(s Standing) bool {
	switch s.Standing {
	case Late, Closed, OtherSequence, Held:
		return true
	}
	return false
}
