package panel

import (
	"math"
	"slices"
)

// agreement is the panel's with itself, of the seats that graded anything and
// the flights that all of those graded.
func (s *sheets) agreement() Agreement {
	var seats []int
	for seat := range s.seats {
		if s.flightsOf(seat) > 0 {
			seats = append(seats, seat)
		}
	}
	table := s.totalsOfAll(seats)
	single, panel := intraclass(table)
	return Agreement{
		Flights: len(table), Seats: len(seats),
		ICCSingle: Number(single), ICCPanel: Number(panel),
		KendallW: Number(concordance(table)), CronbachAlpha: Number(cronbach(table)),
	}
}

// totalsOfAll lists the seats' totals of the flights that each of them graded.
func (s *sheets) totalsOfAll(seats []int) (table [][]float64) {
flights:
	for f, graded := range s.graded {
		totals := make([]float64, len(seats))
		for i, seat := range seats {
			if !graded[seat] {
				continue flights
			}
			totals[i] = s.totals[f][seat]
		}
		table = append(table, totals)
	}
	return table
}

// column is one judge's values in a table by object, then judge.
func column(table [][]float64, judge int) []float64 {
	values := make([]float64, len(table))
	for i, row := range table {
		values[i] = row[judge]
	}
	return values
}

// judgesOf is the number of columns.
func judgesOf(table [][]float64) int {
	if len(table) == 0 {
		return 0
	}
	return len(table[0])
}

// meanSquares is the two-way analysis of variance of a table by object, then
// judge: the mean squares between objects, between judges and of the rest.
func meanSquares(table [][]float64) (objects, judges, rest float64) {
	n, k := float64(len(table)), float64(judgesOf(table))
	var all, objectMeans, judgeMeans []float64
	for _, row := range table {
		all = append(all, row...)
		objectMeans = append(objectMeans, mean(row))
	}
	for j := range judgesOf(table) {
		judgeMeans = append(judgeMeans, mean(column(table, j)))
	}
	between, among := k*squares(objectMeans), n*squares(judgeMeans)
	return between / (n - 1), among / (k - 1), (squares(all) - between - among) / ((n - 1) * (k - 1))
}

// intraclass is the two-way random effects intraclass correlation for absolute
// agreement, ICC(2,1) of one judge and ICC(2,k) of the mean of all. Both are at
// most 1, may be below 0, and are NaN for fewer than two objects or judges or
// where nothing varies.
//
// Source: P. E. Shrout and J. L. Fleiss, Intraclass correlations: uses in
// assessing rater reliability, Psychological Bulletin 86 (1979) 420.
func intraclass(table [][]float64) (single, panel float64) {
	if constant(slices.Concat(table...)) {
		return math.NaN(), math.NaN()
	}
	n, k := float64(len(table)), float64(judgesOf(table))
	objects, judges, rest := meanSquares(table)
	single = (objects - rest) / (objects + (k-1)*rest + k*(judges-rest)/n)
	panel = (objects - rest) / (objects + (judges-rest)/n)
	return single, panel
}

// concordance is Kendall's W with the correction for ties: 0 for no agreement
// about the order, 1 for the same order from all. It is NaN for fewer than two
// objects or judges or where every judge ties all.
//
// Source: M. G. Kendall, Rank Correlation Methods, 1948, ch. 6.
func concordance(table [][]float64) float64 {
	m := judgesOf(table)
	if m < 2 {
		return math.NaN()
	}
	sums, untied := make([]float64, len(table)), 0.0
	for j := range m {
		places := ranks(column(table, j))
		for i, place := range places {
			sums[i] += place
		}
		untied += squares(places) // (n³ - n - Σ(t³ - t)) / 12
	}
	return squares(sums) / (float64(m) * untied)
}

// cronbach is Cronbach's alpha with the judges as the items of a test: at most
// 1, NaN for fewer than two objects or judges or where the sums do not vary.
//
// Source: L. J. Cronbach, Coefficient alpha and the internal structure of
// tests, Psychometrika 16 (1951) 297.
func cronbach(table [][]float64) float64 {
	k := float64(judgesOf(table))
	single := 0.0
	for j := range judgesOf(table) {
		single += squares(column(table, j))
	}
	sums := make([]float64, len(table))
	for i, row := range table {
		sums[i] = mean(row) * k
	}
	if constant(sums) {
		return math.NaN()
	}
	return k / (k - 1) * (1 - single/squares(sums))
}
