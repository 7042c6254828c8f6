package season

import "math"

// points are what a place is worth, to two decimals.
func (r *Rules) points(c *Contest, p *Place) float64 {
	switch r.Points {
	case ByPercentOfWinner:
		return percent(p.Score, c.best())
	case ByPercentOfMaximum:
		return percent(p.Score, p.Maximum)
	}
	return r.ofTable(*p.Rank, c.sharing(*p.Rank))
}

func percent(score, of float64) float64 {
	if of <= 0 {
		return 0
	}
	return toCents(100 * score / of)
}

// best is the best score of whoever holds a rank.
func (c *Contest) best() (best float64) {
	for _, p := range c.Places {
		if p.Rank != nil {
			best = max(best, p.Score)
		}
	}
	return best
}

// sharing is how many pilots share a rank.
func (c *Contest) sharing(rank int) (n int) {
	for _, p := range c.Places {
		if p.Rank != nil && *p.Rank == rank {
			n++
		}
	}
	return n
}

// ofTable are the points of a rank that so many share. They take up the places
// from it on.
func (r *Rules) ofTable(rank, sharing int) float64 {
	if r.Ties == ShareFull {
		return toCents(r.place(rank))
	}
	sum := 0.0
	for place := range sharing {
		sum += r.place(rank + place)
	}
	return toCents(sum / float64(sharing))
}

func (r *Rules) place(place int) float64 {
	if place < 1 || place > len(r.Table) {
		return 0
	}
	return r.Table[place-1]
}

// toCents rounds to two decimals, half away from zero. The little that is added
// takes 1.005, which is a binary number below it, for what was meant.
func toCents(value float64) float64 {
	return math.Round(value*100+math.Copysign(1e-7, value)) / 100
}
