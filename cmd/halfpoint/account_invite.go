package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"halfpoint/db"
	"halfpoint/identity"
)

func newAccountInviteCommand() *cobra.Command {
	var from databaseFlags
	var at, note string
	var who codes
	cmd := &cobra.Command{
		Use:   "invite CONTEST ROLE",
		Short: "Print a link that gives a role in a contest",
		Long: `Prints a link that gives its reader a role in the contest with this id: director,
office, jury, pilot or judge. It is good once and for two weeks.`,
		Example: `  halfpoint account invite 0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7 office --note "for the hut"`,
		Args:    cobra.ExactArgs(2),
		RunE: func(cmd *cobra.Command, args []string) error {
			contest, err := readContest(cmd, args[0])
			if err != nil {
				return err
			}
			return withDatabase(cmd, &from, func(ctx context.Context, d *db.DB) error {
				n := db.NewInvitation{Role: args[1], Note: note, Lasts: invitationLasts}
				return printInvitation(ctx, cmd, d, contest, n, who, at)
			})
		},
	}
	from.add(cmd)
	addAt(cmd, &at)
	cmd.Flags().StringVar(&who.pilot, "pilot", "", "for the role of a pilot: the pilot's id in the bundle")
	cmd.Flags().StringVar(&who.judge, "judge", "", "for the role of a judge: the judge's id in the bundle")
	cmd.Flags().StringVar(&note, "note", "", "whom it is for; the director sees it")
	return cmd
}

// codes are the ids in the bundle of whose role it is; empty for none.
type codes struct{ pilot, judge string }

func printInvitation(ctx context.Context, cmd *cobra.Command, d *db.DB, contest uuid.UUID, n db.NewInvitation, who codes, at string) error {
	secret := identity.NewSecret()
	n.Hash = identity.HashSecret(secret)
	err := who.find(ctx, d, contest, &n)
	if err == nil {
		_, err = d.Invite(ctx, contest, n)
	}
	switch {
	case errors.Is(err, db.ErrNotFound):
		return badInput(cmd, "there is no contest %s", contest)
	case errors.Is(err, db.ErrPilot):
		return badInput(cmd, "the role of a pilot needs --pilot with one of the contest, and no other role has one")
	case errors.Is(err, db.ErrJudge):
		return badInput(cmd, "the role of a judge needs --judge with one of the contest, and no other role has one")
	case errors.Is(err, db.ErrInvalid):
		return badInput(cmd, "%q is no role of an account: director, office, jury, pilot or judge was expected", n.Role)
	case err != nil:
		return err
	}
	fmt.Fprintln(cmd.OutOrStdout(), link(at, "/invitation", secret))
	return nil
}

// find puts whose role it is into an invitation.
func (c codes) find(ctx context.Context, d *db.DB, contest uuid.UUID, n *db.NewInvitation) error {
	if c == (codes{}) {
		return nil
	}
	setup, err := d.Setup(ctx, contest)
	if err != nil {
		return err
	}
	for _, p := range setup.Pilots {
		if p.Code == c.pilot {
			n.Pilot = p.ID
		}
	}
	for _, j := range setup.Officials {
		if j.Code == c.judge {
			n.Judge = j.ID
		}
	}
	switch {
	case c.pilot != "" && n.Pilot == uuid.Nil:
		return db.ErrPilot
	case c.judge != "" && n.Judge == uuid.Nil:
		return db.ErrJudge
	}
	return nil
}
