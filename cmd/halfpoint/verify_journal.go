package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"halfpoint/db"
)

// verifyJournals walks the journals of contests, of all where none is named.
func verifyJournals(cmd *cobra.Command, from *databaseFlags, args []string) error {
	contests := make([]uuid.UUID, len(args))
	for i, arg := range args {
		var err error
		if contests[i], err = uuid.Parse(arg); err != nil {
			return badInput(cmd, "%s: it is not the id of a contest", arg)
		}
	}
	return withDatabase(cmd, from, func(_ context.Context, d *db.DB) (err error) {
		if len(contests) == 0 {
			contests, err = allContests(cmd, d)
		}
		if err == nil {
			err = walkJournals(cmd, d, contests)
		}
		return err
	})
}

func walkJournals(cmd *cobra.Command, d *db.DB, contests []uuid.UUID) error {
	agrees := true
	for _, contest := range contests {
		one, err := verifyJournal(cmd, d, contest)
		if err != nil {
			return err
		}
		agrees = agrees && one
	}
	if !agrees {
		return statusDisagrees
	}
	return nil
}

func allContests(cmd *cobra.Command, d *db.DB) ([]uuid.UUID, error) {
	heads, err := d.Heads(cmd.Context())
	contests := make([]uuid.UUID, len(heads))
	for i, h := range heads {
		contests[i] = h.Contest
	}
	return contests, err
}

func verifyJournal(cmd *cobra.Command, d *db.DB, contest uuid.UUID) (agrees bool, err error) {
	audit, err := d.Audit(cmd.Context(), contest)
	if errors.Is(err, db.ErrNotFound) {
		return false, fmt.Errorf("there is no contest %s", contest)
	}
	if err != nil {
		return false, err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "Contest %s (%s)\n", contest, audit.Contest.Name)
	printFindings(cmd.OutOrStdout(), audit.Findings)
	agrees = true
	for _, f := range audit.Findings {
		agrees = agrees && f.Agrees
	}
	return agrees, nil
}
