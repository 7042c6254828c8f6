package panel

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"
)

// The tables and the numbers that R made of them: see testdata/panel/README.md.
const references = "../../testdata/panel/"

type reference struct {
	Pearson, Spearman, Kendall, Deviation, Parabola []float64
	ICCSingle                                       float64 `json:"icc_2_1"`
	ICCPanel                                        float64 `json:"icc_2_k"`
	KendallW                                        float64 `json:"kendall_w"`
	CronbachAlpha                                   float64 `json:"cronbach_alpha"`
}

func readReferences(t *testing.T, into any) {
	t.Helper()
	text, err := os.ReadFile(references + "reference.json")
	if err == nil {
		err = json.Unmarshal(text, into)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// readTable reads a table by object, then judge.
func readTable(t *testing.T, name string) (table [][]float64) {
	t.Helper()
	file, err := os.Open(references + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, record := range records {
		row := make([]float64, len(record))
		for j, text := range record {
			if row[j], err = strconv.ParseFloat(text, 64); err != nil {
				t.Fatal(err)
			}
		}
		table = append(table, row)
	}
	return table
}

// near holds numbers against those of R, which are written with twelve digits.
func near(t *testing.T, what string, got, want []float64) {
	t.Helper()
	if len(got) != len(want) || len(want) == 0 {
		t.Fatalf("%s: %d numbers, want %d", what, len(got), len(want))
	}
	for i := range want {
		if !(math.Abs(got[i]-want[i]) <= 1e-9) {
			t.Errorf("%s[%d]: %v, want %v", what, i, got[i], want[i])
		}
	}
}

// printed are what the tables' own sources print.
var printed = map[string][]struct {
	name        string
	got         func(reference) float64
	want, digit float64
}{
	"shrout-fleiss": { // Shrout and Fleiss 1979
		{"ICC(2,1)", func(r reference) float64 { return r.ICCSingle }, 0.29, 0.01},
		{"ICC(2,k)", func(r reference) float64 { return r.ICCPanel }, 0.62, 0.01},
	},
	"kendall-ties": { // Kendall 1948, ch. 6, from memory
		{"W", func(r reference) float64 { return r.KendallW }, 0.828, 0.001},
	},
}

func TestAgreesWithR(t *testing.T) {
	for _, name := range []string{"shrout-fleiss", "kendall-ties", "rounding-times"} {
		t.Run(name, func(t *testing.T) {
			var all map[string]json.RawMessage
			readReferences(t, &all)
			var want reference
			if err := json.Unmarshal(all[name], &want); err != nil {
				t.Fatal(err)
			}
			got := measure(readTable(t, name))
			near(t, "pearson", got.Pearson, want.Pearson)
			near(t, "spearman", got.Spearman, want.Spearman)
			near(t, "kendall", got.Kendall, want.Kendall)
			near(t, "deviation", got.Deviation, want.Deviation)
			near(t, "parabola", got.Parabola, want.Parabola)
			near(t, "agreement",
				[]float64{got.ICCSingle, got.ICCPanel, got.KendallW, got.CronbachAlpha},
				[]float64{want.ICCSingle, want.ICCPanel, want.KendallW, want.CronbachAlpha})
			for _, p := range printed[name] {
				if x := p.got(got); math.Abs(x-p.want) > p.digit/2 {
					t.Errorf("%s: %v, printed %v", p.name, x, p.want)
				}
			}
		})
	}
}

// measure takes a table for the totals of a panel whose seats graded all.
func measure(table [][]float64) (r reference) {
	s := &sheets{seats: len(table[0]), totals: table, graded: make([][]bool, len(table))}
	for i := range table {
		for range table[i] {
			s.graded[i] = append(s.graded[i], true)
		}
	}
	var levels, offs []float64
	for seat := range s.seats {
		own, others := s.againstOthers(seat)
		r.Pearson = append(r.Pearson, pearson(own, others))
		r.Spearman = append(r.Spearman, spearman(own, others))
		r.Kendall = append(r.Kendall, kendall(own, others))
		r.Deviation = append(r.Deviation, deviation(own))
		for i, row := range table {
			level := mean(row)
			levels = append(levels, level)
			offs = append(offs, (own[i]-level)*(own[i]-level))
		}
	}
	r.Parabola = parabola(levels, offs)
	a := s.agreement()
	r.ICCSingle, r.ICCPanel = float64(a.ICCSingle), float64(a.ICCPanel)
	r.KendallW, r.CronbachAlpha = float64(a.KendallW), float64(a.CronbachAlpha)
	return r
}

// TestPermutationAgreesWithEveryWayOfDealing holds the drawn p against the
// exact one, of all 120 ways: its standard error is √(p(1-p)/10000) = 0.0018.
func TestPermutationAgreesWithEveryWayOfDealing(t *testing.T) {
	var r struct {
		Permutation struct {
			Own, Others   []float64
			Difference, P float64
		}
	}
	readReferences(t, &r)
	want := r.Permutation
	difference, p := permute(want.Own, want.Others, 0)
	near(t, "difference", []float64{difference}, []float64{want.Difference})
	if want.P == 0 || math.Abs(p-want.P) > 4*0.0018 {
		t.Errorf("p is %v, exactly %v", p, want.P)
	}
	if _, again := permute(want.Own, want.Others, 0); again != p {
		t.Errorf("p is %v, then %v", p, again)
	}
}
