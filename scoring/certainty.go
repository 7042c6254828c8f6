package scoring

import (
	"math/rand/v2"
	"slices"
)

// An uncertain is a score with its standard error. Of two tiers the lower one
// always ranks first.
type uncertain struct {
	score, deviation float64
	tier             int
}

const (
	rankDraws   = 10_000
	drawBlock   = 500            // draws of one generator
	drawsBeyond = rankDraws / 20 // left out at either end of the central 90 %
	podium      = 3
	drawSeed    = 0x68616c66706f696e
)

// certainties draws every score from a normal distribution about it, and tells
// for each how its ranks are spread.
func certainties(pilots []uncertain) []Certainty {
	counts := grid[int32](len(pilots), len(pilots)) // by pilot, then rank less 1
	for block := range rankDraws / drawBlock {
		drawRanks(pilots, rand.New(rand.NewPCG(drawSeed, uint64(block))), counts)
	}
	spread := make([]Certainty, len(pilots))
	for i, count := range counts {
		spread[i] = certaintyOf(count)
	}
	return spread
}

func drawRanks(pilots []uncertain, generator *rand.Rand, counts [][]int32) {
	order := make([]int, len(pilots))
	drawn := make([]float64, len(pilots))
	for i := range order {
		order[i] = i
	}
	for range drawBlock {
		for i, p := range pilots {
			drawn[i] = p.score + p.deviation*generator.NormFloat64()
		}
		slices.SortFunc(order, func(a, b int) int {
			if t := pilots[a].tier - pilots[b].tier; t != 0 {
				return t
			}
			return best(drawn[a], drawn[b])
		})
		rank := 0
		for place, i := range order {
			if place == 0 || drawn[i] != drawn[order[place-1]] || pilots[i].tier != pilots[order[place-1]].tier {
				rank = place
			}
			counts[i][rank]++
		}
	}
}

// certaintyOf reads the spread from how often each rank was drawn.
func certaintyOf(count []int32) (c Certainty) {
	below := int32(0)
	for rank, n := range count {
		if below <= drawsBeyond && below+n > drawsBeyond {
			c.RankLow = rank + 1
		}
		if below < rankDraws-drawsBeyond && below+n >= rankDraws-drawsBeyond {
			c.RankHigh = rank + 1
		}
		if rank == 0 {
			c.First = float64(n) / rankDraws
		}
		if rank < podium {
			c.Podium += float64(n) / rankDraws
		}
		below += n
	}
	return c
}

func grid[T any](rows, columns int) [][]T {
	g := make([][]T, rows)
	for i := range g {
		g[i] = make([]T, columns)
	}
	return g
}
