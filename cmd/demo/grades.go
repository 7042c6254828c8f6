package demo

import (
	"fmt"
	"math"
	"math/rand/v2"

	"halfpoint/scoring"
)

// A habit is how one judge of the demo grades.
type habit struct {
	shift  float64 // grade points above the others
	spread float64 // how far differences are stretched
	noise  float64 // standard deviation, grade points
}

// One judge is mild, one severe, one uses the whole scale, one is erratic.
var habits = []habit{
	{0.1, 1, 0.45}, {0.6, 0.9, 0.4}, {-0.5, 1, 0.45}, {0, 1.6, 0.5}, {-0.1, 1, 1.1}, {0.2, 0.8, 0.4}, {-0.2, 1.1, 0.5},
}

// Probabilities, for each grade, of what is rarer than a number.
const (
	notSeen = 0.004
	blunder = 0.006 // the wrong figure's grade
)

// Probabilities, for each figure flown, that it is not the figure drawn; then
// each judge sees it with the probability seesZero.
const (
	wrongFigure = 0.012
	seesZero    = 0.85
)

var remarks = []string{"flat on top", "late on the roll", "line short after", "off heading", "not vertical", "barrelled"}

// grade fills in the sheets of a flight as the demo's judges see it.
func grade(l *level, p *scoring.Programme, f *scoring.Flight) {
	for seat, judge := range p.Panel {
		f.Sheets = append(f.Sheets, sheet(l, p, f, seat, judge))
	}
	if draw("penalty "+key(l, p, f)).Float64() < 0.06 {
		f.Penalties = append(f.Penalties, scoring.Penalty{Kind: "below the floor", Count: 1, Points: 30})
	}
}

// sheet is what one seat gives to a flight.
func sheet(l *level, p *scoring.Programme, f *scoring.Flight, seat int, judge string) scoring.Sheet {
	items := p.Items(f)
	s := scoring.Sheet{Judge: judge}
	random := draw(fmt.Sprint("sheet ", key(l, p, f), seat))
	flown := draw("flown " + key(l, p, f))
	skill := l.skill + 0.45*draw("pilot "+l.id+f.Pilot).NormFloat64() + 0.2*flown.NormFloat64()
	any := false
	for range items {
		truth := skill + 0.8*flown.NormFloat64()
		wrong := flown.Float64() < wrongFigure
		g := habits[seat%len(habits)].see(truth, l.skill, wrong, random)
		s.Grades = append(s.Grades, g)
		s.Remarks = append(s.Remarks, remark(g, random))
		any = any || s.Remarks[len(s.Remarks)-1] != ""
	}
	if !any {
		s.Remarks = nil
	}
	return s
}

func key(l *level, p *scoring.Programme, f *scoring.Flight) string {
	return l.id + "/" + p.ID + "/" + f.Pilot
}

// see is the grade that a judge of this habit gives to what was flown.
func (h habit) see(truth, middle float64, wrong bool, random *rand.Rand) scoring.Grade {
	noise, chance := random.NormFloat64(), random.Float64()
	switch {
	case wrong && random.Float64() < seesZero:
		return scoring.HardZero
	case chance < notSeen:
		return scoring.NotSeen
	case chance < notSeen+blunder:
		truth -= 3.5
	}
	seen := middle + (truth-middle)*h.spread + h.shift + h.noise*noise
	return scoring.Grade(math.Round(2 * min(10, max(0.5, seen))))
}

// remark says, now and then, what a low grade was for.
func remark(g scoring.Grade, random *rand.Rand) string {
	if g.Numeric() && g < 13 && random.Float64() < 0.3 {
		return remarks[random.IntN(len(remarks))]
	}
	return ""
}
