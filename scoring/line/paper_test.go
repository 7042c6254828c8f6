package line

import (
	"fmt"
	"reflect"
	"testing"
)

func reading(signed bool, grades ...string) Reading {
	r := Reading{Signed: signed}
	for _, g := range grades {
		r.Entries = append(r.Entries, Entry{Grade: g})
	}
	return r
}

func TestReadingsOfPaper(t *testing.T) {
	for name, c := range map[string]struct {
		readings []Reading
		unlike   []int
	}{
		"agree":                     {[]Reading{reading(true, "7.5", "8.0"), reading(true, "7.5", "8.0")}, nil},
		"differ in one":             {[]Reading{reading(true, "7.5", "8.0"), reading(true, "7.5", "6.0")}, []int{2}},
		"one says signed":           {[]Reading{reading(true, "7.5"), reading(false, "7.5")}, []int{0}},
		"the third is the first":    {[]Reading{reading(true, "7.5", "8.0"), reading(true, "7.5", "6.0"), reading(true, "7.5", "8.0")}, nil},
		"the third is the second":   {[]Reading{reading(false, "7.5", "8.0"), reading(true, "7.5", "6.0"), reading(true, "7.5", "6.0")}, nil},
		"the third takes from each": {[]Reading{reading(true, "7.5", "8.0"), reading(true, "7.0", "6.0"), reading(true, "7.5", "6.0")}, nil},
		"the third is neither":      {[]Reading{reading(true, "7.5", "8.0"), reading(true, "7.5", "6.0"), reading(true, "7.5", "3.0")}, []int{2}},
		"the fourth is the third":   {[]Reading{reading(true, "8.0"), reading(true, "6.0"), reading(true, "3.0"), reading(true, "3.0")}, nil},
		"what was agreed is undone": {[]Reading{reading(true, "7.5", "8.0"), reading(true, "7.5", "6.0"), reading(true, "5.5", "6.0")}, []int{1}},
	} {
		if got := Unlike(Compared(c.readings)); !reflect.DeepEqual(got, c.unlike) {
			t.Errorf("%s: unlike in %v, want %v", name, got, c.unlike)
		}
	}
}

// Whatever was done to a sheet before, once the paper is keyed it shows what the
// paper says, and what it said already where the paper says nothing.
func TestPaperIsWhatTheSheetShows(t *testing.T) {
	keyed := 0
	for seed := range uint64(600) {
		f := newField(seed)
		f.play(25)
		before := Resolve(f.setup, f.all).Flights[0]
		sheet := sheetOf(before, 1, "J1")
		if sheet == nil || sheet.Signature.State == Signed || sheet.Signature.State == Differ || before.Status == StatusClosed {
			continue
		}
		paper := &Paper{Contest: "C", Flight: "F1", Sequence: "Q", Attempt: 1, Sheet: sheet, Reading: reading(true, "7.5", "")}
		paper.Reading.Entries[0].Remark = "flat"
		if len(paper.Empty()) > 0 {
			paper.Reading.Entries[1].Grade = "HZ"
		}
		want := []Entry{paper.entry(0), paper.entry(1)}
		n := 0
		for _, r := range paper.Records(func() Record { n++; return Record{ID: fmt.Sprint("z", n), Seq: int64(n)} }) {
			f.all = append(f.all, Stored{r, Author{Role: RoleOffice, Device: "D4"}})
		}
		after := sheetOf(Resolve(f.setup, f.all).Flights[0], 1, "J1")
		got := []Entry{{after.Cells[0].Grade, after.Cells[0].Remark}, {after.Cells[1].Grade, after.Cells[1].Remark}}
		if !reflect.DeepEqual(got, want) || after.Signature.State != Signed {
			t.Errorf("seed %d: the sheet shows %v and is %s, want %v", seed, got, after.Signature.State, want)
		}
		keyed++
	}
	if keyed < 100 {
		t.Errorf("only %d sheets could be keyed", keyed)
	}
}
