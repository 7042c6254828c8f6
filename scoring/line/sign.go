package line

import "slices"

// signature finds the state of a sheet's signature, marks the grades that a
// signature in force covers, and returns the signatures that count.
func (f *flight) signature(s *Sheet, grades, list []*entry) []*entry {
	force := inForce(list)
	var counting, waiting []*entry
	var missing []string
	for _, e := range force {
		if !knows(e, s.Reopens) {
			continue
		}
		cause, gone := f.read(e, s, grades)
		e.standing = Standing{Standing: Head}
		if cause == "" {
			counting = append(counting, e)
			continue
		}
		e.standing = Standing{Standing: Waits, Cause: cause}
		waiting, missing = append(waiting, e), append(missing, gone...)
	}
	for _, e := range force {
		if e.standing.Standing == "" {
			e.standing = Standing{Standing: Replaced}
		}
	}
	f.settleRest(list, force)
	s.Signature = f.signatureState(s, counting, waiting, missing)
	if s.Signature.State == Signed {
		f.cover(counting)
	}
	return counting
}

func (f *flight) signatureState(s *Sheet, counting, waiting []*entry, missing []string) Signature {
	switch {
	case len(counting) > 0 && !sameDigest(counting):
		for _, e := range counting {
			e.standing.Standing = Conflict
		}
		return Signature{State: Differ, Signs: idsOf(counting)}
	case len(counting) > 0:
		return Signature{State: Signed, Signs: idsOf(counting)}
	case len(waiting) > 0:
		slices.Sort(missing)
		return Signature{State: SignWait, Signs: idsOf(waiting), WaitsFor: slices.Compact(missing)}
	case len(s.Reopens) > 0:
		return Signature{State: Reopened}
	}
	return Signature{State: Unsigned}
}

func sameDigest(signs []*entry) bool {
	for _, s := range signs {
		if s.Digest != signs[0].Digest {
			return false
		}
	}
	return true
}

// knows tells whether the signature names every reopening.
func knows(sign *entry, reopens []string) bool {
	for _, id := range reopens {
		if !slices.Contains(sign.After, id) {
			return false
		}
	}
	return true
}

// read returns why a signature does not count, "" when it does, with the ids
// that it covers and that are not here.
func (f *flight) read(sign *entry, s *Sheet, grades []*entry) (cause string, missing []string) {
	f.marks++
	for i, x := range f.covers(sign) {
		switch {
		case x == nil:
			missing = append(missing, sign.Covers[i])
		case x.Kind != KindGrade || !x.cell.sameSheet(&sign.cell) || !x.inForce():
			cause = CauseCovers
		default:
			x.mark = f.marks
		}
	}
	if cause != "" {
		return cause, missing
	}
	if len(missing) > 0 {
		return CauseMissing, missing
	}
	entries, cause := f.signedEntries(grades)
	if cause != "" {
		return cause, nil
	}
	if SheetDigest(f.setup.Contest, f.plan.Flight, s.Judge, f.plan.Sequence, entries) != sign.Digest {
		return CauseDigest, nil
	}
	return "", nil
}

// signedEntries returns what the marked grades say of each item.
func (f *flight) signedEntries(grades []*entry) (entries []Entry, cause string) {
	entries = make([]Entry, f.plan.Items)
	runs(grades, sameCell, func(run []*entry) {
		f.scratch = f.scratch[:0]
		for _, e := range run {
			if e.mark == f.marks {
				f.scratch = append(f.scratch, e)
			}
		}
		if len(f.scratch) == 0 {
			return
		}
		heads := f.heads(f.scratch)
		if !agree(heads) {
			cause = CauseConflict
			return
		}
		entries[run[0].Item-1] = Entry{heads[0].Grade, remarks(heads)}
	})
	if cause == "" && slices.ContainsFunc(entries, func(e Entry) bool { return e.Grade == "" }) {
		cause = CauseEmpty
	}
	return entries, cause
}

// cover marks the grades that the signatures cover.
func (f *flight) cover(signs []*entry) {
	for _, s := range signs {
		for _, x := range f.covers(s) {
			x.covered = true
		}
	}
}
