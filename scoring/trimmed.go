package scoring

import (
	"cmp"
	"slices"
)

// scoreTrimmedMean is the mean without each item's lowest and highest grades.
func scoreTrimmedMean(t *Table) ([]flightFit, bool) {
	trim := t.Programme.Method.Trim
	if t.Seats-2*trim < leastUntrimmed {
		return nil, false
	}
	flights := t.Scored()
	fits := make([]flightFit, len(flights))
	for i, f := range flights {
		fits[i] = fitByMeans(f, func(row []Cell) []bool { return TrimmedSeats(row, trim) })
	}
	addStandardErrors(flights, fits)
	return fits, true
}

// leastUntrimmed is how many grades must remain for any to be trimmed.
const leastUntrimmed = 3

// TrimmedSeats marks the grades that are left out at both ends of a row, the
// lower seat being the lower of two equal grades; nil for none.
func TrimmedSeats(row []Cell, trim int) []bool {
	var there []int
	for seat, c := range row {
		if !c.Gap {
			there = append(there, seat)
		}
	}
	if len(there)-2*trim < leastUntrimmed {
		return nil
	}
	slices.SortStableFunc(there, func(a, b int) int { return cmp.Compare(row[a].Value, row[b].Value) })
	out := make([]bool, len(row))
	for i := range trim {
		out[there[i]], out[there[len(there)-1-i]] = true, true
	}
	return out
}
