package scoring

import (
	"math/big"
)

// scoreMean counts K × the mean of an item's grades; a gap is worth that mean.
func scoreMean(t *Table) ([]flightFit, bool) {
	flights := t.Scored()
	fits := make([]flightFit, len(flights))
	for i, f := range flights {
		fits[i] = fitByMeans(f, func([]Cell) []bool { return nil })
	}
	addStandardErrors(flights, fits)
	return fits, true
}

// fitByMeans scores a flight by the means of its items, in exact arithmetic.
// leaveOut says which seats' grades of a row do not count; nil for none.
func fitByMeans(f *CleanFlight, leaveOut func([]Cell) []bool) flightFit {
	fit := newFlightFit(f)
	score := exactSum{}
	seats := len(f.Absent)
	for i, item := range f.Items {
		row := f.Row(i)
		out := leaveOut(row)
		sum, n := sumOfRow(row, out)
		score.add(int64(item.K)*sum, n)
		for seat, c := range row {
			at := i*seats + seat
			if c.Gap {
				fit.used[at] = float64(sum) / float64(2*n)
			} else if out != nil && out[seat] && c.Reason == NoReason {
				fit.reasons[at] = ReasonTrimmed
			}
		}
	}
	fit.panelScore = score.over(20) // half points and tenths of K
	fit.addTotals(f)
	return fit
}

// sumOfRow adds up the half points of a row that count, and counts them.
func sumOfRow(row []Cell, out []bool) (sum, n int64) {
	for seat, c := range row {
		if !c.Gap && (out == nil || !out[seat]) {
			sum += int64(c.Value)
			n++
		}
	}
	return sum, n
}

// An exactSum is a sum of fractions: numerators by their denominator.
type exactSum map[int64]int64

func (s exactSum) add(numerator, denominator int64) { s[denominator] += numerator }

// over gives the sum divided by a number as the nearest double.
func (s exactSum) over(divisor int64) float64 {
	if len(s) == 1 { // the usual case: no gaps, and one division rounds right
		for denominator, numerator := range s {
			return float64(numerator) / float64(denominator*divisor)
		}
	}
	sum := new(big.Rat)
	for denominator, numerator := range s {
		sum.Add(sum, big.NewRat(numerator, denominator*divisor))
	}
	nearest, _ := sum.Float64()
	return nearest
}
