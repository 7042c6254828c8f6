package scoring

import (
	"cmp"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// An uncertain is a score with its standard error. Of two tiers the lower one
// always ranks first.
type uncertain struct {
	score, deviation float64
	tier             int
}

// Draws are made in blocks, each with a generator of its own, so that the
// result is the same however many goroutines share the work.
const (
	rankDraws   = 10_000
	blockDraws  = 500
	blocks      = rankDraws / blockDraws
	drawSeed    = 0x68616c66706f696e
	drawsBeyond = rankDraws / 20 // at either end of the central 90 %
	podium      = 3
	mostDrawn   = 2000
)

// certainties draws every score from a normal distribution about it, and tells
// for each how its ranks are spread. A field of more than mostDrawn is not
// drawn, and has no certainties.
func certainties(pilots []uncertain) []Certainty {
	if len(pilots) == 0 || len(pilots) > mostDrawn {
		return nil
	}
	f := newField(pilots)
	counts := f.count(min(blocks, runtime.GOMAXPROCS(0)))
	spread := make([]Certainty, len(pilots))
	for place, pilot := range f.pilots {
		spread[pilot] = certaintyOf(counts[place*len(pilots) : (place+1)*len(pilots)])
	}
	return spread
}

// A field is the pilots in the order expected of them, which is near to that of
// every draw.
type field struct {
	pilots  []int       // by place expected
	scores  []uncertain // by place expected
	tierTop []int       // by place: the first place of its tier
}

func newField(pilots []uncertain) *field {
	f := &field{}
	for i := range pilots {
		f.pilots = append(f.pilots, i)
	}
	slices.SortStableFunc(f.pilots, func(a, b int) int {
		return cmp.Or(cmp.Compare(pilots[a].tier, pilots[b].tier), best(pilots[a].score, pilots[b].score))
	})
	for place, i := range f.pilots {
		top := place
		if place > 0 && f.scores[place-1].tier == pilots[i].tier {
			top = f.tierTop[place-1]
		}
		f.scores, f.tierTop = append(f.scores, pilots[i]), append(f.tierTop, top)
	}
	return f
}

// count tells how often each pilot drew each rank: by place expected, then
// rank less 1.
func (f *field) count(workers int) []int32 {
	all := make([]int32, len(f.scores)*len(f.scores))
	var next atomic.Int64
	var adding sync.Mutex
	var working sync.WaitGroup
	for range workers {
		working.Go(func() {
			d := newDrawer(f)
			for block := next.Add(1); block <= blocks; block = next.Add(1) {
				d.drawBlock(uint64(block))
			}
			adding.Lock()
			defer adding.Unlock()
			for i, n := range d.counts {
				all[i] += n
			}
		})
	}
	working.Wait()
	return all
}

// A drawer draws one score after another for the whole field.
type drawer struct {
	*field
	counts []int32 // by place expected, then rank less 1
	keys   []int64 // the scores of a draw, best first
	scale  float64 // of a score in a key
}

// A key is a drawn score in fixed point with the place expected in its last
// bits: one whole number to sort by, without a branch.
const (
	placeBits = 16
	placeMask = 1<<placeBits - 1
	keyRange  = 1 << 44 // of the scores in keys
)

func newDrawer(f *field) *drawer {
	n, most := len(f.scores), 1.0
	for _, p := range f.scores {
		most = max(most, math.Abs(p.score)+farthestDraw*p.deviation)
	}
	return &drawer{field: f, counts: make([]int32, n*n), keys: make([]int64, n), scale: keyRange / most}
}

// farthestDraw is more standard deviations than are ever drawn.
const farthestDraw = 40

func (d *drawer) drawBlock(block uint64) {
	generator := rand.New(rand.NewPCG(drawSeed, block))
	for range blockDraws {
		for place, p := range d.scores {
			score := p.score + p.deviation*generator.NormFloat64()
			insert(d.keys[d.tierTop[place]:place+1], int64(score*d.scale)<<placeBits|int64(place))
		}
		d.countRanks()
	}
}

// insert puts a key where it belongs among those before the last place, which
// is free. Few pass the two before them, so that these are compared without a
// branch that could be foretold wrongly.
func insert(sorted []int64, key int64) {
	at := len(sorted) - 1
	for range min(2, at) {
		before := sorted[at-1]
		sorted[at] = min(before, key)
		key = max(before, key)
		at--
	}
	for ; at > 0 && sorted[at-1] < key; at-- {
		sorted[at] = sorted[at-1]
	}
	sorted[at] = key
}

// countRanks counts the rank of each, equal ones of a tier sharing it.
func (d *drawer) countRanks() {
	n, counts, tops := len(d.keys), d.counts, d.tierTop[:len(d.keys)]
	rank, last := 0, int64(0)
	for at, key := range d.keys {
		score := key >> placeBits
		if at == 0 || score != last || tops[at] == at {
			rank = at
		}
		last = score
		counts[int(key&placeMask)*n+rank]++
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
		if rank < podium {
			c.Podium += float64(n) / rankDraws
		}
		below += n
	}
	c.First = float64(count[0]) / rankDraws
	return c
}
