package panel

import (
	"encoding/json"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"halfpoint/scoring"
)

// bundleOf is a contest of one known programme: sheets by pilot, then judge,
// each the grades of two figures of K 10 and 20.
func bundleOf(t *testing.T, method string, sheets [][]string) *scoring.Bundle {
	t.Helper()
	b := &scoring.Bundle{Format: scoring.BundleFormat}
	p := scoring.Programme{ID: "known", Kind: scoring.Known, Counts: true, Method: scoring.DefaultMethod(method)}
	p.Sequence = &scoring.Sequence{Items: []scoring.Item{{Kind: scoring.Figure, K: 100}, {Kind: scoring.Figure, K: 200}}}
	for j := range sheets[0] {
		id := "j" + string(rune('1'+j))
		b.Judges = append(b.Judges, scoring.Judge{ID: id, Affiliation: "club " + id})
		p.Panel = append(p.Panel, id)
	}
	category := scoring.Category{ID: "c", Combine: scoring.Combine{By: scoring.BySum}}
	for i, row := range sheets {
		pilot := "p" + string(rune('1'+i))
		b.Pilots = append(b.Pilots, scoring.Pilot{ID: pilot})
		category.Entries = append(category.Entries, scoring.Entry{Pilot: pilot, Ranked: true})
		f := scoring.Flight{Pilot: pilot, Status: scoring.Flown}
		for j, text := range row {
			f.Sheets = append(f.Sheets, sheetOf(t, p.Panel[j], text))
		}
		p.Flights = append(p.Flights, f)
	}
	category.Programmes = []scoring.Programme{p}
	b.Categories = []scoring.Category{category}
	return b
}

// sheetOf reads a sheet from "7.5 HZ"; "absent" is an absent seat's.
func sheetOf(t *testing.T, judge, text string) scoring.Sheet {
	t.Helper()
	if text == "absent" {
		return scoring.Sheet{Judge: judge, Absent: true}
	}
	sheet := scoring.Sheet{Judge: judge}
	for word := range strings.FieldsSeq(text) {
		grade, err := scoring.ParseGrade(word)
		if err != nil {
			t.Fatal(err)
		}
		sheet.Grades = append(sheet.Grades, grade)
	}
	return sheet
}

func analyseOne(t *testing.T, b *scoring.Bundle) ProgrammeReport {
	t.Helper()
	return Analyse(b).Categories[0].Programmes[0]
}

func equal(t *testing.T, what string, got Number, want float64) {
	t.Helper()
	if !(math.Abs(float64(got)-want) <= 1e-9) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// TestThreeJudges holds a small panel against numbers made by hand.
func TestThreeJudges(t *testing.T) {
	r := analyseOne(t, bundleOf(t, scoring.Mean, [][]string{
		{"8 8", "7 7", "9 9"}, // totals 240, 210, 270
		{"7 7", "7 7", "5 5"}, // 210, 210, 150
		{"6 6", "4 4", "8 8"}, // 180, 120, 240
	}))
	first := r.Judges[0]
	if first.Judge != "j1" || first.Seat != 1 || first.Flights != 3 || first.Grades.Count != 6 {
		t.Errorf("the first judge: %+v", first)
	}
	equal(t, "mean", first.Grades.Mean, 7)
	if first.Grades.Given[12] != 2 || first.Grades.Given[14] != 2 || first.Grades.Given[16] != 2 { // 6.0, 7.0, 8.0
		t.Errorf("the first judge's grades by half points: %v", first.Grades.Given)
	}
	equal(t, "deviation", first.Grades.Deviation, math.Sqrt(4.0/5))
	equal(t, "difference", first.Grades.Difference, (0+1+0)/3.0) // 8-8, 7-6, 6-6
	// The others' means are 240, 180, 180.
	equal(t, "pearson", first.Pearson, 1800/math.Sqrt(1800*2400))
	equal(t, "kendall", first.Kendall, 2/math.Sqrt(3*2))
	// Panel scores 240, 190, 180; the third judge has the last two the other
	// way round: 10 of 50 + 60 + 10.
	equal(t, "order disagreement", r.Judges[2].OrderDisagreement, 100*10.0/120)
	if !slices.Equal(r.Winners, []string{"p1"}) || r.Judges[0].Weight.Defined() || r.Judges[0].Distrusted.Defined() {
		t.Errorf("winners %v, the first judge %+v", r.Winners, r.Judges[0])
	}
}

// TestWithoutASeat: of panel scores 240, 190 and 180 become 240, 180 and 180
// without the first seat, 255, 180 and 210 without the second, 225, 210 and 150
// without the third.
func TestWithoutASeat(t *testing.T) {
	r := analyseOne(t, bundleOf(t, scoring.Mean, [][]string{
		{"8 8", "7 7", "9 9"},
		{"7 7", "7 7", "5 5"},
		{"6 6", "4 4", "8 8"},
	}))
	winners := []string{"p1"}
	want := []WithoutReport{
		{Judge: "j1", Method: scoring.Mean, Winners: winners, LargestRankChange: 1, Pilots: []string{"p3"}},
		{Judge: "j2", Method: scoring.Mean, Winners: winners, LargestRankChange: 1, Pilots: []string{"p2", "p3"}},
		{Judge: "j3", Method: scoring.Mean, Winners: winners, Pilots: []string{}},
	}
	if !reflect.DeepEqual(r.Without, want) || r.LargestRankChange != 1 {
		t.Errorf("%+v and %d, want %+v", r.Without, r.LargestRankChange, want)
	}
}

// TestCodes: a hard zero that two of three share is upheld, one alone is not;
// a perception zero alone is not; a "not seen" is, but for a confirmed zero.
func TestCodes(t *testing.T) {
	r := analyseOne(t, bundleOf(t, scoring.Mean, [][]string{
		{"HZ 8", "HZ 8", "A 8"},
		{"HZ 7", "7 7", "7 A"},
		{"6 6", "PZ 6", "7 7"},
	}))
	type codes struct{ hard, perception, seen CodeCount }
	want := []codes{
		{hard: CodeCount{2, 1}},
		{hard: CodeCount{1, 1}, perception: CodeCount{1, 0}},
		{seen: CodeCount{2, 1}},
	}
	for i, judge := range r.Judges {
		if got := (codes{judge.HardZeros, judge.PerceptionZeros, judge.NotSeen}); got != want[i] {
			t.Errorf("%s: %+v, want %+v", judge.Judge, got, want[i])
		}
	}
	equal(t, "grades of the first judge that are numbers", r.Judges[0].Grades.Mean, (8+7+6+6)/4.0)
}

// TestAbsentSeat: what a seat did not grade makes it neither better nor worse.
func TestAbsentSeat(t *testing.T) {
	r := analyseOne(t, bundleOf(t, scoring.Mean, [][]string{
		{"8 8", "7 7", "9 9"},
		{"7 7", "7 7", "absent"},
		{"6 6", "4 4", "8 8"},
	}))
	if r.Judges[2].Flights != 2 || r.Judges[0].Flights != 3 || r.Agreement.Flights != 2 || r.Agreement.Seats != 3 {
		t.Errorf("flights of the third judge %d, the first %d, all %d of %d seats",
			r.Judges[2].Flights, r.Judges[0].Flights, r.Agreement.Flights, r.Agreement.Seats)
	}
	// The others' means are 240, 210 (the second judge alone), 180.
	equal(t, "pearson", r.Judges[0].Pearson, 1)
}

// leaning is a panel of five that agrees on everything but the first judge's
// own pilots, whom that judge puts two points up.
func leaning(t *testing.T) *scoring.Bundle {
	t.Helper()
	var rows [][]string
	for i, sheet := range []string{"5 6", "6 6", "7 6", "6 7", "7 8", "8 7", "6 5", "5 5"} {
		row := []string{sheet, sheet, sheet, sheet, sheet}
		if i < 3 {
			row[0] = []string{"7 8", "8 8", "9 8"}[i]
		}
		rows = append(rows, row)
	}
	b := bundleOf(t, scoring.Consensus, rows)
	for i := range 3 {
		b.Pilots[i].Affiliation = "club j1"
	}
	return b
}

func TestOwnAffiliation(t *testing.T) {
	b := leaning(t)
	r := analyseOne(t, b)
	a := r.Judges[0].Affiliation
	if a.Pilots != 3 || !(a.Difference > 1) || !(a.P < 0.05) {
		t.Errorf("the leaning judge: %+v", a)
	}
	if a := r.Judges[1].Affiliation; a.Pilots != 0 || a.Difference.Defined() || a.P.Defined() {
		t.Errorf("a judge without pilots: %+v", a)
	}
	if first := r.Judges[0]; !(first.Distrusted > 0) || !(first.Accuracy > r.Judges[1].Accuracy) || !(first.Weight < r.Judges[1].Weight) {
		t.Errorf("the leaning judge: %+v, another %+v", first, r.Judges[1])
	}
	// Another person in the seat for one of the own pilots.
	b.Categories[0].Programmes[0].Flights[0].Sheets[0].By = "j5"
	if a := analyseOne(t, b).Judges[0].Affiliation; a.Pilots != 2 {
		t.Errorf("with one flight graded by another: %+v", a)
	}
}

// TestWholeContests: reports of whole contests have no number that JSON cannot
// hold, read back as they are, and are the same each time.
func TestWholeContests(t *testing.T) {
	for _, name := range []string{"104", "105", "108"} { // three, seven and four seats; withdrawn, disqualified, few flights
		path := "../../testdata/cases/" + name + ".bundle.json"
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		b, err := scoring.DecodeBundle(text)
		if err != nil {
			t.Fatal(err)
		}
		report := Analyse(b)
		first, err := report.Encode()
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		var back Report
		if err := json.Unmarshal(first, &back); err != nil {
			t.Fatal(err)
		}
		if again, _ := back.Encode(); string(again) != string(first) {
			t.Errorf("%s: read back differs", path)
		}
		for _, c := range report.Categories {
			for i := range c.Programmes {
				checkRanges(t, path, &c.Programmes[i])
			}
		}
	}
}

func checkRanges(t *testing.T, path string, p *ProgrammeReport) {
	t.Helper()
	within := func(what string, n Number, low, high float64) {
		if n.Defined() && (float64(n) < low || float64(n) > high) {
			t.Errorf("%s %s: %s %v", path, p.ID, what, n)
		}
	}
	weights := 0.0
	for _, j := range p.Judges {
		within("pearson", j.Pearson, -1, 1)
		within("spearman", j.Spearman, -1, 1)
		within("kendall", j.Kendall, -1, 1)
		within("order disagreement", j.OrderDisagreement, 0, 100)
		within("distrusted", j.Distrusted, 0, 1)
		within("accuracy", j.Accuracy, 0, 10)
		within("p", j.Affiliation.P, 1.0/10_001, 1)
		weights += float64(j.Weight)
	}
	within("W", p.Agreement.KendallW, 0, 1)
	within("ICC(2,1)", p.Agreement.ICCSingle, -1, 1)
	if len(p.Judges) >= 4 && math.Abs(weights-1) > 1e-9 || len(p.Without) != len(p.Judges) {
		t.Errorf("%s %s: weights add up to %v, %d seats left out", path, p.ID, weights, len(p.Without))
	}
}

// TestNothingFlown: a report of a programme without a scored flight has no
// number but counts of 0.
func TestNothingFlown(t *testing.T) {
	b := bundleOf(t, scoring.Consensus, [][]string{{"8 8", "7 7"}})
	b.Categories[0].Programmes[0].Flights[0].Status = scoring.Scheduled
	text, err := Analyse(b).Encode()
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range []string{`"flights":0`, `"pearson":null`, `"icc_2_1":null`, `"winners":[]`} {
		if !strings.Contains(string(text), part) {
			t.Errorf("no %s in %s", part, text)
		}
	}
}
