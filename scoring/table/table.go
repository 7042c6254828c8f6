// Package table reads and writes tables as CSV (RFC 4180) as the spreadsheets
// of any country make them. Every complaint names the row and the column, both
// counted from 1, as a spreadsheet shows them.
package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"unicode/utf8"

	"halfpoint/scoring/document"
)

// A Row is a line of a table that has anything in it.
type Row struct {
	Line  int // where it stands in the text
	Cells []string
}

// Place names a cell, for complaints.
func Place(row, column int) string { return fmt.Sprintf("row %d, column %d", row, column) }

// Read reads UTF-8 text, a byte order mark before it or not, with commas,
// semicolons or tabs between the cells. A row that is no CSV is complained of
// where it stands, and left out: what is complained of while rows are gone
// through is in the order of the rows.
func Read(text []byte, report *document.Report) iter.Seq[Row] {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	separator := separatorOf(text)
	return func(yield func(Row) bool) {
		if at := firstInvalid(text); at < len(text) {
			report.Add(Place(position(text, at, separator)), "not UTF-8 text")
			return
		}
		reader := csv.NewReader(bytes.NewReader(text))
		reader.Comma, reader.FieldsPerRecord, reader.TrimLeadingSpace = separator, -1, separator != '\t'
		for {
			cells, err := reader.Read()
			if errors.Is(err, io.EOF) {
				return
			}
			if wrong, ok := errors.AsType[*csv.ParseError](err); ok {
				report.Add(Place(wrong.StartLine, quoteColumn(text, wrong.StartLine, separator)), "%v", wrong.Err)
				continue
			}
			if line, _ := reader.FieldPos(0); !yield(Row{line, cells}) {
				return
			}
		}
	}
}

// separatorOf is what most often stands between the cells of the first line: a
// semicolon where a comma is as frequent, since that is then a decimal one.
func separatorOf(text []byte) rune {
	first, _, _ := bytes.Cut(text, []byte("\n"))
	most, separator := 0, ','
	for _, one := range ";,\t" {
		if n := bytes.Count(first, []byte(string(one))); n > most {
			most, separator = n, one
		}
	}
	return separator
}

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
func position(text []byte, at int, separator rune) (row, column int) {
	row = 1 + bytes.Count(text[:at], []byte("\n"))
	start := 1 + bytes.LastIndexByte(text[:at], '\n')
	return row, 1 + bytes.Count(text[start:at], []byte(string(separator)))
}

// quoteColumn is the column in which a row is no CSV: that of its last quote.
func quoteColumn(text []byte, row int, separator rune) int {
	lines := bytes.Split(text, []byte("\n"))
	line := lines[min(row, len(lines))-1]
	_, column := position(line, max(bytes.LastIndexByte(line, '"'), 0), separator)
	return column
}
