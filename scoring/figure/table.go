package figure

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"halfpoint/scoring/document"
)

// A Table is the organiser's own list of catalogue numbers and their K. The
// nil table knows no number and checks none.
type Table map[string]K

// ReadTable reads a CSV text of two columns, number and K; a first row of
// titles may stand above them. The error is document.Complaints with row and
// column of all that is wrong.
func ReadTable(r io.Reader) (Table, error) {
	rows := csv.NewReader(r)
	rows.FieldsPerRecord = -1
	rows.TrimLeadingSpace = true
	table := Table{}
	var report document.Report
	for first := true; ; first = false {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			report.Add("", "%v", err)
			break
		}
		line, _ := rows.FieldPos(0)
		if first {
			row[0] = strings.TrimPrefix(row[0], "\ufeff")
		}
		if !first || !isTitle(row) {
			table.add(row, line, &report)
		}
	}
	if err := report.Err(); err != nil {
		return nil, err
	}
	return table, nil
}

// isTitle tells a row of titles from one of numbers.
func isTitle(row []string) bool {
	return len(row) == 2 && strings.EqualFold(strings.TrimSpace(row[0]), "number")
}

func (t Table) add(row []string, line int, report *document.Report) {
	if len(row) != 2 {
		report.Add(fmt.Sprintf("row %d", line), "%d columns where two were expected: number and K", len(row))
		return
	}
	text := strings.TrimSpace(row[0])
	if _, ok := parseNumber(text); !ok {
		report.Add(fmt.Sprintf("row %d, column 1", line), "%q is not four numbers with dots between them", text)
		return
	}
	k, ok := parseK(strings.TrimSpace(row[1]))
	if !ok || k <= 0 {
		report.Add(fmt.Sprintf("row %d, column 2", line), "%q is not a positive number with at most one decimal", row[1])
		return
	}
	if _, there := t[text]; there {
		report.Add(fmt.Sprintf("row %d, column 1", line), "%s stands twice", text)
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
