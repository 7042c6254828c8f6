package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"halfpoint/db"
)

const exportExample = `  halfpoint export 0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7 > contest.json

  # the results, recomputed
  halfpoint export 0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7 | halfpoint score -`

// newExportCommand prints a contest as a bundle.
func newExportCommand() *cobra.Command {
	var from databaseFlags
	cmd := &cobra.Command{
		Use:   "export CONTEST",
		Short: "Print a contest as one file",
		Long: `Prints the contest with this id as JSON: all that is needed to score it again, or
to import it elsewhere.`,
		Example: exportExample,
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return exportContest(cmd, &from, args[0])
		},
	}
	from.add(cmd)
	return cmd
}

func exportContest(cmd *cobra.Command, from *databaseFlags, id string) error {
	contest, err := readContest(cmd, id)
	if err != nil {
		return err
	}
	return withDatabase(cmd, from, func(ctx context.Context, d *db.DB) error { return printBundle(ctx, cmd, d, contest) })
}

func printBundle(ctx context.Context, cmd *cobra.Command, d *db.DB, contest uuid.UUID) error {
	bundle, err := d.Export(ctx, contest)
	if errors.Is(err, db.ErrNotFound) {
		return fmt.Errorf("there is no contest %s", contest)
	}
	if err != nil {
		return err
	}
	text, err := bundle.Encode()
	if err != nil {
		return err
	}
	if _, err := cmd.OutOrStdout().Write(text); err != nil {
		return fmt.Errorf("printing the bundle: %w", err)
	}
	return nil
}
