package table

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"halfpoint/scoring/document"
)

// sheet is a table whose first row names its columns.
type sheet struct {
	columns map[string]int
	titled  int // how many columns there are up to the last title
	report  *document.Report
	wrong   []fault // with the row that is being read
}

// fault is what is wrong with a cell of a row.
type fault struct {
	column int
	text   string
}

// ReadSheet reads a table whose first row holds some of the titles, in any order
// and case. Another title, or one that stands twice, is complained of. It calls
// read for each row below that has anything in it; what is complained of is told
// row by row, and in each column by column.
func ReadSheet(text []byte, report *document.Report, titles []string, read func(Record)) {
	s := &sheet{report: report}
	for row := range Read(text, report) {
		if s.columns == nil {
			s.readTitles(row, titles)
			continue
		}
		if s.holds(row) {
			read(Record{row, s})
			s.tell(row)
		}
	}
	if s.columns == nil {
		report.Add(Place(1, 1), "the first row must name the columns: %s", strings.Join(titles, ", "))
	}
}

// tell tells what is wrong with a row that was read.
func (s *sheet) tell(row Row) {
	slices.SortStableFunc(s.wrong, func(a, b fault) int { return cmp.Compare(a.column, b.column) })
	for _, w := range s.wrong {
		s.report.Add(Place(row.Line, w.column), "%s", w.text)
	}
	s.wrong = s.wrong[:0]
}

func (s *sheet) readTitles(row Row, titles []string) {
	s.columns = map[string]int{}
	for at, cell := range row.Cells {
		title := strings.ToLower(strings.TrimSpace(cell))
		if title != "" {
			s.titled = at + 1
		}
		switch {
		case title == "": // where a spreadsheet had notes, or nothing
		case !slices.Contains(titles, title):
			s.report.Add(Place(row.Line, at+1), "%q is no column of this table; known here: %s", cell, strings.Join(titles, ", "))
		case s.has(title):
			s.report.Add(Place(row.Line, at+1), "the column %s stands twice", title)
		default:
			s.columns[title] = at
		}
	}
}

func (s *sheet) has(title string) bool {
	_, there := s.columns[title]
	return there
}

// holds tells whether there is anything in a row, and complains of cells beyond
// the last title.
func (s *sheet) holds(row Row) bool {
	last := -1
	for at, cell := range row.Cells {
		if strings.TrimSpace(cell) != "" {
			last = at
		}
	}
	if s.titled > 0 && last >= s.titled {
		s.wrong = append(s.wrong, fault{last + 1, "there is no title above this cell"})
	}
	return last >= 0
}

// A Record is a row below the titles.
type Record struct {
	Row
	sheet *sheet
}

// Has tells whether the table has a column.
func (r Record) Has(title string) bool { return r.sheet.has(title) }

// Text is what stands below a title, without spaces around it; empty where
// nothing does, or where there is no such column.
func (r Record) Text(title string) string {
	at, there := r.sheet.columns[title]
	if !there || at >= len(r.Cells) {
		return ""
	}
	return bare(strings.TrimSpace(r.Cells[at]))
}

// Complain complains about the cell below a title; about the first of the row
// where there is no such column.
func (r Record) Complain(title, format string, args ...any) {
	r.sheet.wrong = append(r.sheet.wrong, fault{r.sheet.columns[title] + 1, fmt.Sprintf(format, args...)})
}

// Check complains about the cell below a title where the text that was read from
// it, or made for it, is outside a bound.
func (r Record) Check(title string, b document.Bound, text string) {
	if fault := b.Fault(text); fault != "" {
		r.Complain(title, "%s", fault)
	}
}
