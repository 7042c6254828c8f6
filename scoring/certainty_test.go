package scoring

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

// fieldOf is a field of pilots with scores about as far apart as they are sure.
func fieldOf(n int) []uncertain {
	r := rand.New(rand.NewPCG(7, 7))
	pilots := make([]uncertain, n)
	for i := range pilots {
		pilots[i] = uncertain{score: 1500 + 150*r.NormFloat64(), deviation: 8 + 8*r.Float64()}
	}
	return pilots
}

func TestCertaintyIsTheSameHoweverManyWork(t *testing.T) {
	f := newField(fieldOf(20))
	if one, many := f.count(1), f.count(7); !reflect.DeepEqual(one, many) {
		t.Error("seven goroutines count otherwise than one")
	}
}

// TestCertaintyOfTwo has a known answer: one normal score exceeds another with
// probability Φ(difference / √(sum of variances)).
func TestCertaintyOfTwo(t *testing.T) {
	for _, difference := range []float64{0, 5, 20, 100} {
		got := certainties([]uncertain{{score: 1000, deviation: 9}, {score: 1000 + difference, deviation: 12}})
		want := 0.5 * math.Erfc(-difference/15/math.Sqrt2)
		if math.Abs(got[1].First-want) > 0.015 || math.Abs(got[0].First-(1-want)) > 0.015 {
			t.Errorf("%v apart: first with %v and %v, want %v for the second", difference, got[0].First, got[1].First, want)
		}
		if got[0].Podium != 1 || got[1].Podium != 1 {
			t.Errorf("two pilots are not both among the first three: %+v", got)
		}
	}
}

func TestCertaintyWithoutDoubt(t *testing.T) {
	got := certainties([]uncertain{{score: 5}, {score: 9}, {score: 5}, {score: 1}, {score: 99, deviation: 1, tier: 1}})
	want := []Certainty{{2, 2, 0, 1}, {1, 1, 1, 1}, {2, 2, 0, 1}, {4, 4, 0, 0}, {5, 5, 0, 0}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

func BenchmarkCertainties(b *testing.B) {
	f := newField(fieldOf(60))
	b.ReportAllocs()
	for b.Loop() {
		f.count(1)
	}
}
