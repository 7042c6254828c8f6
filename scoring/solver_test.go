package scoring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// TestSolverIsThePlainOne holds the fast solver against the one that is
// written as the method is, on tables of all shapes. Where that did not end
// while the panel was still measured it wanders, and the last bit of a double
// decides where to.
func TestSolverIsThePlainOne(t *testing.T) {
	var s Solver
	compared := 0
	for seed := range uint64(200) {
		table := oddTable(seed)
		plain, fast := solvePlain(table), s.Solve(table)
		if plain.Converged() {
			sameFit(t, fmt.Sprintf("table %d", seed), fast, plain, table, 1e-8)
			compared++
		}
	}
	if compared < 150 {
		t.Errorf("only %d tables compared", compared)
	}
}

// TestResumeAgreesWithSolve changes a grade at a time, gaps among them.
func TestResumeAgreesWithSolve(t *testing.T) {
	var warm, cold Solver
	table := simulated(3, 20, 12, 7, 0, 0.05)
	warm.Solve(table)
	r := rand.New(rand.NewPCG(3, 3))
	compared := 0
	for change := range 60 {
		row := table.Rows[r.IntN(len(table.Rows))]
		row.Grades[r.IntN(table.Seats)] = float64(r.IntN(21)) / 2
		if change%3 == 0 {
			row.Grades[r.IntN(table.Seats-1)] = math.NaN()
			row.Grades[table.Seats-1] = 7
		}
		if got, want := warm.Resume(table), cold.Solve(table); want.Converged() {
			sameFit(t, fmt.Sprintf("change %d", change), got, want, table, 1e-6)
			compared++
		}
	}
	if compared < 45 {
		t.Errorf("only %d of 60 changes compared", compared)
	}
}

// oddTable is a small table with odd options and, often, odd grades.
func oddTable(seed uint64) *GradeTable {
	r := rand.New(rand.NewPCG(seed, 2))
	flights, items, seats := 5+r.IntN(20), 1+r.IntN(12), 4+r.IntN(7)
	t := simulated(seed, flights, items, seats, r.IntN(2)*r.IntN(8), 0.3*r.Float64())
	t.Options.Style = r.IntN(4) > 0
	t.Options.Outlier = []float64{6, 6, 4.685, 3, 1e300}[r.IntN(5)]
	t.Options.Lean = []float64{2, 2, 1.5, 3, 2, 1e9}[r.IntN(6)]
	if r.IntN(4) == 0 {
		t.Options.SeatWeights = Equal
	}
	if r.IntN(5) == 0 {
		for i := range t.Rows { // a seat without spread
			t.Rows[i].Grades[0] = 7
		}
	}
	if r.IntN(5) == 0 {
		for i := range t.Rows { // a seat without a grade, where another has one
			if !math.IsNaN(t.Rows[i].Grades[1]) {
				t.Rows[i].Grades[2] = math.NaN()
			}
		}
	}
	if r.IntN(5) == 0 {
		t.Groups += 2 // groups without a row
	}
	if r.IntN(3) == 0 {
		r.Shuffle(len(t.Rows), func(i, j int) { t.Rows[i], t.Rows[j] = t.Rows[j], t.Rows[i] })
	}
	return t
}

func sameFit(t *testing.T, what string, got, want *Fit, table *GradeTable, tolerance float64) {
	t.Helper()
	near := func(part string, i int, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= tolerance) {
			t.Errorf("%s: %s %d is %v, want %v", what, part, i, got, want)
		}
	}
	for i := range want.Values {
		near("value", i, got.Values[i], want.Values[i])
	}
	for i := range want.Weights {
		near("weight", i, got.Weights[i], want.Weights[i])
		near("variance", i, got.Variances[i], want.Variances[i])
	}
	for i := range want.Used {
		if !math.IsNaN(table.Rows[i/table.Seats].Grades[i%table.Seats]) {
			near("used value", i, got.Used[i], want.Used[i])
			near("trust", i, got.Trust[i], want.Trust[i])
		}
	}
}

// sizes are a small and a large programme.
var sizes = []struct{ flights, items, seats int }{{20, 12, 7}, {60, 15, 10}}

// BenchmarkSolver finds the consensus of different contests, from the beginning.
func BenchmarkSolver(b *testing.B) {
	for _, size := range sizes {
		b.Run(fmt.Sprintf("%dx%dx%d", size.flights, size.items, size.seats), func(b *testing.B) {
			tables := make([]*GradeTable, 15)
			var s Solver
			for i := range tables {
				tables[i] = simulated(uint64(i), size.flights, size.items, size.seats, 0, 0.02)
				s.Solve(tables[i])
			}
			times := make([]float64, 0, 1000)
			b.ReportAllocs()
			for b.Loop() {
				before := time.Now()
				s.Solve(tables[len(times)%len(tables)])
				if len(times) < cap(times) {
					times = append(times, float64(time.Since(before).Microseconds()))
				}
			}
			b.ReportMetric(medianOf(times), "median-µs")
		})
	}
}

// BenchmarkResume goes on from the fit before after one changed grade.
func BenchmarkResume(b *testing.B) {
	for _, size := range sizes {
		b.Run(fmt.Sprintf("%dx%dx%d", size.flights, size.items, size.seats), func(b *testing.B) {
			table := simulated(1, size.flights, size.items, size.seats, 0, 0.02)
			var s Solver
			s.Solve(table)
			i := 0
			b.ReportAllocs()
			for b.Loop() {
				table.Rows[i%len(table.Rows)].Grades[0] = 7.5
				s.Resume(table)
				i++
			}
		})
	}
}

// BenchmarkPlain is the reference, to be read rather than run.
func BenchmarkPlain(b *testing.B) {
	table := simulated(1, 60, 15, 10, 0, 0.02)
	for b.Loop() {
		solvePlain(table)
	}
}
