package scoring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// largeContest is sixty pilots before ten judges in four programmes of fifteen
// items, one of them a free, with gaps and hard zeros.
func largeContest() *Bundle {
	b := &Bundle{}
	for j := range 10 {
		b.Judges = append(b.Judges, Judge{ID: fmt.Sprintf("j%d", j+1), Name: fmt.Sprintf("Judge %d", j+1)})
	}
	c := Category{ID: "unlimited", Name: "Unlimited", Combine: Combine{By: BySum, TeamBest: 3}}
	for p := range 60 {
		id := fmt.Sprintf("p%d", p+1)
		b.Pilots = append(b.Pilots, Pilot{ID: id, Name: "Pilot " + id, Affiliation: "Club"})
		c.Entries = append(c.Entries, Entry{Pilot: id, Ranked: true, Team: fmt.Sprintf("Team %d", p%12)})
	}
	for i, kind := range []string{Known, Free, Unknown, Unknown} {
		table := simulated(uint64(i), 60, 15, 10, 0, 0.02)
		p := Programme{ID: fmt.Sprintf("round%d", i+1), Kind: kind, Counts: true, Method: DefaultMethod(Consensus)}
		for _, j := range b.Judges {
			p.Panel = append(p.Panel, j.ID)
		}
		fillProgramme(&p, table, b.Pilots)
		c.Programmes = append(c.Programmes, p)
	}
	b.Categories = []Category{c}
	return b
}

// fillProgramme makes flights of a table's rows.
func fillProgramme(p *Programme, t *GradeTable, pilots []Pilot) {
	r := rand.New(rand.NewPCG(4, 4))
	items := len(t.Rows) / t.Flights
	for flight := range t.Flights {
		rows := t.Rows[flight*items : (flight+1)*items]
		f := Flight{Pilot: pilots[flight].ID, Status: Flown, Sheets: make([]Sheet, t.Seats)}
		sequence := &Sequence{}
		for _, row := range rows {
			sequence.Items = append(sequence.Items, Item{Kind: Figure, K: K(10 * row.K), Elements: []string{"1.1.1.1", "9.1.3.2"}, Name: "Figure"})
		}
		for seat := range f.Sheets {
			f.Sheets[seat] = Sheet{Judge: p.Panel[seat], Grades: make([]Grade, items)}
			for i, row := range rows {
				f.Sheets[seat].Grades[i] = gradeOf(row.Grades[seat], r)
			}
		}
		if p.OwnSequences() {
			f.Sequence = sequence
		} else {
			p.Sequence = sequence
		}
		p.Flights = append(p.Flights, f)
	}
}

func gradeOf(points float64, r *rand.Rand) Grade {
	switch {
	case math.IsNaN(points):
		return NotSeen
	case r.IntN(200) == 0:
		return HardZero
	}
	return Grade(2 * points)
}

// BenchmarkLargeContest reads, scores and prints a whole contest, and each of
// the three by itself.
func BenchmarkLargeContest(b *testing.B) {
	text, err := largeContest().Encode()
	if err != nil {
		b.Fatal(err)
	}
	bundle, err := DecodeBundle(text)
	if err != nil {
		b.Fatal(err)
	}
	results := Score(bundle)
	read := func() { bundle, err = DecodeBundle(text) }
	score := func() { results = Score(bundle) }
	print := func() { results.Encode() }
	for _, part := range []struct {
		name string
		run  func()
	}{
		{"read", read}, {"score", score}, {"print", print}, {"all", func() { read(); score(); print() }},
	} {
		b.Run(part.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				part.run()
			}
			if err != nil {
				b.Fatal(err)
			}
		})
	}
}
