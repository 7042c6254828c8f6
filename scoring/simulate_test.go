package scoring

import (
	"math"
	"math/rand/v2"
)

// simulated is a table of grades as a panel might give them: pilots and figures
// of different quality, seats with a level, a spread and noise of their own, a
// seat that leans against a pilot, blunders, and gaps. Groups are items where
// they are 0, else so many of about the same size.
func simulated(seed uint64, flights, items, seats, groups int, gaps float64) *GradeTable {
	r := rand.New(rand.NewPCG(seed, 1))
	t := &GradeTable{
		Seats: seats, Flights: flights, Groups: items, MeanItems: float64(items), Options: DefaultMethod(Consensus),
	}
	if groups > 0 {
		t.Groups = groups
	}
	pilot, figure, level := normals(r, flights), normals(r, items), normals(r, seats)
	spread, noise, k := make([]float64, seats), make([]float64, seats), make([]float64, items)
	for j := range seats {
		spread[j], noise[j] = 0.6+0.8*r.Float64(), 0.2+0.6*r.Float64()
	}
	for i := range items {
		k[i] = float64(6 + r.IntN(35))
	}
	for p := range flights {
		for i := range items {
			row := GradeRow{Flight: p, Group: i, K: k[i], Grades: make([]float64, seats)}
			if groups > 0 {
				row.Group = r.IntN(groups)
			}
			quality := 0.6*pilot[p] + 0.4*figure[i] + 0.6*r.NormFloat64()
			for j := range seats {
				y := 7.5 + 0.5*level[j] + spread[j]*quality + noise[j]*r.NormFloat64()
				if p == j {
					y -= 1.5
				}
				if r.Float64() < 0.01 {
					y -= 3
				}
				row.Grades[j] = math.Round(2*clamp(y, 0, 10)) / 2
				if r.Float64() < gaps && j != i%seats {
					row.Grades[j] = math.NaN()
				}
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

func normals(r *rand.Rand, n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = r.NormFloat64()
	}
	return values
}
