package line

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// contest is a whole one: 60 flights of 15 items before 10 seats, each cell
// graded, one in twenty graded again, each sheet signed, each flight closed.
func contest() (Setup, []Stored) {
	setup, id := Setup{Contest: wire(0)}, 0
	var records []Stored
	add := func(r Record, a Author) string {
		id++
		r.Seq, r.ID = int64(id), wire(id)
		records = append(records, Stored{r, a})
		return r.ID
	}
	panel := make([]string, 10)
	for j := range panel {
		panel[j] = wire(100_000 + j)
	}
	sequence := SequenceDigest(nil)
	for n := range 60 {
		flight := wire(200_000 + n)
		setup.Flights = append(setup.Flights, FlightSetup{flight, sequence, 15, panel})
		for _, judge := range panel {
			author := Author{Role: RoleJudge, Seat: judge, Device: judge}
			var covers []string
			entries := make([]Entry, 15)
			for i := range entries {
				entries[i].Grade = fmt.Sprintf("%d.%d", 4+i%5, i%2*5)
				r := Record{Kind: KindGrade, Flight: flight, Judge: judge, Item: i + 1, Sequence: sequence, Grade: entries[i].Grade}
				head := add(r, author)
				if id%20 == 0 {
					r.Replaces = []string{head}
					head = add(r, author)
				}
				covers = append(covers, head)
			}
			digest := SheetDigest(setup.Contest, flight, judge, sequence, entries)
			add(Record{Kind: KindSign, Flight: flight, Judge: judge, Covers: covers, Digest: digest}, author)
		}
		seen := Seen(records, flight, 1)
		add(Record{Kind: KindStatus, Flight: flight, Status: StatusClosed, Covers: seen}, Author{Role: RoleChief})
	}
	random := rand.New(rand.NewPCG(1, 1))
	shuffle(random, records)
	return setup, records
}

// wire is a UUID with a number in it.
func wire(n int) string { return fmt.Sprintf("0190a000-0000-7000-8000-%012d", n) }

func BenchmarkResolveContest(b *testing.B) {
	setup, records := contest()
	for _, f := range Resolve(setup, records).Flights {
		if len(f.Blocks) > 0 {
			b.Fatalf("%s is blocked: %v", f.Flight, f.Blocks)
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		Resolve(setup, records)
	}
	b.ReportMetric(float64(len(records)), "records")
}

// One flight is what is resolved again when a grade comes in.
func BenchmarkResolveFlight(b *testing.B) {
	setup, records := contest()
	setup.Flights = setup.Flights[:1]
	var own []Stored
	for _, r := range records {
		if r.Flight == setup.Flights[0].Flight {
			own = append(own, r)
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		Resolve(setup, own)
	}
}
