package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"halfpoint/scoring/figure"
)

// What is read at most: as much as the service takes of each (api/limit.go).
const (
	maxSequenceBytes = 1 << 20
	maxTableBytes    = 2 << 20
)

const sequenceExample = `  # a half Cuban eight with a half roll on the line down
  echo '{"items": [{"kind": "figure", "k": 14, "moves": [
    {"arc": 225}, {"line": [{"kind": "roll", "turns": 0.5}]}, {"arc": 45}]}]}' | halfpoint sequence -

  # K filled in and checked from the organiser's own table
  halfpoint sequence --numbers numbers.csv free.json`

// newSequenceCommand checks a sequence of figures and puts it into words.
func newSequenceCommand() *cobra.Command {
	var tablePath string
	cmd := &cobra.Command{
		Use:   "sequence FILE",
		Short: "Follow, check and call a sequence of figures",
		Long: `Reads a sequence as JSON from FILE, or from standard input for -, and prints as
JSON what each figure is called, how it begins and ends, what is wrong with it,
and which limits the sequence does not keep.

The status is 0 when at most remarks stand and 2 when errors do. A document that
cannot be read is refused: nothing is printed, and every problem with its place
stands on standard error.

It says nothing about whether a sequence can be flown safely: the contest's
rules, the flight manual, the officials and the authorities decide.`,
		Example: sequenceExample,
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return checkSequence(cmd, args[0], tablePath)
		},
	}
	cmd.Flags().StringVar(&tablePath, "numbers", "", "the organiser's table of catalogue numbers and their K, a CSV of two columns")
	return cmd
}

func checkSequence(cmd *cobra.Command, path, tablePath string) error {
	text, err := readAtMost(cmd.InOrStdin(), path, maxSequenceBytes)
	if err != nil {
		return err
	}
	table, err := readTable(cmd.InOrStdin(), tablePath)
	if err != nil {
		return refuse(cmd, tablePath, err)
	}
	sequence, err := figure.ReadSequence(text, table)
	if err != nil {
		return refuse(cmd, path, err)
	}
	checked := figure.Check(sequence, table)
	encoder := json.NewEncoder(cmd.OutOrStdout())
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(checked); err != nil {
		return fmt.Errorf("printing the sequence: %w", err)
	}
	if !checked.Clean() {
		return statusBadInput
	}
	return nil
}

func readTable(stdin io.Reader, path string) (figure.Table, error) {
	if path == "" {
		return nil, nil
	}
	text, err := readAtMost(stdin, path, maxTableBytes)
	if err != nil {
		return nil, err
	}
	return figure.ReadTable(text)
}

// openInput opens a file, or standard input for -.
func openInput(stdin io.Reader, path string) (io.ReadCloser, error) {
	if path == "-" {
		return io.NopCloser(stdin), nil
	}
	return os.Open(path)
}

// readAtMost reads a file, or standard input for -, of a bounded size.
func readAtMost(stdin io.Reader, path string, most int64) ([]byte, error) {
	from, err := openInput(stdin, path)
	if err != nil {
		return nil, err
	}
	defer from.Close()
	text, err := io.ReadAll(io.LimitReader(from, most+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", path, err)
	}
	if int64(len(text)) > most {
		return nil, fmt.Errorf("%s is larger than %d bytes", path, most)
	}
	return text, nil
}
