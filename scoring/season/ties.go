package season

import (
	"cmp"
	"slices"
)

// compare puts rows in order: those with enough contests first, then by total
// and by what breaks ties. 0 is a tie that stays.
func (r *Rules) compare(contests []Contest) func(a, b Row) int {
	breaks := map[string]func(a, b Row) int{
		BestResult: byBest, Wins: byWins, Contests: byContests,
		Latest: func(a, b Row) int { return byLatest(contests, a, b) },
	}
	return func(a, b Row) int {
		if order := cmp.Compare(r.lacking(a), r.lacking(b)); order != 0 {
			return order
		}
		if order := cmp.Compare(b.Total, a.Total); order != 0 {
			return order
		}
		for _, name := range r.TieBreak {
			if order := breaks[name](a, b); order != 0 {
				return order
			}
		}
		return 0
	}
}

// lacking is 1 for whoever has flown too few contests, else 0.
func (r *Rules) lacking(row Row) int {
	if len(row.Results) < r.Least {
		return 1
	}
	return 0
}

func byBest(a, b Row) int { return slices.Compare(b.counted(), a.counted()) }

// counted are the points that count, the most first.
func (r *Row) counted() (points []float64) {
	for _, one := range r.Results {
		if one.Counts {
			points = append(points, -one.Points)
		}
	}
	slices.Sort(points)
	for i := range points {
		points[i] = -points[i]
	}
	return points
}

func byWins(a, b Row) int { return cmp.Compare(b.wins(), a.wins()) }

func (r *Row) wins() (n int) {
	for _, one := range r.Results {
		if one.Rank == 1 {
			n++
		}
	}
	return n
}

func byContests(a, b Row) int { return cmp.Compare(len(b.Results), len(a.Results)) }

func byLatest(contests []Contest, a, b Row) int {
	for _, c := range slices.Backward(contests) {
		if order := cmp.Compare(b.in(c.ID), a.in(c.ID)); order != 0 {
			return order
		}
	}
	return 0
}

// in are the points of a contest, 0 for whoever was not there.
func (r *Row) in(contest string) float64 {
	for _, one := range r.Results {
		if one.Contest == contest {
			return one.Points
		}
	}
	return 0
}
