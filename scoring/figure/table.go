package figure

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"halfpoint/scoring/document"
)

// A Table is the organiser's own list of catalogue numbers and their K. The
// nil table knows no number and checks none.
type Table map[string]K

// ReadTable reads a CSV text of two columns, number and K; a first row of
// titles may stand above them. The error is document.Complaints with row and
// column of all that is wrong.
func ReadTable(text []byte) (Table, error) {
	var report document.Report
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if at := firstInvalid(text); at < len(text) {
		report.Add(cell(position(text, at)), "not UTF-8 text")
		return nil, report.Err()
	}
	table := Table{}
	table.read(text, &report)
	if err := report.Err(); err != nil {
		return nil, err
	}
	return table, nil
}

// read reads row by row; where the text is no CSV any more, it ends.
func (t Table) read(text []byte, report *document.Report) {
	rows := csv.NewReader(bytes.NewReader(text))
	rows.FieldsPerRecord = -1
	rows.TrimLeadingSpace = true
	for first := true; ; first = false {
		row, err := rows.Read()
		if wrong, ok := errors.AsType[*csv.ParseError](err); ok {
			report.Add(cell(wrong.StartLine, columnOf(text, wrong.StartLine)), "%v", wrong.Err)
		}
		if err != nil {
			return
		}
		line, _ := rows.FieldPos(0)
		if !first || !isTitle(row) {
			t.add(row, line, report)
		}
	}
}

// cell names a place in a table, both counted from 1.
func cell(row, column int) string { return fmt.Sprintf("row %d, column %d", row, column) }

// firstInvalid is the place of the first byte that is not of UTF-8 text, or the
// text's length.
func firstInvalid(text []byte) int {
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && size == 1 {
			return at
		}
		at += size
	}
	return len(text)
}

// position is the row and the column of a byte.
func position(text []byte, at int) (row, column int) {
	row = 1 + bytes.Count(text[:at], []byte("\n"))
	start := 1 + bytes.LastIndexByte(text[:at], '\n')
	return row, 1 + bytes.Count(text[start:at], []byte(","))
}

// columnOf is the column in which a row is no CSV: that of its last quote.
func columnOf(text []byte, row int) int {
	lines := bytes.Split(text, []byte("\n"))
	line := lines[min(row, len(lines))-1]
	_, column := position(line, max(bytes.LastIndexByte(line, '"'), 0))
	return column
}

// isTitle tells a row of titles from one of numbers.
func isTitle(row []string) bool {
	return len(row) == 2 && strings.EqualFold(strings.TrimSpace(row[0]), "number")
}

func (t Table) add(row []string, line int, report *document.Report) {
	switch {
	case len(row) < 2:
		report.Add(cell(line, 2), "missing; two columns were expected: number and K")
		return
	case len(row) > 2:
		report.Add(cell(line, 3), "%d columns where two were expected: number and K", len(row))
		return
	}
	text := strings.TrimSpace(row[0])
	if _, ok := parseNumber(text); !ok {
		report.Add(cell(line, 1), "%q is not four numbers with dots between them", text)
		return
	}
	k, ok := parseK(strings.TrimSpace(row[1]))
	if !ok || k <= 0 {
		report.Add(cell(line, 2), "%q is not a positive number with at most one decimal", row[1])
		return
	}
	if _, there := t[text]; there {
		report.Add(cell(line, 1), "%s stands twice", text)
		return
	}
	t[text] = k
}

// sum adds the K of numbers up; missing lists those the table lacks.
func (t Table) sum(numbers []string) (total K, missing []string) {
	for _, n := range numbers {
		k, there := t[n]
		if !there {
			missing = append(missing, n)
		}
		total += k
	}
	return total, missing
}
