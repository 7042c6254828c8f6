package scoring

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"testing"
)

// What R's rlm found: see testdata/mass/README.md.
type massFit struct {
	Values, Shifts, Variances []float64
	Trust                     []float64 // seat after seat, gaps left out
}

// bare leaves of the consensus what a robust regression is: no style, no
// leaning, all seats weighing the same, one group.
func bare(t *GradeTable) *GradeTable {
	t.Groups = 1
	for i := range t.Rows {
		t.Rows[i].Group = 0
	}
	t.Options.Style, t.Options.SeatWeights, t.Options.Lean = false, Equal, 1e9
	return t
}

func massTable(t *testing.T, name string) *GradeTable {
	t.Helper()
	records, err := csv.NewReader(bytes.NewReader(readFile(t, "../testdata/mass/"+name+".csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	table := &GradeTable{Seats: len(records[0]), Flights: len(records), MeanItems: 1, Options: DefaultMethod(Consensus)}
	for i, record := range records {
		row := GradeRow{Flight: i, K: 1, Grades: make([]float64, table.Seats)}
		for seat, text := range record {
			row.Grades[seat] = math.NaN()
			if text != "" {
				if row.Grades[seat], err = strconv.ParseFloat(text, 64); err != nil {
					t.Fatal(err)
				}
			}
		}
		table.Rows = append(table.Rows, row)
	}
	return bare(table)
}

// TestAgreesWithMASS holds the consensus against a robust regression on rows
// and seats from the same start.
func TestAgreesWithMASS(t *testing.T) {
	var all map[string]json.RawMessage
	if err := json.Unmarshal(readFile(t, "../testdata/mass/reference.json"), &all); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"exact", "inexact"} {
		t.Run(name, func(t *testing.T) {
			var want massFit
			if err := json.Unmarshal(all[name], &want); err != nil {
				t.Fatal(err)
			}
			table := massTable(t, name)
			got := massFitOf(table, new(Solver).Solve(table))
			near(t, "value", got.Values, want.Values)
			near(t, "shift", got.Shifts, want.Shifts)
			near(t, "trust", got.Trust, want.Trust)
			near(t, "variance", got.Variances, want.Variances)
		})
	}
}

func massFitOf(table *GradeTable, f *Fit) massFit {
	got := massFit{Values: f.Values, Variances: f.Variances, Shifts: make([]float64, table.Seats)}
	for seat := range table.Seats {
		for r, row := range table.Rows {
			if at := r*table.Seats + seat; !math.IsNaN(row.Grades[seat]) {
				got.Shifts[seat] = row.Grades[seat] - f.Used[at]
				got.Trust = append(got.Trust, f.Trust[at])
			}
		}
	}
	return got
}

func near(t *testing.T, what string, got, want []float64) {
	t.Helper()
	if len(got) != len(want) || len(want) == 0 {
		t.Fatalf("%s: %d numbers, want %d", what, len(got), len(want))
	}
	for i := range want {
		if !(math.Abs(got[i]-want[i]) <= 1e-8) {
			t.Errorf("%s %d: %v, want %v", what, i, got[i], want[i])
		}
	}
}

// TestBiweightEquations: at the end the residuals of every row and of every
// seat, each times its trust, add up to 0.
func TestBiweightEquations(t *testing.T) {
	tables := map[string]*GradeTable{"exact": massTable(t, "exact"), "inexact": massTable(t, "inexact")}
	for seed := range uint64(20) {
		tables[fmt.Sprint(seed)] = bare(simulated(seed, 10, 6, 4+int(seed%6), 0, 0.05))
	}
	for name, table := range tables {
		fit := new(Solver).Solve(table)
		if !fit.Converged() {
			t.Errorf("%s: no end in %d rounds", name, fit.Rounds)
		}
		rows, seats := make([]float64, len(table.Rows)), make([]float64, table.Seats)
		for r, row := range table.Rows {
			for seat, y := range row.Grades {
				if !math.IsNaN(y) {
					pull := biweightPull(fit.Used[r*table.Seats+seat]-fit.Values[r], 6*math.Sqrt(fit.Variances[seat]))
					rows[r] += pull
					seats[seat] += pull
				}
			}
		}
		near(t, name+": pull at row", rows, make([]float64, len(rows)))
		near(t, name+": pull at seat", seats, make([]float64, len(seats)))
	}
}

// biweightPull is a residual times its trust: Tukey's ψ.
func biweightPull(e, end float64) float64 {
	if math.Abs(e) >= end {
		return 0
	}
	rest := 1 - (e/end)*(e/end)
	return e * rest * rest
}
