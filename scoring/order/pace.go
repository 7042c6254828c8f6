package order

import (
	"slices"
	"time"
)

// LeastBegun is how many flights must have begun before there is a pace.
const LeastBegun = 3

// Pace is the time from one flight to the next: the median of what lay between
// the flights that have begun, so that a break counts once and no more. There
// is none, 0, for fewer than LeastBegun.
func Pace(begun []time.Time) time.Duration {
	if len(begun) < LeastBegun {
		return 0
	}
	sorted := slices.SortedFunc(slices.Values(begun), time.Time.Compare)
	gaps := make([]time.Duration, len(sorted)-1)
	for i := range gaps {
		gaps[i] = sorted[i+1].Sub(sorted[i])
	}
	slices.Sort(gaps)
	middle := len(gaps) / 2
	if len(gaps)%2 == 1 {
		return gaps[middle]
	}
	return (gaps[middle-1] + gaps[middle]) / 2
}

// Expected says when each of the flights that wait can be expected to begin, at
// the pace of those that have begun: one pace after the last one, but not
// before now, and then one after the other. It is nil where there is no pace.
func Expected(begun []time.Time, now time.Time, waiting int) []time.Time {
	pace := Pace(begun)
	if pace <= 0 {
		return nil
	}
	next := slices.MaxFunc(begun, time.Time.Compare).Add(pace)
	if next.Before(now) {
		next = now
	}
	expected := make([]time.Time, waiting)
	for i := range expected {
		expected[i] = next.Add(time.Duration(i) * pace)
	}
	return expected
}
