package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"halfpoint/scoring"
)

// newScoreCommand computes the results of a contest's bundle.
func newScoreCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "score BUNDLE",
		Short: "Score a contest from its bundle",
		Long: `Reads a contest's bundle as JSON from a file, or from standard input for -, and
prints its results as JSON. No database is needed.

A bundle with anything wrong in it is refused: nothing is printed, every problem
with its place stands on standard error, and the status is 2.`,
		Example: `  halfpoint score contest.json > results.json
  halfpoint score - < contest.json`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error { return scoreBundle(cmd, args[0]) },
	}
}

func scoreBundle(cmd *cobra.Command, path string) error {
	from, err := openInput(cmd.InOrStdin(), path)
	if err != nil {
		return err
	}
	defer from.Close()
	bundle, err := scoring.ReadBundle(from)
	if err != nil {
		return refuse(cmd, path, err)
	}
	encoder := json.NewEncoder(cmd.OutOrStdout())
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(scoring.Score(bundle)); err != nil {
		return fmt.Errorf("printing the results: %w", err)
	}
	return nil
}

// openInput opens a file, or standard input for -.
func openInput(stdin io.Reader, path string) (io.ReadCloser, error) {
	if path == "-" {
		return io.NopCloser(stdin), nil
	}
	return os.Open(path)
}
