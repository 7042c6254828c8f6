package scoring

import (
	"strings"

	"halfpoint/scoring/document"
)

// A sheetReader knows what the sheets and rulings of one flight are held
// against.
type sheetReader struct {
	flight  *programmeReader
	items   int // or unknownItems
	seats   register
	rulings map[ruled]bool
}

// ruled is a question that a ruling answers: of each kind an item has one.
type ruled struct {
	item int
	what string
}

func (r *sheetReader) sheet(v document.Value) (s Sheet) {
	o, ok := v.Object("judge", "by", "absent", "grades", "remarks")
	if !ok {
		return s
	}
	s = Sheet{
		Judge: required(o, "judge", r.seat), By: optional(o, "by", "", r.flight.bundle.judges.find),
		Absent: optional(o, "absent", false, readBool),
	}
	read := required[[]Grade]
	if s.Absent {
		read = orEmpty[Grade]
	}
	s.Grades = read(o, "grades", listOf(readGrade))
	s.Remarks = optional(o, "remarks", nil, listOf(readText))
	if !s.Absent || len(s.Grades) > 0 {
		r.expectItems(o, "grades", "grades", len(s.Grades))
	}
	if len(s.Remarks) > 0 {
		r.expectItems(o, "remarks", "remarks", len(s.Remarks))
	}
	return s
}

func orEmpty[T any](o document.Object, name string, read func(document.Value) []T) []T {
	return optional(o, name, []T{}, read)
}

// seat reads the judge of a sheet, who must sit on the panel.
func (r *sheetReader) seat(v document.Value) string {
	id, ok := v.Text()
	if !ok || !r.flight.bundle.judges.expect(v, id) {
		return id
	}
	if !r.flight.panel.ids[id] {
		v.Complain("judge %q is not on the panel of the programme", id)
		return id
	}
	r.seats.add(v, id)
	return id
}

// expectItems complains when a list does not have one entry for each item.
func (r *sheetReader) expectItems(o document.Object, field, what string, n int) {
	v, there := o.Optional(field)
	if there && v.IsList() && r.items != unknownItems && n != r.items {
		v.Complain("%d %s for %d items; each item has one", n, what, r.items)
	}
}

func readGrade(v document.Value) Grade {
	text, ok := v.Text()
	if !ok {
		return NotEntered
	}
	g, err := ParseGrade(text)
	if err != nil {
		v.Complain("%s", err)
	}
	return g
}

func (r *sheetReader) ruling(v document.Value) (ruling Ruling) {
	o, ok := v.Object("item", "ruling", "grade")
	if !ok {
		return ruling
	}
	ruling = Ruling{
		Item: required(o, "item", r.item),
		Ruling: required(o, "ruling", oneOf(HardZeroConfirmed, HardZeroOverruled,
			PerceptionZeroConfirmed, PerceptionZeroOverruled, GradeSet)),
		Grade: optional(o, "grade", nil, readRulingGrade),
	}
	question := ruled{ruling.Item, questionOf(ruling.Ruling)}
	if r.rulings[question] {
		v.Complain("item %d has another %s ruling; it can have one", question.item, question.what)
	}
	r.rulings[question] = true
	switch {
	case ruling.Ruling == GradeSet && ruling.Grade == nil:
		o.Required("grade")
	case ruling.Ruling != GradeSet && ruling.Grade != nil:
		grade, _ := o.Optional("grade")
		grade.Complain("only a %s ruling has a grade", GradeSet)
	}
	return ruling
}

func (r *sheetReader) item(v document.Value) int {
	n, ok := v.Integer(-maxItemNumber, maxItemNumber)
	if ok && r.items != unknownItems && (n < 1 || n > r.items) {
		v.Complain("there is no item %d; the sequence has items 1 to %d", n, r.items)
	}
	return n
}

// maxItemNumber is far beyond any item, so that one that there is not is named by
// its number.
const maxItemNumber = 1_000_000_000

// questionOf is what a ruling answers: a hard zero, a perception zero, or the
// grade.
func questionOf(ruling string) string {
	ruling = strings.TrimSuffix(ruling, "-confirmed")
	return strings.TrimSuffix(ruling, "-overruled")
}

func readRulingGrade(v document.Value) *Grade {
	text, ok := v.Text()
	g, err := ParseGrade(text)
	if ok && (err != nil || !g.Numeric()) {
		v.Complain("%q where a grade from 0 to 10 in steps of 0.5 was expected", text)
	}
	return &g
}
