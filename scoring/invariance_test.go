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

// inContests runs a property over seeded contests, which have so many gaps and
// at least five judges, and says where too few had anything to say about it.
func inContests(t *testing.T, gaps float64, holds func(what string, table *GradeTable) bool) {
	t.Helper()
	t.Parallel()
	const contests, least = 40, 15
	held := 0
	for seed := range uint64(contests) {
		r := rand.New(rand.NewPCG(seed, 3))
		table := simulated(seed, 5+r.IntN(20), 5+r.IntN(10), 5+r.IntN(5), 0, gaps)
		if holds(fmt.Sprintf("contest %d", seed), table) {
			held++
		}
	}
	if held < least {
		t.Errorf("only %d of %d contests say anything", held, contests)
	}
}

// programmeOf makes a programme of a table, scored by a method with all its
// defaults.
func programmeOf(t *GradeTable, method, kind string) *Programme {
	p := &Programme{ID: "p", Kind: kind, Counts: true, Method: DefaultMethod(method)}
	for seat := range t.Seats {
		p.Panel = append(p.Panel, fmt.Sprintf("j%d", seat+1))
	}
	var pilots []Pilot
	for flight := range t.Flights {
		pilots = append(pilots, Pilot{ID: fmt.Sprintf("p%d", flight+1)})
	}
	fillProgramme(p, t, pilots)
	return p
}

// changed is a copy of a programme with something else in it.
func changed(p *Programme, change func(*Programme)) *Programme {
	other := *p
	other.Panel, other.Flights = slices.Clone(p.Panel), slices.Clone(p.Flights)
	for i := range other.Flights {
		f := &other.Flights[i]
		f.Sheets = slices.Clone(f.Sheets)
		for j := range f.Sheets {
			f.Sheets[j].Grades = slices.Clone(f.Sheets[j].Grades)
		}
		f.Sequence = copyOf(f.Sequence)
	}
	other.Sequence = copyOf(p.Sequence)
	change(&other)
	return &other
}

func copyOf(s *Sequence) *Sequence {
	if s == nil {
		return nil
	}
	return &Sequence{Items: slices.Clone(s.Items)}
}

// grades changes every grade of a programme, given where it stands.
func grades(p *Programme, change func(seat, flight, item int, g Grade) Grade) {
	for flight := range p.Flights {
		for seat, sheet := range p.Flights[flight].Sheets {
			for item, g := range sheet.Grades {
				sheet.Grades[item] = change(seat, flight, item, g)
			}
		}
	}
}

// ks changes every K of a programme.
func ks(p *Programme, change func(K) K) {
	changeAll := func(s *Sequence) {
		for i := range s.Items {
			s.Items[i].K = change(s.Items[i].K)
		}
	}
	if !p.OwnSequences() {
		changeAll(p.Sequence)
		return
	}
	for i := range p.Flights {
		changeAll(p.Flights[i].Sequence)
	}
}

// panelScores gives the scores of the scored flights by pilot.
func panelScores(p *Programme) map[string]float64 {
	table := Clean(p)
	fits, _ := fit(table)
	byPilot := map[string]float64{}
	for i, f := range table.Scored() {
		byPilot[f.Flight.Pilot] = fits[i].panelScore
	}
	return byPilot
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

// settled tells whether the design promises anything of a programme: the
// consensus wanders where it did not end while the panel was measured in every
// round.
func settled(p *Programme) bool {
	if p.Method.Name != Consensus {
		return true
	}
	table := Clean(p)
	grades, _ := gradeTable(p, table.Scored(), table.Seats)
	return new(Solver).Solve(grades).Converged()
}

// keptEnough tells whether every seat could still lose a total under the
// normalised method. Where one could not, the flights that come first had it
// lose theirs.
func keptEnough(p *Programme) bool {
	fits, _ := fit(Clean(p))
	for seat := range p.Panel {
		kept := 0
		for i := range fits {
			if !fits[i].discarded[seat] {
				kept++
			}
		}
		if 2*(kept-1) < len(fits) {
			return false
		}
	}
	return true
}

// TestOrderHasNoSay: in which order judges sit and pilots fly changes no score.
func TestOrderHasNoSay(t *testing.T) {
	for _, method := range allMethods {
		t.Run(method, func(t *testing.T) {
			inContests(t, 0.03, func(what string, table *GradeTable) bool {
				p := programmeOf(table, method, Known)
				if !settled(p) || !keptEnough(p) {
					return false
				}
				same(t, what, panelScores(changed(p, shuffle)), panelScores(p), asItIs)
				return true
			})
		})
	}
}

func shuffle(p *Programme) {
	r := rand.New(rand.NewPCG(5, 5))
	r.Shuffle(len(p.Panel), func(i, j int) { p.Panel[i], p.Panel[j] = p.Panel[j], p.Panel[i] })
	r.Shuffle(len(p.Flights), func(i, j int) { p.Flights[i], p.Flights[j] = p.Flights[j], p.Flights[i] })
}

// TestOrderHasNoSayInAFree holds where no two items have the same K: groups are
// cut out of the items in order of K, and then of flights.
func TestOrderHasNoSayInAFree(t *testing.T) {
	inContests(t, 0.03, func(what string, table *GradeTable) bool {
		p := programmeOf(table, Consensus, Free)
		next := K(0)
		ks(p, func(K) K { next = (next + 100) % 1009; return next })
		if !settled(p) {
			return false
		}
		same(t, what, panelScores(changed(p, shuffle)), panelScores(p), asItIs)
		return true
	})
}

// TestALevelHasNoSay: a judge who gives every grade a point more moves all
// pilots by the same. Under the normalised method that holds where nothing is
// missing, since a gap is filled with what the others gave.
func TestALevelHasNoSay(t *testing.T) {
	for name, one := range map[string]struct {
		method Method
		gaps   float64
	}{
		"normalised":              {DefaultMethod(Normalised), 0},
		"consensus":               {DefaultMethod(Consensus), 0.03},
		"consensus without style": {Method{Name: Consensus, SeatWeights: Measured, Outlier: 6, Lean: 2}, 0.03},
	} {
		t.Run(name, func(t *testing.T) {
			inContests(t, one.gaps, func(what string, table *GradeTable) bool {
				p := changed(programmeOf(awayFromTheEnds(table), one.method.Name, Known), func(p *Programme) {
					p.Method = one.method
					if one.gaps == 0 {
						noCodes(p)
					}
				})
				if !settled(p) {
					return false
				}
				before, after := panelScores(p), panelScores(changed(p, func(p *Programme) { grades(p, aPointMore) }))
				moved := after["p1"] - before["p1"]
				same(t, what, after, before, func(x float64) float64 { return x + moved })
				return true
			})
		})
	}
}

func aPointMore(seat, _, _ int, g Grade) Grade {
	if seat == 1 && g.Numeric() {
		return g + 2
	}
	return g
}

func awayFromTheEnds(t *GradeTable) *GradeTable {
	for _, row := range t.Rows {
		for seat, y := range row.Grades {
			row.Grades[seat] = min(max(y, 4), 9) // NaN stays
		}
	}
	return t
}

// TestASpreadHasNoSay: under the normalised method a judge who uses half of the
// scale moves and stretches the scores of all pilots alike.
func TestASpreadHasNoSay(t *testing.T) {
	inContests(t, 0, func(what string, table *GradeTable) bool {
		p := changed(programmeOf(table, Normalised, Known), func(p *Programme) {
			grades(p, func(_, _, _ int, g Grade) Grade { return max(g, 0) / 2 * 2 }) // whole points
		})
		before, after := panelScores(p), panelScores(changed(p, func(p *Programme) { grades(p, halfTheScale) }))
		stretched := (after["p2"] - after["p1"]) / (before["p2"] - before["p1"])
		same(t, what, after, before, func(x float64) float64 { return after["p1"] + (x-before["p1"])*stretched })
		return true
	})
}

func halfTheScale(seat, _, _ int, g Grade) Grade {
	if seat == 1 {
		return g/2 + 6
	}
	return g
}

// TestOneJudgeStaysAmongTheOthers: with trim 1 no judge alone takes an item
// outside of what the others gave.
func TestOneJudgeStaysAmongTheOthers(t *testing.T) {
	inContests(t, 0, func(what string, table *GradeTable) bool {
		p := changed(programmeOf(table, TrimmedMean, Known), noCodes)
		for _, extreme := range []Grade{0, MaxGrade} {
			scores := panelScores(changed(p, func(p *Programme) {
				grades(p, func(seat, _, _ int, g Grade) Grade {
					if seat == 1 {
						return extreme
					}
					return g
				})
			}))
			for i := range p.Flights {
				low, high := othersOf(p, &p.Flights[i])
				if score := scores[p.Flights[i].Pilot]; score < low-sameScore || score > high+sameScore {
					t.Errorf("%s: %v, where the others give %v to %v", what, score, low, high)
				}
			}
		}
		return true
	})
}

func noCodes(p *Programme) {
	grades(p, func(_, _, _ int, g Grade) Grade { return max(g, 1) })
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

// TestAHigherGradeHarmsNobody: under the means a grade that is raised lowers
// no score.
func TestAHigherGradeHarmsNobody(t *testing.T) {
	for _, method := range []string{Mean, TrimmedMean} {
		t.Run(method, func(t *testing.T) {
			inContests(t, 0, func(what string, table *GradeTable) bool {
				p := changed(programmeOf(table, method, Known), noCodes)
				before, after := panelScores(p), panelScores(changed(p, raiseSome))
				for pilot, score := range after {
					if score < before[pilot]-sameScore {
						t.Errorf("%s: %s fell from %v to %v", what, pilot, before[pilot], score)
					}
				}
				return true
			})
		})
	}
}

func raiseSome(p *Programme) {
	r := rand.New(rand.NewPCG(6, 6))
	grades(p, func(_, _, _ int, g Grade) Grade { return min(g+Grade(r.IntN(2)), MaxGrade) })
}

// TestWhatAllAgreeOnIsTheScore: where the sheets of all judges are the same,
// every method gives what stands on them.
func TestWhatAllAgreeOnIsTheScore(t *testing.T) {
	for _, method := range allMethods {
		t.Run(method, func(t *testing.T) {
			inContests(t, 0, func(what string, table *GradeTable) bool {
				p := changed(programmeOf(table, method, Known), noCodes)
				want := map[string]float64{}
				for i := range p.Flights {
					f := &p.Flights[i]
					for seat := range f.Sheets {
						f.Sheets[seat].Grades = f.Sheets[0].Grades
					}
					for item, g := range f.Sheets[0].Grades {
						want[f.Pilot] += float64(p.Sequence.Items[item].K) / 10 * g.Points()
					}
				}
				same(t, what, panelScores(p), want, asItIs)
				return true
			})
		})
	}
}

// TestKHasNoUnit: with every K ten times as great every score is, too.
func TestKHasNoUnit(t *testing.T) {
	for _, method := range allMethods {
		t.Run(method, func(t *testing.T) {
			inContests(t, 0.03, func(what string, table *GradeTable) bool {
				p := programmeOf(table, method, Known)
				if !settled(p) {
					return false
				}
				tenfold := panelScores(changed(p, func(p *Programme) { ks(p, func(k K) K { return 10 * k }) }))
				for pilot := range tenfold {
					tenfold[pilot] /= 10
				}
				same(t, what, tenfold, panelScores(p), asItIs)
				return true
			})
		})
	}
}

// TestAnEmptySeatHasNoSay: a seat that is absent throughout is no seat.
func TestAnEmptySeatHasNoSay(t *testing.T) {
	for _, method := range allMethods {
		t.Run(method, func(t *testing.T) {
			inContests(t, 0, func(what string, table *GradeTable) bool {
				p := changed(programmeOf(table, method, Known), noCodes)
				if !settled(p) {
					return false
				}
				more := changed(p, func(p *Programme) {
					p.Panel = slices.Insert(p.Panel, 2, "nobody")
					for i := range p.Flights {
						p.Flights[i].Sheets = append(p.Flights[i].Sheets, Sheet{Judge: "nobody", Absent: true})
					}
				})
				same(t, what, panelScores(more), panelScores(p), asItIs)
				return true
			})
		})
	}
}

// TestRemarksHaveNoSay: neither remarks change a number, nor who sat in a seat,
// nor flights that were not flown.
func TestRemarksHaveNoSay(t *testing.T) {
	for _, method := range allMethods {
		t.Run(method, func(t *testing.T) {
			inContests(t, 0.03, func(what string, table *GradeTable) bool {
				p := programmeOf(table, method, Known)
				more := changed(p, func(p *Programme) {
					for i := range p.Flights {
						p.Flights[i].Sheets[0].By = "j2"
						p.Flights[i].Sheets[1].Remarks = make([]string, table.Flights)
					}
					p.Flights = append(p.Flights, Flight{Pilot: "q1", Status: Withdrawn}, Flight{Pilot: "q2", Status: Scheduled})
				})
				same(t, what, panelScores(more), panelScores(p), asItIs)
				return true
			})
		})
	}
}

// TestFourJudgesDiscardNothing: a value cannot be farther from the mean of
// four, itself among them, than 1.5 of their standard deviations.
func TestFourJudgesDiscardNothing(t *testing.T) {
	for seed := range uint64(40) {
		fits, _ := scoreNormalised(Clean(programmeOf(simulated(seed, 12, 8, 4, 0, 0.03), Normalised, Known)))
		for i := range fits {
			if slices.Contains(fits[i].discarded, true) {
				t.Errorf("contest %d, flight %d: %v", seed, i, fits[i].discarded)
			}
		}
	}
}
