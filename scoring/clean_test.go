package scoring

import (
	"fmt"
	"strings"
	"testing"
)

// A rowCase is an item's grades as a panel gave them, and what counts of them.
// Cells stand in the order of the seats; "absent" is an absent seat's, "-" one
// not entered.
type rowCase struct {
	what    string
	grades  string
	rulings []Ruling
	method  Method // DefaultMethod where it has no name
	counts  string // "8", "gap (reason)" or "0 (reason)", by seat
}

var (
	halfOrMore = Method{Name: Mean, HardZeroMajority: HalfOrMore, PerceptionZero: ByMajority}
	asGraded   = Method{Name: Mean, HardZeroMajority: MoreThanHalf, PerceptionZero: AsGraded}
	confirmHZ  = Ruling{Item: 1, Ruling: HardZeroConfirmed}
	overruleHZ = Ruling{Item: 1, Ruling: HardZeroOverruled}
	confirmPZ  = Ruling{Item: 1, Ruling: PerceptionZeroConfirmed}
	overrulePZ = Ruling{Item: 1, Ruling: PerceptionZeroOverruled}
)

// setTo is a ruling that sets the grade of the first item.
func setTo(g Grade) Ruling { return Ruling{Item: 1, Ruling: GradeSet, Grade: &g} }

// The rows are reasoned from the rules in docs/method.md: how many of those who
// graded gave a hard zero, and how many a zero of any kind.
var hardZeroRows = []rowCase{
	{what: "one of five", grades: "8 HZ 7 6 7", counts: "8, gap (hard zero not upheld), 7, 6, 7"},
	{what: "two of five", grades: "8 HZ 7 HZ 7", counts: "8, gap (hard zero not upheld), 7, gap (hard zero not upheld), 7"},
	{what: "three of five", grades: "8 HZ HZ HZ 7", counts: allZero(5)},
	{what: "half of four is not more than half", grades: "HZ HZ 8 7", counts: "gap (hard zero not upheld), gap (hard zero not upheld), 8, 7"},
	{what: "half of four is half", grades: "HZ HZ 8 7", method: halfOrMore, counts: allZero(4)},
	{what: "two of five are not half", grades: "HZ HZ 8 7 6", method: halfOrMore, counts: "gap (hard zero not upheld), gap (hard zero not upheld), 8, 7, 6"},
	{what: "who did not see it has no vote, and 0 like the others", grades: "HZ HZ 7 A", counts: allZero(4)},
	{what: "nor has an absent judge", grades: "HZ HZ 7 absent", counts: allZero(4)},
	{what: "one judge alone confirms nothing, though half of two", grades: "HZ 7", method: halfOrMore, counts: "gap (hard zero not upheld), 7"},
	{what: "one judge alone is a majority of zeros", grades: "HZ A A", counts: "0 (zero by majority), gap (not seen), gap (not seen)"},
	{what: "zeros of all kinds are three of five", grades: "HZ PZ 0 7 5", counts: "0 (zero by majority), 0, 0, 7, 5"},
	{what: "two hard zeros and a zero of four", grades: "HZ HZ 0 8", counts: "0 (zero by majority), 0 (zero by majority), 0, 8"},
	{what: "zeros are half of four", grades: "HZ 0 8 7", counts: "gap (hard zero not upheld), 0, 8, 7"},
	{what: "confirmed against four", grades: "8 HZ 7 6 7", rulings: []Ruling{confirmHZ}, counts: allZero(5)},
	{what: "confirmed where nobody saw one", grades: "8 7 A absent", rulings: []Ruling{confirmHZ}, counts: allZero(4)},
	{what: "overruled against a majority", grades: "HZ HZ HZ 8", rulings: []Ruling{overruleHZ}, counts: "gap (hard zero overruled), gap (hard zero overruled), gap (hard zero overruled), 8"},
	{what: "overruled, and zeros stay", grades: "HZ 0 8 7", rulings: []Ruling{overruleHZ}, counts: "gap (hard zero overruled), 0, 8, 7"},
}

var perceptionZeroRows = []rowCase{
	{what: "one of five", grades: "PZ 8 7 6 7", counts: "gap (perception zero not upheld), 8, 7, 6, 7"},
	{what: "two of five", grades: "PZ 8 PZ 6 7", counts: "gap (perception zero not upheld), 8, gap (perception zero not upheld), 6, 7"},
	{what: "half of four", grades: "PZ PZ 8 7", counts: "0, 0, 8, 7"},
	{what: "a zero helps", grades: "PZ 0 8 7", counts: "0, 0, 8, 7"},
	{what: "a hard zero helps, though not upheld itself", grades: "PZ HZ 8 7", counts: "0, gap (hard zero not upheld), 8, 7"},
	{what: "a hard zero helps, though overruled", grades: "PZ HZ 8 7", rulings: []Ruling{overruleHZ}, counts: "0, gap (hard zero overruled), 8, 7"},
	{what: "who did not see it has no vote", grades: "PZ A 8 A", counts: "0, gap (not seen), 8, gap (not seen)"},
	{what: "as graded", grades: "PZ 8 7 6 7", method: asGraded, counts: "0, 8, 7, 6, 7"},
	{what: "confirmed", grades: "PZ 8 7 6 7", rulings: []Ruling{confirmPZ}, counts: "0 (perception zero confirmed), 8, 7, 6, 7"},
	{what: "overruled against a majority", grades: "PZ PZ 0 7", rulings: []Ruling{overrulePZ}, counts: "gap (perception zero overruled), gap (perception zero overruled), 0, 7"},
	{what: "overruled, though as graded", grades: "PZ 8 7", rulings: []Ruling{overrulePZ}, method: asGraded, counts: "gap (perception zero overruled), 8, 7"},
	{what: "hard zeros go before", grades: "PZ HZ HZ HZ", rulings: []Ruling{overrulePZ}, counts: allZero(4)},
	{what: "both kinds overruled", grades: "PZ HZ 8", rulings: []Ruling{overrulePZ, overruleHZ}, counts: "gap (perception zero overruled), gap (hard zero overruled), 8"},
}

var otherRows = []rowCase{
	{what: "not seen", grades: "A 8 7", counts: "gap (not seen), 8, 7"},
	{what: "absent", grades: "8 absent 7", counts: "8, gap (seat absent), 7"},
	{what: "a zero is a grade", grades: "0 8 7", counts: "0, 8, 7"},
	{what: "nobody saw it", grades: "A A A", counts: "gap (not seen), gap (not seen), gap (not seen)"},
	{what: "a grade is set where nobody has one", grades: "A A absent", rulings: []Ruling{setTo(13)}, counts: "6.5 (grade set), 6.5 (grade set), 6.5 (grade set)"},
	{what: "a grade is set after overruled hard zeros", grades: "HZ HZ", rulings: []Ruling{overruleHZ, setTo(0)}, counts: "0 (grade set), 0 (grade set)"},
	{what: "a grade is not set where one is left", grades: "A 8 A", rulings: []Ruling{setTo(13)}, counts: "gap (not seen), 8, gap (not seen)"},
	{what: "a ruling on another item", grades: "HZ 8 7", rulings: []Ruling{{Item: 2, Ruling: HardZeroConfirmed}}, counts: "gap (hard zero not upheld), 8, 7"},
}

// allZero is a row in which a hard zero is confirmed.
func allZero(seats int) string {
	return strings.TrimSuffix(strings.Repeat("0 (hard zero confirmed), ", seats), ", ")
}

func TestCodesAreDecidedOn(t *testing.T) {
	for kind, rows := range map[string][]rowCase{"hard zero": hardZeroRows, "perception zero": perceptionZeroRows, "other": otherRows} {
		for _, c := range rows {
			t.Run(kind+": "+c.what, func(t *testing.T) {
				f := cleanOne(t, c)
				if got := countsOf(&f); got != c.counts {
					t.Errorf("%s counts\n%s\nwant\n%s", c.grades, got, c.counts)
				}
				gapsOnly := strings.Count(c.counts, "gap") == len(f.Absent)
				if gapsOnly != (len(f.Unresolved) == 1) || !f.Complete {
					t.Errorf("%s: unresolved items %v, complete %v", c.grades, f.Unresolved, f.Complete)
				}
			})
		}
	}
}

// TestAnEntryIsMissing: a flight without an entry is not complete, whatever was
// ruled on it; an absent seat owes none.
func TestAnEntryIsMissing(t *testing.T) {
	for _, c := range []struct {
		grades  string
		rulings []Ruling
		want    bool
	}{
		{"8 - 7", nil, false},
		{"HZ HZ -", nil, false},
		{"8 - 7", []Ruling{confirmHZ}, false},
		{"- - -", []Ruling{setTo(13)}, false},
		{"8 absent 7", nil, true},
		{"A A A", nil, true},
	} {
		if f := cleanOne(t, rowCase{grades: c.grades, rulings: c.rulings}); f.Complete != c.want {
			t.Errorf("%s: complete %v", c.grades, f.Complete)
		}
	}
	p := &Programme{Kind: Known, Panel: []string{"a", "b"}, Sequence: &Sequence{Items: make([]Item, 1)}}
	p.Flights = []Flight{{Status: Flown, Sheets: []Sheet{sheetOf(t, "a", "8")}}}
	if Clean(p).Flights[0].Complete {
		t.Error("complete without the second sheet")
	}
}

// cleanOne cleans a flight of one item.
func cleanOne(t *testing.T, c rowCase) CleanFlight {
	t.Helper()
	p := &Programme{Kind: Known, Method: c.method, Sequence: &Sequence{Items: []Item{{Kind: Figure, K: 100}}}}
	if p.Method.Name == "" {
		p.Method = DefaultMethod(Mean)
	}
	f := Flight{Status: Flown, Rulings: c.rulings}
	for seat, text := range strings.Fields(c.grades) {
		judge := fmt.Sprint("j", seat+1)
		p.Panel = append(p.Panel, judge)
		f.Sheets = append(f.Sheets, sheetOf(t, judge, text))
	}
	p.Flights = []Flight{f}
	return Clean(p).Flights[0]
}

// sheetOf is a sheet with the grades of a text: "8 HZ -".
func sheetOf(t *testing.T, judge, text string) Sheet {
	t.Helper()
	s := Sheet{Judge: judge, Absent: text == "absent"}
	for word := range strings.FieldsSeq(strings.ReplaceAll(text, "absent", "")) {
		g, err := ParseGrade(strings.TrimSuffix(word, "-"))
		if err != nil {
			t.Fatal(err)
		}
		s.Grades = append(s.Grades, g)
	}
	return s
}

func countsOf(f *CleanFlight) string {
	cells := make([]string, len(f.Cells))
	for i, c := range f.Cells {
		cells[i] = "gap"
		if !c.Gap {
			cells[i] = strings.TrimSuffix(c.Value.String(), ".0")
		}
		if c.Reason != NoReason {
			cells[i] += " (" + string(c.Reason) + ")"
		}
	}
	return strings.Join(cells, ", ")
}
