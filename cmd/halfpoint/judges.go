package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"halfpoint/scoring/panel"
)

const judgesExample = `  halfpoint judges contest.json | jq .

  # each judge's distance from the panel's order, the farthest first
  halfpoint judges contest.json | jq '.categories[].programmes[] |
    {id, judges: (.judges | sort_by(-.order_disagreement) | map({judge, order_disagreement}))}'`

// newJudgesCommand tells how good the panels of a contest are.
func newJudgesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "judges BUNDLE.json",
		Short: "Tell how good each panel of a contest is",
		Long: `Reads a contest as JSON from BUNDLE.json, or from standard input for -, and
prints as JSON, for each programme, how each judge compares with the others, how
far the panel agrees with itself, and what becomes of the result with each seat
left out. Numbers that cannot be computed are null.

A bundle with anything wrong in it is refused with status 2: nothing is printed,
and every problem with its place stands on standard error.`,
		Example: judgesExample,
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return judges(cmd, args[0])
		},
	}
}

func judges(cmd *cobra.Command, path string) error {
	bundle, err := readBundle(cmd.InOrStdin(), path)
	if err != nil {
		return refuse(cmd, path, err)
	}
	report, err := panel.Analyse(bundle).Encode()
	if err != nil {
		return err
	}
	if _, err := cmd.OutOrStdout().Write(report); err != nil {
		return fmt.Errorf("printing the report: %w", err)
	}
	return nil
}
