package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"halfpoint/db"
	"halfpoint/identity"
)

const accountExample = `  halfpoint account list

  # a link that makes somebody the director of a contest, and one for a pilot by the id in its bundle
  halfpoint account invite 0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7 director --at https://contest.example.org
  halfpoint account invite 0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7 pilot --pilot quist

  # a link to choose a new password, where telephone and password are lost
  halfpoint account reset mara@example.org --second-factor`

// How long links that are printed here are good.
const (
	invitationLasts = 14 * 24 * time.Hour
	resetLasts      = 24 * time.Hour
)

// newAccountCommand looks after accounts beside the service, for whoever has
// the machine.
func newAccountCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "account",
		Short: "List, invite, reset or disable accounts",
		Long: `Looks after the accounts of the service, for whoever has the machine: lists them,
invites people to a contest, lets somebody choose a new password, and keeps
somebody out. A link is printed here once, and kept as a hash only.`,
		Example: accountExample,
	}
	cmd.AddCommand(
		newAccountListCommand(), newAccountInviteCommand(), newAccountResetCommand(),
		newAccountDisableCommand("disable", "Keep an account out, and end its sessions", true),
		newAccountDisableCommand("enable", "Let an account in again", false),
	)
	return cmd
}

func newAccountListCommand() *cobra.Command {
	var from databaseFlags
	cmd := &cobra.Command{
		Use:     "list",
		Short:   "List all accounts",
		Long:    "Lists all accounts by their address: the name, whether it owns the server, has a second factor, is disabled.",
		Example: "  halfpoint account list",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return withDatabase(cmd, &from, func(ctx context.Context, d *db.DB) error { return listAccounts(ctx, cmd, d) })
		},
	}
	from.add(cmd)
	return cmd
}

func listAccounts(ctx context.Context, cmd *cobra.Command, d *db.DB) error {
	accounts, err := d.Accounts(ctx)
	if err != nil {
		return err
	}
	if len(accounts) == 0 {
		fmt.Fprintln(cmd.ErrOrStderr(), "There is no account yet; the service prints a link for the first one when it starts.")
	}
	for i := range accounts {
		fmt.Fprintln(cmd.OutOrStdout(), describe(&accounts[i]))
	}
	return nil
}

// describe is a line about an account.
func describe(a *db.Account) string {
	parts := []string{a.Email, a.Name}
	if a.Owner {
		parts = append(parts, "owner")
	}
	if a.SecondFactor {
		parts = append(parts, "second factor")
	}
	if a.DisabledAt != nil {
		parts = append(parts, "disabled since "+a.DisabledAt.Format(time.DateOnly))
	}
	return strings.Join(parts, "\t")
}

func newAccountResetCommand() *cobra.Command {
	var from databaseFlags
	var at string
	var secondFactor bool
	cmd := &cobra.Command{
		Use:   "reset EMAIL",
		Short: "Print a link to choose a new password",
		Long: `Prints a link by which somebody chooses a new password. It is good once and for a
day; the present password holds until then.`,
		Example: "  halfpoint account reset mara@example.org --at https://contest.example.org",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return withAccount(cmd, &from, args[0], func(ctx context.Context, d *db.DB, account uuid.UUID) error {
				if secondFactor {
					if err := d.RemoveCode(ctx, account); err != nil {
						return err
					}
				}
				return printReset(ctx, cmd, d, account, at)
			})
		},
	}
	from.add(cmd)
	addAt(cmd, &at)
	cmd.Flags().BoolVar(&secondFactor, "second-factor", false, "remove the second factor too")
	return cmd
}

func printReset(ctx context.Context, cmd *cobra.Command, d *db.DB, account uuid.UUID, at string) error {
	secret := identity.NewSecret()
	if err := d.MakeLink(ctx, identity.HashSecret(secret), db.LinkPassword, account, resetLasts); err != nil {
		return err
	}
	fmt.Fprintln(cmd.OutOrStdout(), link(at, "/password", secret))
	return nil
}

func newAccountDisableCommand(use, short string, disabled bool) *cobra.Command {
	var from databaseFlags
	cmd := &cobra.Command{
		Use:     use + " EMAIL",
		Short:   short,
		Long:    short + ". What the account did stays.",
		Example: "  halfpoint account " + use + " mara@example.org",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return withAccount(cmd, &from, args[0], func(ctx context.Context, d *db.DB, account uuid.UUID) error {
				return d.Disable(ctx, account, disabled)
			})
		},
	}
	from.add(cmd)
	return cmd
}

// withAccount runs f with the account of an address.
func withAccount(cmd *cobra.Command, from *databaseFlags, email string, f func(context.Context, *db.DB, uuid.UUID) error) error {
	return withDatabase(cmd, from, func(ctx context.Context, d *db.DB) error {
		found, err := d.CredentialsByEmail(ctx, email)
		if errors.Is(err, db.ErrNotFound) {
			return badInput(cmd, "no account has the address %s", email)
		}
		if err != nil {
			return err
		}
		return f(ctx, d, found.ID)
	})
}

// addAt gives a command that prints a link the flag that says to where.
func addAt(cmd *cobra.Command, at *string) {
	cmd.Flags().StringVar(at, "at", "http://"+settingListen.value, "where the service is reached, for the link")
}

// link is a page of the service with a secret that is not sent on the way to
// it: what stands behind a # stays in the browser.
func link(at, page, secret string) string { return strings.TrimSuffix(at, "/") + page + "#" + secret }
