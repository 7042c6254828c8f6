package main

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"halfpoint/db"
)

const importExample = `  contest=$(halfpoint import contest.json)

  # one that anyone may watch
  halfpoint import --opened live contest.json`

// newImportCommand makes a contest of a bundle.
func newImportCommand() *cobra.Command {
	var into databaseFlags
	var opened string
	cmd := &cobra.Command{
		Use:   "import BUNDLE.json",
		Short: "Make a contest from one file",
		Long: `Reads a contest as JSON from BUNDLE.json, or from standard input for -, stores it
in the database and prints its id.

A bundle with anything wrong in it is refused with status 2: nothing is stored,
and every problem with its place stands on standard error.`,
		Example: importExample,
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return importContest(cmd, &into, args[0], opened)
		},
	}
	into.add(cmd)
	cmd.Flags().StringVar(&opened, "opened", db.Closed, "who may see it: closed (officials), published (anyone its publications), live (anyone its results as they come)")
	return cmd
}

func importContest(cmd *cobra.Command, into *databaseFlags, path, opened string) error {
	if !slices.Contains([]string{db.Closed, db.Published, db.Live}, opened) {
		return badInput(cmd, "--opened: %q is not closed, published or live", opened)
	}
	bundle, err := readBundle(cmd.InOrStdin(), path)
	if err != nil {
		return refuse(cmd, path, err)
	}
	return withDatabase(cmd, into, func(ctx context.Context, d *db.DB) error {
		contest, err := d.Import(ctx, bundle, db.ImportOptions{Opened: opened})
		if err != nil {
			return refuse(cmd, path, err)
		}
		_, err = fmt.Fprintln(cmd.OutOrStdout(), contest)
		return err
	})
}
