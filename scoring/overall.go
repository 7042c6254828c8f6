package scoring

import (
	"cmp"
	"math"
	"slices"
)

// A standing is a category while its programmes are scored one after another.
type standing struct {
	category *Category
	entries  map[string]*Entry // by pilot
	rounds   []round           // the programmes scored so far
	cutAfter map[string]int    // by pilot cut: how many rounds they were in
}

func newStanding(c *Category) *standing {
	s := &standing{category: c, entries: make(map[string]*Entry, len(c.Entries)), cutAfter: map[string]int{}}
	for i := range c.Entries {
		s.entries[c.Entries[i].Pilot] = &c.Entries[i]
	}
	return s
}

// ranks tells whether a pilot holds ranks: entered as ranked and not cut.
func (s *standing) ranks(pilot string) bool {
	entry, entered := s.entries[pilot]
	_, cut := s.cutAfter[pilot]
	return entered && entry.Ranked && !cut
}

// place ranks the flights of a round on their published scores. Those that were
// not flown share the last rank.
func (s *standing) place(r *round, results []FlightResult) {
	var ranked []int
	for i, f := range r.flights {
		if f.judged && s.ranks(f.pilot) {
			ranked = append(ranked, i)
		}
	}
	ranks := ranksOf(ranked, func(a, b int) int { return best(r.flights[a].score, r.flights[b].score) })
	for i, f := range r.flights {
		if !f.published {
			continue
		}
		results[i].Placing = &Placing{Score: f.score.float(), Percent: f.percent.float()}
		if s.ranks(f.pilot) {
			rank, judged := ranks[i]
			if !judged {
				rank = len(ranked) + 1
			}
			results[i].Rank = &rank
		}
	}
	r.addCertainty(ranked, results)
}

func (r *round) addCertainty(ranked []int, results []FlightResult) {
	draws := make([]uncertain, len(ranked))
	for i, flight := range ranked {
		draws[i] = uncertain{score: r.flights[flight].score.float(), deviation: r.flights[flight].deviation}
	}
	for i, certainty := range certainties(draws) {
		results[ranked[i]].Certainty = &certainty
	}
}

// cut sends the best of a round on, by the running total, and all who are tied
// with the last of them.
func (s *standing) cut(r *round) {
	n := r.programme.Cut
	if n == 0 || !r.programme.Counts {
		return
	}
	totals := map[string]hundredths{}
	var sorted []hundredths
	for _, entry := range s.category.Entries {
		if s.ranks(entry.Pilot) {
			totals[entry.Pilot] = s.total(entry.Pilot)
			sorted = append(sorted, totals[entry.Pilot])
		}
	}
	if len(sorted) <= n {
		return
	}
	slices.SortFunc(sorted, best)
	for pilot, total := range totals {
		if total < sorted[n-1] {
			s.cutAfter[pilot] = len(s.rounds)
		}
	}
}

// counting lists the rounds that add to a pilot's total: those of programmes
// that count, up to the pilot's cut.
func (s *standing) counting(pilot string) []*round {
	last, cut := s.cutAfter[pilot]
	if !cut {
		last = len(s.rounds)
	}
	var counting []*round
	for i := range s.rounds[:last] {
		if s.rounds[i].programme.Counts {
			counting = append(counting, &s.rounds[i])
		}
	}
	return counting
}

// total combines a pilot's published scores so far.
func (s *standing) total(pilot string) hundredths {
	var total hundredths
	weighted := 0.0
	for _, r := range s.counting(pilot) {
		f := r.of(pilot)
		switch s.category.Combine.By {
		case ByWeightedPercent:
			weighted += s.category.Combine.Weights[r.programme.ID] * f.percent.float()
		case BySumPercent:
			total += f.percent
		default:
			total += f.score
		}
	}
	return total + published(weighted)
}

// uncertainty is a pilot's total with the standard error that those of its
// programmes make, and whether the panel had any part in it.
func (s *standing) uncertainty(pilot string, total hundredths) (u uncertain, judged bool) {
	variance := 0.0
	for _, r := range s.counting(pilot) {
		f := r.of(pilot)
		if !f.judged {
			continue
		}
		judged = true
		deviation := f.deviation * s.worth(r, f)
		variance += deviation * deviation
	}
	return uncertain{score: total.float(), deviation: math.Sqrt(variance), tier: s.tier(pilot)}, judged
}

// worth is what a point of a flight's score adds to the total.
func (s *standing) worth(r *round, f roundFlight) float64 {
	if f.best == 0 {
		return 0
	}
	switch s.category.Combine.By {
	case ByWeightedPercent:
		return s.category.Combine.Weights[r.programme.ID] * 100 / f.best
	case BySumPercent:
		return 100 / f.best
	}
	return 1
}

// tier is 0 for who went on through every cut, and the greater the earlier a
// pilot was cut.
func (s *standing) tier(pilot string) int {
	if after, cut := s.cutAfter[pilot]; cut {
		return len(s.rounds) + 1 - after
	}
	return 0
}

// overall ranks the entries on their totals.
func (s *standing) overall() []OverallResult {
	results := make([]OverallResult, len(s.category.Entries))
	totals := make([]hundredths, len(results))
	var ranked []int
	for i, entry := range s.category.Entries {
		totals[i] = s.total(entry.Pilot)
		results[i] = OverallResult{Pilot: entry.Pilot, Total: totals[i].float(), ByProgramme: s.byProgramme(entry.Pilot)}
		if entry.Ranked {
			ranked = append(ranked, i)
		}
	}
	ranks := ranksOf(ranked, func(a, b int) int {
		one, other := results[a].Pilot, results[b].Pilot
		return cmp.Or(cmp.Compare(s.tier(one), s.tier(other)), best(totals[a], totals[b]), s.breakTie(one, other))
	})
	for i, rank := range ranks {
		results[i].Rank = &rank
	}
	s.addCertainty(ranked, totals, results)
	return results
}

// breakTie orders two pilots of the same total by the programmes named for it.
func (s *standing) breakTie(one, other string) int {
	for _, id := range s.category.Combine.TieBreak {
		if order := best(s.scoreIn(id, one), s.scoreIn(id, other)); order != 0 {
			return order
		}
	}
	return 0
}

// scoreIn is what a pilot's published score in a programme is worth for ties:
// 0 where it adds nothing to the total.
func (s *standing) scoreIn(id, pilot string) hundredths {
	for _, r := range s.counting(pilot) {
		if r.programme.ID == id {
			return r.of(pilot).score
		}
	}
	return 0
}

func (s *standing) byProgramme(pilot string) ByProgramme {
	scores := ByProgramme{}
	for i := range s.rounds {
		if f := s.rounds[i].of(pilot); f.published {
			scores = append(scores, ProgrammeScore{s.rounds[i].programme.ID, f.score.float()})
		}
	}
	return scores
}

func (s *standing) addCertainty(ranked []int, totals []hundredths, results []OverallResult) {
	var draws []uncertain
	var entries []int
	for _, i := range ranked {
		if u, judged := s.uncertainty(results[i].Pilot, totals[i]); judged {
			draws, entries = append(draws, u), append(entries, i)
		}
	}
	for i, certainty := range certainties(draws) {
		results[entries[i]].Certainty = &certainty
	}
}
