package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"halfpoint/scoring"
)

const scoreExample = `  halfpoint score contest.json > results.json

  # the three best of the first category
  halfpoint score contest.json | jq '.categories[0].overall | map(select(.rank != null and .rank <= 3))'`

// newScoreCommand scores a contest that is all in one file.
func newScoreCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "score BUNDLE.json",
		Short: "Score a contest from one file and print the results",
		Long: `Reads a contest as JSON from BUNDLE.json, or from standard input for -, and
prints its results as JSON. It needs no database, and the same bundle always
gives the same results.

A bundle with anything wrong in it is refused with status 2: nothing is printed,
and every problem with its place stands on standard error.`,
		Example: scoreExample,
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return score(cmd, args[0])
		},
	}
}

func score(cmd *cobra.Command, path string) error {
	bundle, err := readBundle(cmd.InOrStdin(), path)
	if err != nil {
		return refuse(cmd, path, err)
	}
	if _, err := cmd.OutOrStdout().Write(scoring.Score(bundle).Encode()); err != nil {
		return fmt.Errorf("printing the results: %w", err)
	}
	return nil
}

// readBundle reads a bundle from a file, or from standard input for -.
func readBundle(stdin io.Reader, path string) (*scoring.Bundle, error) {
	from, err := openInput(stdin, path)
	if err != nil {
		return nil, err
	}
	defer from.Close()
	return scoring.ReadBundle(from)
}
