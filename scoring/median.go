package scoring

import (
	"math"
	"slices"
)

// A runningMedian finds the median of magnitudes that change a little from
// round to round. It counts those below a narrow bracket around the last
// median, keeps those inside it, and selects only among these; where the
// median left the bracket, it selects among all.
//
// Magnitudes are compared by their squares, because who counts them has these
// at hand, and by the bits of a difference of doubles, which needs no branch:
// the first bit tells whether it is below 0, and of those that are not the
// greater one has the greater bits.
type runningMedian struct {
	n      int     // how many magnitudes there are
	low    float64 // the bracket's lower end, squared
	width  uint64  // bits of the difference between the squares of its ends
	below  int
	inside []float64
	last   float64
}

// begin starts a new round.
func (m *runningMedian) begin() { m.below, m.inside = 0, m.inside[:0] }

// add counts one magnitude.
func (m *runningMedian) add(x float64) {
	above := math.Float64bits(x*x - m.low)
	m.below += int(above >> 63)
	if above <= m.width {
		m.inside = append(m.inside, math.Abs(x))
	}
}

// room is where up to n magnitudes inside the bracket may be put, before they
// are counted.
func (m *runningMedian) room(n int) []float64 {
	m.inside = slices.Grow(m.inside, n)
	return m.inside[len(m.inside) : len(m.inside)+n]
}

// count takes in what was found below the bracket and put into the room.
func (m *runningMedian) count(below, inside int) {
	m.below += below
	m.inside = m.inside[:len(m.inside)+inside]
}

// find gives the median of what was counted, if it stands inside the bracket.
func (m *runningMedian) find() (float64, bool) {
	first, second := (m.n-1)/2-m.below, m.n/2-m.below
	if first < 0 || second >= len(m.inside) {
		return 0, false
	}
	return middle(m.inside, first, second), true
}

// follow puts the bracket around a median for the next round: wide enough for a
// few magnitudes, and wider the more the median moved.
func (m *runningMedian) follow(median float64) {
	moved := math.Abs(median - m.last)
	if m.last == 0 {
		moved = 0.05 * median
	}
	m.bracket(median, 36*median/float64(m.n)+1.2*moved)
	m.last = median
}

func (m *runningMedian) bracket(middle, reach float64) {
	low, high := max(0, middle-reach), middle+reach
	m.low = low * low
	m.width = math.Float64bits(high*high - m.low)
}

// forget puts the bracket above everything but gaps, where nothing is known of
// the median: it will not be found there.
func (m *runningMedian) forget() { m.low, m.width, m.last = gapFrom*gapFrom, 0, 0 }

// A sample of one in so many tells where to look for a median of which nothing
// is known.
const sampleEvery = 7

// guess puts the bracket where the median must be expected from a sample of the
// magnitudes: a twentieth of them to either side. It reorders the sample.
func (m *runningMedian) guess(sample []float64) {
	n := len(sample)
	if n < 2 {
		m.forget()
		return
	}
	selectNth(sample, n/2)
	middle, lower := sample[n/2], sample[:n/2]
	near := min(n*9/20, n/2-1)
	selectNth(lower, near)
	m.bracket(middle, middle-lower[near])
}

// middle gives the mean of two values next to each other in order of size, or
// of one given twice. It reorders the values.
func middle(values []float64, first, second int) float64 {
	selectNth(values, second)
	if first == second {
		return values[second]
	}
	return (slices.Max(values[:second]) + values[second]) / 2
}

// medianOf gives the median of the values and reorders them.
func medianOf(values []float64) float64 {
	return middle(values, (len(values)-1)/2, len(values)/2)
}

// shortList is the length below which sorting is quicker than selecting.
const shortList = 12

// selectNth puts the value that would stand at n in order of size there, with
// none greater before it.
func selectNth(values []float64, n int) {
	low, high := 0, len(values)-1
	for high-low > shortList {
		i, j := partition(values, low, high)
		switch {
		case n <= j:
			high = j
		case n >= i:
			low = i
		default:
			return
		}
	}
	insertionSort(values[low : high+1])
}

// partition splits values[low:high+1] around the middle one of three: up to j
// they are at most it, from i on at least it.
func partition(values []float64, low, high int) (i, j int) {
	a, b, c := values[low], values[(low+high)/2], values[high]
	pivot := max(min(a, b), min(max(a, b), c))
	i, j = low, high
	for i <= j {
		for values[i] < pivot {
			i++
		}
		for values[j] > pivot {
			j--
		}
		if i <= j {
			values[i], values[j] = values[j], values[i]
			i++
			j--
		}
	}
	return i, j
}

func insertionSort(values []float64) {
	for i := 1; i < len(values); i++ {
		x, j := values[i], i
		for ; j > 0 && values[j-1] > x; j-- {
			values[j] = values[j-1]
		}
		values[j] = x
	}
}
