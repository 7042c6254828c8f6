package table

import (
	"slices"
	"strings"

	"halfpoint/scoring/document"
)

// A Sheet is a table whose first row names its columns.
type Sheet struct {
	Records []Record
	columns map[string]int
	titled  int // how many columns there are up to the last title
	report  *document.Report
}

// ReadSheet reads a table whose first row holds some of the titles, in any order
// and case. Another title, or one that stands twice, is complained of.
func ReadSheet(text []byte, report *document.Report, titles ...string) *Sheet {
	s := &Sheet{columns: map[string]int{}, report: report}
	rows := Read(text, report)
	if len(rows) == 0 {
		report.Add(Place(1, 1), "the first row must name the columns: %s", strings.Join(titles, ", "))
		return s
	}
	s.readTitles(rows[0], titles)
	for _, row := range rows[1:] {
		if s.holds(row) {
			s.Records = append(s.Records, Record{row, s})
		}
	}
	return s
}

// Has tells whether a table has a column.
func (s *Sheet) Has(title string) bool {
	_, there := s.columns[title]
	return there
}

func (s *Sheet) readTitles(row Row, titles []string) {
	for at, cell := range row.Cells {
		title := strings.ToLower(strings.TrimSpace(cell))
		if title != "" {
			s.titled = at + 1
		}
		switch {
		case title == "": // where a spreadsheet had notes, or nothing
		case !slices.Contains(titles, title):
			s.report.Add(Place(row.Line, at+1), "%q is no column of this table; known here: %s", cell, strings.Join(titles, ", "))
		case s.Has(title):
			s.report.Add(Place(row.Line, at+1), "the column %s stands twice", title)
		default:
			s.columns[title] = at
		}
	}
}

// holds tells whether there is anything in a row, and complains of cells beyond
// the last title.
func (s *Sheet) holds(row Row) bool {
	last := -1
	for at, cell := range row.Cells {
		if strings.TrimSpace(cell) != "" {
			last = at
		}
	}
	if s.titled > 0 && last >= s.titled {
		s.report.Add(Place(row.Line, last+1), "there is no title above this cell")
	}
	return last >= 0
}

// A Record is a row below the titles.
type Record struct {
	Row
	sheet *Sheet
}

// Text is what stands below a title, without spaces around it; empty where
// nothing does, or where there is no such column.
func (r Record) Text(title string) string {
	at, there := r.sheet.columns[title]
	if !there || at >= len(r.Cells) {
		return ""
	}
	return bare(strings.TrimSpace(r.Cells[at]))
}

// Place names the cell below a title. A column that is not there is taken for
// the first.
func (r Record) Place(title string) string { return Place(r.Line, r.sheet.columns[title]+1) }

// Complain complains about the cell below a title.
func (r Record) Complain(title, format string, args ...any) {
	r.sheet.report.Add(r.Place(title), format, args...)
}
