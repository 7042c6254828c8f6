package figure

import (
	"strings"

	"halfpoint/scoring/document"
	"halfpoint/scoring/table"
)

// A Table is the organiser's own list of catalogue numbers and their K. The
// nil table knows no number and checks none.
type Table map[string]K

// ReadTable reads a CSV text of two columns, number and K; a first row of
// titles may stand above them. The error is document.Complaints with row and
// column of all that is wrong.
func ReadTable(text []byte) (Table, error) {
	var report document.Report
	found := Table{}
	first := true
	for row := range table.Read(text, &report) {
		if !first || !isTitle(row.Cells) {
			found.add(row.Cells, row.Line, &report)
		}
		first = false
	}
	if err := report.Err(); err != nil {
		return nil, err
	}
	return found, nil
}

// isTitle tells a row of titles from one of numbers.
func isTitle(row []string) bool {
	return len(row) == 2 && strings.EqualFold(strings.TrimSpace(row[0]), "number")
}

func (t Table) add(row []string, line int, report *document.Report) {
	switch {
	case len(row) < 2:
		report.Add(table.Place(line, 2), "missing; two columns were expected: number and K")
		return
	case len(row) > 2:
		report.Add(table.Place(line, 3), "%d columns where two were expected: number and K", len(row))
		return
	}
	text := strings.TrimSpace(row[0])
	if _, ok := parseNumber(text); !ok {
		report.Add(table.Place(line, 1), "%q is not four numbers with dots between them", text)
		return
	}
	k, ok := parseK(strings.TrimSpace(row[1]))
	if !ok || k <= 0 {
		report.Add(table.Place(line, 2), "%q is not a positive number with at most one decimal", row[1])
		return
	}
	if _, there := t[text]; there {
		report.Add(table.Place(line, 1), "%s stands twice", text)
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
