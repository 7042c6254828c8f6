package study

import (
	"fmt"
	"io"
	"strings"
)

// A Row is one scenario with the outcome of each of Methods.
type Row struct {
	Scenario string
	Outcomes []Outcome
}

// RunAll runs every scenario.
func RunAll(contests int) (rows []Row) {
	for _, s := range Scenarios() {
		rows = append(rows, Row{s.Name, Run(s, contests)})
	}
	return rows
}

// Print writes the outcomes as Markdown, a table for each measure.
func Print(w io.Writer, rows []Row) error {
	for _, t := range []struct {
		title, format string
		of            func(Outcome) float64
		relative      bool
	}{
		{"Mean rank error (places), in brackets as a share of the mean's", "%.3f", func(o Outcome) float64 { return o.RankError }, true},
		{"Kendall's τ to the truth", "%.3f", func(o Outcome) float64 { return o.Tau }, false},
		{"Coverage of the 90 % rank intervals", "%.3f", func(o Outcome) float64 { return o.Coverage }, false},
	} {
		var text strings.Builder
		fmt.Fprintf(&text, "\n%s:\n\n| scenario | %s |\n|%s\n", t.title, strings.Join(Methods(), " | "), strings.Repeat(" --- |", 1+len(Methods())))
		for _, row := range rows {
			fmt.Fprintf(&text, "| %s |", row.Scenario)
			for _, o := range row.Outcomes {
				fmt.Fprintf(&text, " "+t.format, t.of(o))
				if t.relative {
					fmt.Fprintf(&text, " (%.2f)", t.of(o)/t.of(row.Outcomes[0]))
				}
				text.WriteString(" |")
			}
			text.WriteString("\n")
		}
		if _, err := io.WriteString(w, text.String()); err != nil {
			return fmt.Errorf("printing the study: %w", err)
		}
	}
	return nil
}
