package line

// bar says what, of everything but the closing of the flight, keeps a record
// from counting: its standing and cause, or nothing.
func bar(s *Stored, flight *FlightSetup) (standing, cause string) {
	switch {
	case s.Author.Withdrawn:
		return Held, CauseWithdrawn
	case !may(s):
		return Held, CauseRole
	case s.Author.Role == RoleJudge && s.Author.Seat != s.Judge:
		return Held, CauseSeat
	case s.Kind == KindAside:
		return "", ""
	case flight == nil:
		return Held, CauseFlight
	case s.otherSequence(flight.Sequence):
		return OtherSequence, ""
	case (s.Kind == KindGrade || s.Kind == KindRuling) && (s.Item < 1 || s.Item > flight.Items):
		return Held, CauseItem
	}
	return "", ""
}

// otherSequence tells whether the record is about another sequence. A
// signature or a ruling may leave that open: what it speaks of says it.
func (s *Stored) otherSequence(digest string) bool {
	switch s.Kind {
	case KindGrade:
		return s.Sequence != digest
	case KindSign, KindRuling:
		return s.Sequence != "" && s.Sequence != digest
	}
	return false
}

// may tells whether the author's role makes records of this kind: a judge
// grades and signs, officials do everything.
func may(s *Stored) bool {
	switch s.Kind {
	case KindGrade, KindSign:
		return s.Author.Role == RoleJudge || s.Author.official()
	case KindReopen, KindAbsent, KindRuling, KindPenalty, KindStatus, KindAside:
		return s.Author.official()
	}
	return false
}

// setAside applies what officials set aside. A grade or a signature then counts
// nothing, whatever it was; of the officials' own records, which replacing
// corrects, only one that is barred can be set aside.
func (p *pool) setAside() {
	for i := range p.entries {
		a := &p.entries[i]
		if a.Kind != KindAside || a.bar != "" || a.Reason == "" {
			continue
		}
		for _, id := range a.Covers {
			if e := p.byID[id]; e != nil && e != a {
				e.aside = e.aside || e.bar != "" || e.Kind == KindGrade || e.Kind == KindSign
			}
		}
	}
}

// takeOver finds the records by which officials take over others, and takes the
// others out of cells that they leave.
func (p *pool) takeOver() {
	for i := range p.entries {
		e := &p.entries[i]
		e.takes = e.decides() && !e.aside && (e.bar == "" || e.bar == Closed) && p.takesAny(e)
	}
	for i := range p.entries {
		e := &p.entries[i]
		if !e.takes {
			continue
		}
		for _, id := range e.Adopts {
			if x := p.byID[id]; x != nil && p.canLeave(x, e) {
				x.away = true
			}
		}
	}
}

// takesAny tells whether an official's record takes over at least one record
// that says the same and counts nothing where it is, or that leaves its cell.
func (p *pool) takesAny(e *entry) bool {
	for _, id := range e.Replaces {
		if x := p.byID[id]; x != nil && x.cell == e.cell && x.bar != "" && x.same(e) {
			return true
		}
	}
	for _, id := range e.Adopts {
		if x := p.byID[id]; x != nil && x.same(e) && (p.canLeave(x, e) || x.cell == e.cell && x != e && x.bar != "") {
			return true
		}
	}
	return false
}

// canLeave tells whether x can be taken over by e from another cell.
func (p *pool) canLeave(x, e *entry) bool {
	return x.Kind == e.Kind && x.cell != e.cell && (x.Kind == KindGrade || x.Kind == KindSign)
}
