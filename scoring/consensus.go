package scoring

import "math"

// scoreConsensus asks of every grade how far to trust it: seats' styles and
// levels are taken off, seats weigh by how exact they are, and a grade counts
// less the farther it is from the others, as does a seat that leans for or
// against one pilot.
//
// Sources: the biweight M-estimator of J. W. Tukey (P. J. Huber, Robust
// Statistics, 1981, ch. 4 and 7); seat variances without a true value, F. E.
// Grubbs, JASA 43 (1948) 243; weights by inverse variance, W. G. Cochran, JRSS
// Suppl. 4 (1937) 102.
func scoreConsensus(t *Table) ([]flightFit, bool) {
	flights := t.Scored()
	if len(flights) < leastFlights {
		return nil, false
	}
	table, keys := gradeTable(t.Programme, flights, t.Seats)
	if table.seatsWithCells() < leastSeats {
		return nil, false
	}
	found := new(Solver).Solve(table)
	fits := make([]flightFit, len(flights))
	for i, f := range flights {
		fits[i] = newFlightFit(f)
		fits[i].trust = make([]*Trust, len(f.Cells))
		fits[i].weights = shares(found.Weights)
	}
	for r, key := range keys {
		fits[key.flight].addRow(table, found, r, key.item)
	}
	for i, f := range flights {
		fits[i].standardError = math.Sqrt(fits[i].standardError)
		fits[i].addTotals(f)
	}
	return fits, true
}

// gradeTable lists the rows of the scored flights that are fitted, with the
// flight and item of each. Rows of zeros only are left out: they count 0 for
// every seat.
func gradeTable(p *Programme, flights []*CleanFlight, seats int) (*GradeTable, []rowKey) {
	groups, n := groupRows(p, flights)
	t := &GradeTable{Seats: seats, Flights: len(flights), Groups: n, Options: p.Method}
	var keys []rowKey
	for i, f := range flights {
		t.MeanItems += float64(len(f.Items)) / float64(len(flights))
		for item := range f.Items {
			cells := f.Row(item)
			if zerosOnly(cells) {
				continue
			}
			keys = append(keys, rowKey{i, item})
			t.Rows = append(t.Rows, GradeRow{
				Flight: i, Group: groups[i][item], K: float64(f.Items[item].K) / 10, Grades: gradesOf(cells),
			})
		}
	}
	return t, keys
}

func zerosOnly(cells []Cell) bool {
	for _, c := range cells {
		if !c.Gap && c.Value != 0 {
			return false
		}
	}
	return true
}

func gradesOf(cells []Cell) []float64 {
	grades := make([]float64, len(cells))
	for seat, c := range cells {
		grades[seat] = c.Value.Points()
		if c.Gap {
			grades[seat] = math.NaN()
		}
	}
	return grades
}

func (t *GradeTable) seatsWithCells() (n int) {
	for seat := range t.Seats {
		for _, row := range t.Rows {
			if !math.IsNaN(row.Grades[seat]) {
				n++
				break
			}
		}
	}
	return n
}

// addRow puts a fitted row into the fit of its flight. The standard error is
// still a variance while rows are added.
func (fit *flightFit) addRow(t *GradeTable, found *Fit, r, item int) {
	row, fitted := t.Rows[r], found.Values[r]
	counted := clamp(fitted, 0, MaxGrade.Points())
	fit.panelScore += row.K * counted
	trusts := make([]Trust, t.Seats)
	all, variance := 0.0, 0.0
	for seat, y := range row.Grades {
		at := item*t.Seats + seat
		trusts[seat].Fitted = fitted
		fit.trust[at] = &trusts[seat]
		if math.IsNaN(y) {
			fit.used[at] = counted
			continue
		}
		trust := found.Trust[r*t.Seats+seat]
		fit.used[at], trusts[seat].Weight = found.Used[r*t.Seats+seat], trust
		if trust < leastTrust && fit.reasons[at] == NoReason {
			fit.reasons[at] = ReasonOutlier
		}
		omega := found.Weights[seat] * trust
		all += omega
		variance += omega * omega * found.Variances[seat]
	}
	if all > 0 {
		fit.standardError += row.K * row.K * variance / (all * all)
	}
}

// leastTrust is the trust below which a cell is called an outlier.
const leastTrust = 0.5

// shares makes weights add up to 1.
func shares(weights []float64) []float64 {
	var all moments
	for _, w := range weights {
		all.add(w)
	}
	shares := make([]float64, len(weights))
	for seat, w := range weights {
		shares[seat] = w / all.sum
	}
	return shares
}
