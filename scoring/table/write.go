package table

import (
	"bytes"
	"encoding/csv"
	"strings"
)

// formula begins a cell that a spreadsheet would compute: by OWASP's page "CSV
// Injection".
const formula = "=+-@\t\r"

// Write writes a table as CSV with a byte order mark, without which some
// spreadsheets do not take it for UTF-8. A cell that a spreadsheet would compute
// is written with an apostrophe before it, which reading takes off again.
func Write(rows [][]string) []byte {
	text := bytes.NewBufferString("\ufeff")
	w := csv.NewWriter(text)
	for _, row := range rows {
		cells := make([]string, len(row))
		for i, cell := range row {
			cells[i] = harmless(cell)
		}
		_ = w.Write(cells) // a buffer takes everything
	}
	w.Flush()
	return text.Bytes()
}

func harmless(cell string) string {
	if cell != "" && strings.ContainsRune(formula, rune(cell[0])) || bare(cell) != cell {
		return "'" + cell
	}
	return cell
}

// bare takes off what harmless puts before a cell.
func bare(cell string) string {
	rest, is := strings.CutPrefix(cell, "'")
	if is && rest != "" && strings.ContainsRune(formula+"'", rune(rest[0])) {
		return rest
	}
	return cell
}
