package study

import (
	"fmt"
	"math"
	"math/rand/v2"

	"halfpoint/scoring"
)

// A Scenario is what is wrong with a panel. On every panel judges differ in
// level, in spread and a little in exactness.
type Scenario struct {
	Name     string
	Blunders float64 // share of grades that are points too low or too high
	Wide     bool    // one judge spreads the grades too far
	Erratic  bool    // one judge is far less exact
	Leaning  bool    // one judge leans for some pilots and against one
}

// Scenarios lists the scenarios of the study, all faults together last.
func Scenarios() []Scenario {
	return []Scenario{
		{Name: "clean"},
		{Name: "blunders", Blunders: blunders},
		{Name: "a wide grader", Wide: true},
		{Name: "an erratic judge", Erratic: true},
		{Name: "a leaning judge", Leaning: true},
		{Name: "all together", Blunders: blunders, Wide: true, Erratic: true, Leaning: true},
	}
}

// What contests and panels are like: common practice, no source. In points but
// for the ratios.
const (
	leastSeats, mostSeats   = 4, 10
	leastPilots, mostPilots = 5, 60
	leastItems, mostItems   = 8, 15

	middle       = 7.3  // of all grades
	skill        = 0.6  // deviation of the pilots
	ease         = 0.4  // deviation of the items
	form         = 0.6  // deviation of one pilot's items
	level        = 0.4  // deviation of the judges' levels
	taste        = 0.2  // deviation of a judge's level on an item
	spreading    = 0.12 // deviation of the logarithm of the judges' spreads
	inexactness  = 0.5  // deviation of a judge's grades
	inexactRatio = 0.25 // deviation of its logarithm between judges

	blunders     = 0.01
	wideSpread   = 1.5
	erraticRatio = 1.8
	lean         = 0.5
	leanedPilots = 0.1 // of the field, at least one
	leastBlunder = 2.0
	mostBlunder  = 4.0
	rounding     = 1.0 / 48 // variance of rounding to half points
)

// A Contest is a simulated programme with what is true about it.
type Contest struct {
	Category scoring.Category // the programme once for each method
	Truth    []float64        // by flight: what a faultless panel's score would be

	items    []scoring.Item
	judges   []judge
	readings [][][]float64 // by flight, item and seat: what who knows the judges reads, NaN for a blunder
}

// A judge is how one seat grades: level + spread × quality, more or less
// exactly.
type judge struct {
	level, spread, deviation float64
	taste                    []float64 // by item
	lean                     []float64 // by flight
}

// Simulate makes the contest of a seed.
func Simulate(s Scenario, seed uint64) *Contest {
	r := rand.New(rand.NewPCG(seed, 0x5d1))
	c := &Contest{}
	pilots := between(r, leastPilots, mostPilots)
	c.draftItems(r)
	c.draftPanel(r, s, between(r, leastSeats, mostSeats), pilots)
	eases := normals(r, len(c.items), ease)
	flights := make([]scoring.Flight, pilots)
	for p := range flights {
		flights[p] = c.fly(r, s, p, eases)
	}
	c.enter(flights)
	return c
}

func (c *Contest) draftItems(r *rand.Rand) {
	c.items = make([]scoring.Item, between(r, leastItems, mostItems))
	for i := range c.items {
		c.items[i] = scoring.Item{Kind: scoring.Figure, K: scoring.K(10 * between(r, 6, 45))}
	}
}

// draftPanel seats judges, the faulty ones first.
func (c *Contest) draftPanel(r *rand.Rand, s Scenario, seats, pilots int) {
	c.judges = make([]judge, seats)
	for j := range c.judges {
		c.judges[j] = judge{
			level: level * r.NormFloat64(), spread: math.Exp(spreading * r.NormFloat64()),
			deviation: inexactness * math.Exp(inexactRatio*r.NormFloat64()),
			taste:     normals(r, len(c.items), taste), lean: make([]float64, pilots),
		}
	}
	if s.Wide {
		c.judges[0].spread *= wideSpread
	}
	if s.Erratic {
		c.judges[1].deviation *= erraticRatio
	}
	if s.Leaning {
		leaned := r.Perm(pilots)[:1+max(1, int(leanedPilots*float64(pilots)))]
		for _, p := range leaned[1:] {
			c.judges[2].lean[p] = lean
		}
		c.judges[2].lean[leaned[0]] = -lean
	}
}

// fly lets one pilot fly and the panel grade it.
func (c *Contest) fly(r *rand.Rand, s Scenario, p int, eases []float64) scoring.Flight {
	f := scoring.Flight{Pilot: pilotID(p), Status: scoring.Flown, Sheets: make([]scoring.Sheet, len(c.judges))}
	for j := range f.Sheets {
		f.Sheets[j] = scoring.Sheet{Judge: judgeID(j), Grades: make([]scoring.Grade, len(c.items))}
	}
	talent, truth := skill*r.NormFloat64(), 0.0
	readings := make([][]float64, len(c.items))
	for i, item := range c.items {
		quality := min(max(middle+talent+eases[i]+form*r.NormFloat64(), 0), 10)
		truth += float64(item.K) / 10 * quality
		readings[i] = make([]float64, len(c.judges))
		for j := range c.judges {
			f.Sheets[j].Grades[i], readings[i][j] = c.judges[j].grade(r, s, p, i, quality)
		}
	}
	c.Truth = append(c.Truth, truth)
	c.readings = append(c.readings, readings)
	return f
}

// grade is what a judge writes down, and what who knows the judge reads out of
// it: NaN for a blunder.
func (j *judge) grade(r *rand.Rand, s Scenario, p, item int, quality float64) (written scoring.Grade, reading float64) {
	habit := j.level + j.taste[item] + j.lean[p]
	points := middle + habit + j.spread*(quality-middle) + j.deviation*r.NormFloat64()
	blunder := r.Float64() < s.Blunders
	if blunder {
		points += blunderOf(r)
	}
	written = scoring.Grade(math.Round(2 * min(max(points, 0), 10)))
	if blunder {
		return written, math.NaN()
	}
	return written, middle + (written.Points()-middle-habit)/j.spread
}

// blunderOf is points off, three times out of four for a fault that was not
// there.
func blunderOf(r *rand.Rand) float64 {
	size := leastBlunder + (mostBlunder-leastBlunder)*r.Float64()
	if r.IntN(4) == 0 {
		return size
	}
	return -size
}

// enter puts the flights into a category, once for each method.
func (c *Contest) enter(flights []scoring.Flight) {
	var panel []string
	for j := range c.judges {
		panel = append(panel, judgeID(j))
	}
	for p := range flights {
		c.Category.Entries = append(c.Category.Entries, scoring.Entry{Pilot: pilotID(p), Ranked: true})
	}
	c.Category.Combine.By = scoring.BySum
	for _, method := range Methods() {
		if method == Limit {
			continue
		}
		c.Category.Programmes = append(c.Category.Programmes, scoring.Programme{
			ID: method, Kind: scoring.Known, Counts: true, Method: scoring.DefaultMethod(method),
			Panel: panel, Sequence: &scoring.Sequence{Items: c.items}, Flights: flights,
		})
	}
}

func pilotID(p int) string { return fmt.Sprintf("p%d", p+1) }
func judgeID(j int) string { return fmt.Sprintf("j%d", j+1) }

// between draws a whole number, both ends included.
func between(r *rand.Rand, least, most int) int { return least + r.IntN(most-least+1) }

func normals(r *rand.Rand, n int, deviation float64) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = deviation * r.NormFloat64()
	}
	return values
}
