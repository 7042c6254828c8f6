package panel

import (
	"slices"

	"halfpoint/scoring"
)

// leaveOut scores the programme again without each seat in turn, by the same
// method as far as the smaller panel allows it.
func leaveOut(c *scoring.Category, index int, whole *scoring.ProgrammeResult) []WithoutReport {
	panel := c.Programmes[index].Panel
	if len(panel) < 2 {
		return []WithoutReport{}
	}
	reports := make([]WithoutReport, len(panel))
	for seat, judge := range panel {
		result := scoring.ScoreProgramme(withoutSeat(c, index, seat), index)
		before, after := ranksOfBoth(whole, &result)
		reports[seat] = WithoutReport{Judge: judge, Method: result.UsedMethod(), Winners: winners(after)}
		reports[seat].LargestRankChange, reports[seat].Pilots = largestChange(before, after)
	}
	return reports
}

// withoutSeat is the category with one seat taken off the panel of a programme.
// The sheets of a judge who is on no panel are not looked at.
func withoutSeat(c *scoring.Category, index, seat int) *scoring.Category {
	without := *c
	without.Programmes = slices.Clone(c.Programmes)
	p := &without.Programmes[index]
	p.Panel = slices.Delete(slices.Clone(p.Panel), seat, seat+1)
	return &without
}

// A ranked is a pilot with a published score and a rank.
type ranked struct {
	pilot string
	score float64
	rank  int
}

func ranksOf(r *scoring.ProgrammeResult) (all []ranked) {
	for _, f := range r.Flights {
		if f.Placing != nil && f.Rank != nil {
			all = append(all, ranked{f.Pilot, f.Score, *f.Rank})
		}
	}
	return all
}

// ranksOfBoth ranks the pilots who hold a rank in both results, in each: a seat
// left out may leave an item without any grade, and that flight without a
// score.
func ranksOfBoth(a, b *scoring.ProgrammeResult) (inA, inB []ranked) {
	inA, inB = ranksOf(a), ranksOf(b)
	return rankAmong(inA, inB), rankAmong(inB, inA)
}

func rankAmong(all, others []ranked) (among []ranked) {
	for _, one := range all {
		if slices.ContainsFunc(others, func(o ranked) bool { return o.pilot == one.pilot }) {
			among = append(among, one)
		}
	}
	for i := range among {
		among[i].rank = 1
		for _, other := range among {
			if other.score > among[i].score {
				among[i].rank++
			}
		}
	}
	return among
}

func winners(all []ranked) []string {
	pilots := []string{}
	for _, one := range all {
		if one.rank == 1 {
			pilots = append(pilots, one.pilot)
		}
	}
	return pilots
}

// largestChange finds how far a rank changes at most, and whose does.
func largestChange(before, after []ranked) (most int, pilots []string) {
	pilots = []string{}
	for i := range before {
		change := before[i].rank - after[i].rank
		switch change = max(change, -change); {
		case change == 0 || change < most:
		case change > most:
			most, pilots = change, []string{before[i].pilot}
		default:
			pilots = append(pilots, before[i].pilot)
		}
	}
	return most, pilots
}
