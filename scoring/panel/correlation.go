package panel

import (
	"cmp"
	"math"
	"slices"
)

// mean of values; NaN for none.
func mean(values []float64) float64 {
	sum := 0.0
	for _, x := range values {
		sum += x
	}
	return sum / float64(len(values))
}

// squares is the sum of squared differences from the mean.
func squares(values []float64) (sum float64) {
	m := mean(values)
	for _, x := range values {
		sum += (x - m) * (x - m)
	}
	return sum
}

// deviation is the sample standard deviation; NaN for fewer than two values.
func deviation(values []float64) float64 {
	if len(values) < 2 {
		return math.NaN()
	}
	return math.Sqrt(squares(values) / float64(len(values)-1))
}

// pearson is the product-moment correlation, -1 to 1; NaN where either does
// not vary.
func pearson(x, y []float64) float64 {
	if constant(x) || constant(y) {
		return math.NaN()
	}
	mx, my, sum := mean(x), mean(y), 0.0
	for i := range x {
		sum += (x[i] - mx) * (y[i] - my)
	}
	return min(max(sum/math.Sqrt(squares(x)*squares(y)), -1), 1)
}

// constant tells whether all values are alike.
func constant(values []float64) bool {
	return !slices.ContainsFunc(values, func(x float64) bool { return !alike(x, values[0]) })
}

// spearman is the correlation of the ranks, ties sharing their mean rank.
func spearman(x, y []float64) float64 { return pearson(ranks(x), ranks(y)) }

// ranks counts from 1 for the lowest value; equal values share the mean of
// their places.
func ranks(values []float64) []float64 {
	sorted := make([]int, len(values))
	for i := range sorted {
		sorted[i] = i
	}
	slices.SortFunc(sorted, func(a, b int) int { return cmp.Compare(values[a], values[b]) })
	ranks := make([]float64, len(values))
	for from := 0; from < len(sorted); {
		to := from + 1
		for to < len(sorted) && alike(values[sorted[to]], values[sorted[to-1]]) {
			to++
		}
		for _, i := range sorted[from:to] {
			ranks[i] = float64(from+to+1) / 2
		}
		from = to
	}
	return ranks
}

// alike tells whether two totals are equal but for the rounding of their sums.
// Different totals of one panel are at least some thousandths of a point apart.
func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b)) }

// order compares two totals, those that are alike being equal.
func order(a, b float64) int {
	if alike(a, b) {
		return 0
	}
	return cmp.Compare(a, b)
}

// kendall is Kendall's rank correlation with the correction for ties, tau-b;
// NaN where either does not vary.
//
// Source: M. G. Kendall, The treatment of ties in ranking problems, Biometrika
// 33 (1945) 239.
func kendall(x, y []float64) float64 {
	sum, inX, inY := 0, 0, 0
	for a := range x {
		for b := range a {
			dx, dy := order(x[a], x[b]), order(y[a], y[b])
			sum += dx * dy
			inX += dx * dx
			inY += dy * dy
		}
	}
	return float64(sum) / (math.Sqrt(float64(inX)) * math.Sqrt(float64(inY)))
}

// orderDisagreement is how far a seat's order is from the panel's, in percent:
// of the points between all pairs of pilots, those between the pairs that the
// seat orders the opposite way, pairs that it ties counting half. It is NaN
// where the panel has no order.
func orderDisagreement(own, panel []float64) float64 {
	against, all := 0.0, 0.0
	for a := range own {
		for b := range a {
			if order(panel[a], panel[b]) == 0 {
				continue
			}
			points := math.Abs(panel[a] - panel[b])
			all += points
			against += points * float64(1-order(own[a], own[b])*order(panel[a], panel[b])) / 2
		}
	}
	return 100 * against / all
}
