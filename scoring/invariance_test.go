package scoring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// sameScore is how far apart scores may stand that ought to be the same: the
// consensus ends when it stands still to within its tolerance, in each row.
const sameScore = 1e-6

var allMethods = []string{Mean, TrimmedMean, Normalised, Consensus}

// A property is something that holds of every known programme that is settled.
type property struct {
	methods []string
	gaps    float64          // share of grades that are missing; where it is 0, there are no codes either
	prepare func(*Programme) // nil for programmes as they come
	holds   func(t *testing.T, what string, p *Programme)
}

// inContests holds a property over seeded contests, and says where too few of
// them were settled.
func (one property) inContests(t *testing.T) {
	for _, method := range one.methods {
		t.Run(method, func(t *testing.T) {
			t.Parallel()
			const contests, least = 40, 15
			held := 0
			for seed := range uint64(contests) {
				if p := one.contest(method, seed); settled(p) {
					held++
					one.holds(t, fmt.Sprintf("contest %d", seed), p)
				}
			}
			if held < least {
				t.Errorf("only %d of %d contests say anything", held, contests)
			}
		})
	}
}

func (one property) contest(method string, seed uint64) *Programme {
	r := rand.New(rand.NewPCG(seed, 3))
	p := programmeOf(simulated(seed, 5+r.IntN(20), 5+r.IntN(10), 5+r.IntN(5), 0, one.gaps), method)
	if one.gaps == 0 {
		noCodes(p)
	}
	if one.prepare != nil {
		one.prepare(p)
	}
	return p
}

// settled tells whether the design promises anything of a programme. The
// consensus wanders where it did not end while the panel was measured in every
// round. Where a seat could lose no more totals under the normalised method,
// the flights that come first had it lose theirs.
func settled(p *Programme) bool {
	table := Clean(p)
	switch p.Method.Name {
	case Consensus:
		grades, _ := gradeTable(p, table.Scored(), table.Seats)
		return new(Solver).Solve(grades).Converged()
	case Normalised:
		fits, _ := fit(table)
		for seat := range table.Seats {
			discarded := 0
			for i := range fits {
				if fits[i].discarded[seat] {
					discarded++
				}
			}
			if 2*(discarded+1) > len(fits) {
				return false
			}
		}
	}
	return true
}

// same holds scores against others, moved and stretched where that is expected.
func same(t *testing.T, what string, got, want map[string]float64, expect func(float64) float64) {
	t.Helper()
	if len(got) != len(want) || len(want) == 0 {
		t.Fatalf("%s: %d scores, want %d", what, len(got), len(want))
	}
	for pilot, score := range want {
		if !(math.Abs(got[pilot]-expect(score)) <= sameScore) {
			t.Errorf("%s: %s has %v, want %v", what, pilot, got[pilot], expect(score))
		}
	}
}

func asItIs(x float64) float64 { return x }

// changesNothing is a change that must leave every score as it is.
func changesNothing(change func(*Programme)) func(*testing.T, string, *Programme) {
	return func(t *testing.T, what string, p *Programme) {
		t.Helper()
		same(t, what, panelScores(changed(p, change)), panelScores(p), asItIs)
	}
}

// TestOrderHasNoSay: in which order judges sit and pilots fly changes no score.
func TestOrderHasNoSay(t *testing.T) {
	property{methods: allMethods, gaps: 0.03, holds: changesNothing(shuffle)}.inContests(t)
}

func shuffle(p *Programme) {
	r := rand.New(rand.NewPCG(5, 5))
	r.Shuffle(len(p.Panel), func(i, j int) { p.Panel[i], p.Panel[j] = p.Panel[j], p.Panel[i] })
	r.Shuffle(len(p.Flights), func(i, j int) { p.Flights[i], p.Flights[j] = p.Flights[j], p.Flights[i] })
}

// TestOrderHasNoSayInAFree holds where no two items have the same K: groups are
// cut out of the items in order of K, and then of flights.
func TestOrderHasNoSayInAFree(t *testing.T) {
	next := K(0)
	differentK := func(K) K { next = (next + 100) % 1009; return next }
	property{
		methods: []string{Consensus}, gaps: 0.03, prepare: func(p *Programme) { makeFree(p); ks(p, differentK) },
		holds: changesNothing(shuffle),
	}.inContests(t)
}

// TestRemarksHaveNoSay: neither remarks change a score, nor who sat in a seat,
// nor flights that were not flown.
func TestRemarksHaveNoSay(t *testing.T) {
	property{methods: allMethods, gaps: 0.03, holds: changesNothing(func(p *Programme) {
		for i := range p.Flights {
			p.Flights[i].Sheets[0].By = "j2"
			p.Flights[i].Sheets[1].Remarks = make([]string, len(p.Sequence.Items))
		}
		p.Flights = append(p.Flights, Flight{Pilot: "q1", Status: Withdrawn}, Flight{Pilot: "q2", Status: Scheduled})
	})}.inContests(t)
}

// TestAnEmptySeatHasNoSay: a seat that is absent throughout is no seat.
func TestAnEmptySeatHasNoSay(t *testing.T) {
	property{methods: allMethods, holds: changesNothing(func(p *Programme) {
		p.Panel = slices.Insert(p.Panel, 2, "nobody")
		for i := range p.Flights {
			p.Flights[i].Sheets = append(p.Flights[i].Sheets, Sheet{Judge: "nobody", Absent: true})
		}
	})}.inContests(t)
}

// TestKHasNoUnit: with every K ten times as great every score is, too.
func TestKHasNoUnit(t *testing.T) {
	property{methods: allMethods, gaps: 0.03, holds: func(t *testing.T, what string, p *Programme) {
		tenfold := panelScores(changed(p, func(p *Programme) { ks(p, func(k K) K { return 10 * k }) }))
		for pilot := range tenfold {
			tenfold[pilot] /= 10
		}
		same(t, what, tenfold, panelScores(p), asItIs)
	}}.inContests(t)
}

// TestALevelHasNoSay: a judge who gives every grade a point more moves all
// pilots by the same. Where something is missing only the consensus knows that
// a gap would have been a point more, too.
func TestALevelHasNoSay(t *testing.T) {
	movesAllAlike := func(t *testing.T, what string, p *Programme) {
		before, after := panelScores(p), panelScores(changed(p, func(p *Programme) { grades(p, aPointMore) }))
		moved := after["p1"] - before["p1"]
		same(t, what, after, before, func(x float64) float64 { return x + moved })
	}
	property{methods: []string{Mean, Normalised}, prepare: awayFromTheEnds, holds: movesAllAlike}.inContests(t)
	property{methods: []string{Consensus}, gaps: 0.03, prepare: awayFromTheEnds, holds: movesAllAlike}.inContests(t)
	property{methods: []string{Consensus}, gaps: 0.03, prepare: func(p *Programme) {
		awayFromTheEnds(p)
		p.Method.Style = false
	}, holds: movesAllAlike}.inContests(t)
}

func aPointMore(seat, _ int, g Grade) Grade {
	if seat == 1 && g.Numeric() {
		return g + 2
	}
	return g
}

func awayFromTheEnds(p *Programme) {
	grades(p, func(_, _ int, g Grade) Grade {
		if g.Numeric() {
			return min(max(g, 8), 18)
		}
		return g
	})
}

// TestASpreadHasNoSay: under the normalised method a judge who uses half of the
// scale moves and stretches the scores of all pilots alike.
func TestASpreadHasNoSay(t *testing.T) {
	wholePoints := func(p *Programme) { grades(p, func(_, _ int, g Grade) Grade { return g / 2 * 2 }) }
	property{methods: []string{Normalised}, prepare: wholePoints, holds: func(t *testing.T, what string, p *Programme) {
		before, after := panelScores(p), panelScores(changed(p, func(p *Programme) { grades(p, halfTheScale) }))
		stretched := (after["p2"] - after["p1"]) / (before["p2"] - before["p1"])
		same(t, what, after, before, func(x float64) float64 { return after["p1"] + (x-before["p1"])*stretched })
	}}.inContests(t)
}

func halfTheScale(seat, _ int, g Grade) Grade {
	if seat == 1 {
		return g/2 + 6
	}
	return g
}

// TestWhatAllAgreeOnIsTheScore: where the sheets of all judges are the same,
// every method gives what stands on them.
func TestWhatAllAgreeOnIsTheScore(t *testing.T) {
	agree := func(p *Programme) {
		for i := range p.Flights {
			for seat := range p.Flights[i].Sheets {
				p.Flights[i].Sheets[seat].Grades = p.Flights[i].Sheets[0].Grades
			}
		}
	}
	property{methods: allMethods, prepare: agree, holds: func(t *testing.T, what string, p *Programme) {
		want := map[string]float64{}
		for i := range p.Flights {
			for item, g := range p.Flights[i].Sheets[0].Grades {
				want[p.Flights[i].Pilot] += float64(p.Sequence.Items[item].K) / 10 * g.Points()
			}
		}
		same(t, what, panelScores(p), want, asItIs)
	}}.inContests(t)
}

// TestAHigherGradeHarmsNobody: under the means a grade that is raised lowers
// no score.
func TestAHigherGradeHarmsNobody(t *testing.T) {
	property{methods: []string{Mean, TrimmedMean}, holds: func(t *testing.T, what string, p *Programme) {
		before, after := panelScores(p), panelScores(changed(p, raiseSome))
		for pilot, score := range after {
			if score < before[pilot]-sameScore {
				t.Errorf("%s: %s fell from %v to %v", what, pilot, before[pilot], score)
			}
		}
	}}.inContests(t)
}

func raiseSome(p *Programme) {
	r := rand.New(rand.NewPCG(6, 6))
	grades(p, func(_, _ int, g Grade) Grade { return min(g+Grade(r.IntN(2)), MaxGrade) })
}

// TestOneJudgeStaysAmongTheOthers: with trim 1 no judge alone takes an item
// outside of what the others gave.
func TestOneJudgeStaysAmongTheOthers(t *testing.T) {
	property{methods: []string{TrimmedMean}, holds: func(t *testing.T, what string, p *Programme) {
		for _, extreme := range []Grade{0, MaxGrade} {
			scores := panelScores(changed(p, func(p *Programme) { grades(p, always(extreme)) }))
			for i := range p.Flights {
				low, high := othersOf(p, &p.Flights[i])
				if score := scores[p.Flights[i].Pilot]; score < low-sameScore || score > high+sameScore {
					t.Errorf("%s: %v, where the others give %v to %v", what, score, low, high)
				}
			}
		}
	}}.inContests(t)
}

// always has the second judge give one grade.
func always(extreme Grade) func(seat, item int, g Grade) Grade {
	return func(seat, _ int, g Grade) Grade {
		if seat == 1 {
			return extreme
		}
		return g
	}
}

// othersOf adds up the least and the greatest grades of all seats but the
// second.
func othersOf(p *Programme, f *Flight) (low, high float64) {
	for item := range p.Sequence.Items {
		least, most := MaxGrade, Grade(0)
		for seat, sheet := range f.Sheets {
			if seat != 1 {
				least, most = min(least, sheet.Grades[item]), max(most, sheet.Grades[item])
			}
		}
		k := float64(p.Sequence.Items[item].K) / 10
		low += k * least.Points()
		high += k * most.Points()
	}
	return low, high
}

// TestFourJudgesDiscardNothing: a value cannot be farther from the mean of
// four, itself among them, than 1.5 of their standard deviations.
func TestFourJudgesDiscardNothing(t *testing.T) {
	for seed := range uint64(40) {
		fits, _ := scoreNormalised(Clean(programmeOf(simulated(seed, 12, 8, 4, 0, 0.03), Normalised)))
		for i := range fits {
			if slices.Contains(fits[i].discarded, true) {
				t.Errorf("contest %d, flight %d: %v", seed, i, fits[i].discarded)
			}
		}
	}
}
