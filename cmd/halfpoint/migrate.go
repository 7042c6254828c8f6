package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"halfpoint/db"
)

const migrateExample = `  halfpoint migrate --database postgres://halfpoint@db.example.org/halfpoint

  # version 3 was cut short, and nothing of it is there
  halfpoint migrate --repair 2 && halfpoint migrate

  # an earlier program is to serve again, which knows version 12
  halfpoint backup before.backup && halfpoint migrate --back-to 12`

const noVersion = -1 // where none is named

// newMigrateCommand brings the database's schema up to date.
func newMigrateCommand() *cobra.Command {
	var from databaseFlags
	var repair, back int
	cmd := &cobra.Command{
		Use:   "migrate",
		Short: "Bring the database up to date",
		Long: `Brings the schema of the database up to what this program needs, and prints its
version. Other commands do the same when they start.

Each step is one transaction. Where one was cut short, the database says so and
nothing works with it. The step usually did nothing: then --repair with the
version before it says that the database is at that version, and another migrate
goes on from there. A database that is newer than the program is refused.

With --back-to the steps after a version are undone, so that the program before
can serve again: what they added is lost, all else stays. Only the newer program
can do that. Write a backup before.`,
		Example: migrateExample,
		Args:    cobra.NoArgs,
		RunE:    func(cmd *cobra.Command, _ []string) error { return migrateSchema(cmd, &from, repair, back) },
	}
	from.add(cmd)
	cmd.Flags().IntVar(&repair, "repair", noVersion, "say that the database is at this version, 0 for an empty one, and do nothing else")
	cmd.Flags().IntVar(&back, "back-to", noVersion, "undo the steps after this version")
	cmd.MarkFlagsMutuallyExclusive("repair", "back-to")
	for _, name := range []string{"repair", "back-to"} {
		cmd.Flags().Lookup(name).DefValue = "0" // of which the help says nothing
	}
	return cmd
}

func migrateSchema(cmd *cobra.Command, from *databaseFlags, repair, back int) error {
	url, stop, err := from.locate(cmd.Context())
	if err != nil {
		return err
	}
	defer stop()
	switch {
	case repair != noVersion:
		err = db.Repair(cmd.Context(), url, repair)
	case back != noVersion:
		err = db.Rollback(cmd.Context(), url, back)
	default:
		err = db.Migrate(cmd.Context(), url)
	}
	if err != nil {
		return err
	}
	schema, err := db.ReadSchema(cmd.Context(), url)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "The database is at version %d of %d.\n", schema.Version, schema.Latest)
	return err
}
