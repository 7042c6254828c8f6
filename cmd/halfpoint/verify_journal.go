package main

import (
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
			return badPlace(cmd, arg, errors.New("it is not the id of a contest"))
		}
	}
	d, shut, err := from.open(cmd.Context())
	if err != nil {
		return err
	}
	defer shut()
	if len(contests) == 0 {
		if contests, err = allContests(cmd, d); err != nil {
			return err
		}
	}
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
