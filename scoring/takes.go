package scoring

import "slices"

// A NeedState says what a flight takes for a place.
type NeedState string

// The states of a need.
const (
	NeedAverage NeedState = "average" // an average grade
	NeedAny     NeedState = "any"     // whatever it scores takes the place for now
	NeedCertain NeedState = "certain" // the place cannot be lost by anybody who is still to fly
	NeedBeyond  NeedState = "beyond"  // not even tens are enough
)

// A Need is what the items that are left of a flight take for a place.
type Need struct {
	Place  int // counted from 1
	State  NeedState
	Target float64 // the score to reach, 0.01 more than whoever has the place; 0 where there is nobody
	// Average is the mean grade of what is left, weighted by K, rounded up to two
	// decimals: 0 to 10, or more where it is beyond.
	Average float64
}

// NeedFor says what it takes to stand alone at a place: scores are the published
// ones of all others who are ranked, waiting counts those of them who are still to
// fly, banked are the points of what is graded already, left is the K of what is
// not. Under the mean it is exact: a score is the sum of K × the mean grade.
func NeedFor(place int, scores []float64, waiting int, banked float64, left K) Need {
	n := Need{Place: place, State: NeedAny}
	if len(scores) < place {
		if len(scores)+waiting < place {
			n.State = NeedCertain
		}
		return n
	}
	sorted := slices.Sorted(slices.Values(scores))
	target := published(sorted[len(sorted)-place]) + 1
	n.Target = target.float()
	missing := target - published(banked)
	switch {
	case missing <= 0:
		return n
	case left <= 0:
		n.State = NeedBeyond
		return n
	}
	whole := hundredths(left) // in tenths: a grade of 1 on all of it is ten times as many hundredths
	average := (10*missing + whole - 1) / whole
	n.State, n.Average = NeedAverage, average.float()
	if average > 10*100 {
		n.State = NeedBeyond
	}
	return n
}

// LeftOf is the K of the items from a number on, counted from 1.
func LeftOf(items []Item, from int) K { return sumOfK(items[min(max(from-1, 0), len(items)):]) }
