package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os/signal"
	"syscall"

	"halfpoint/scoring/document"

	"github.com/google/uuid"
	"github.com/spf13/cobra"
)

// exitStatus is the error of a command that has already said all there is to
// say: run returns it as the process's status and prints nothing more.
type exitStatus int

func (s exitStatus) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

// Exit statuses of every command.
const (
	statusFailed   exitStatus = 1 // it could not be done
	statusBadInput exitStatus = 2 // what was given is wrong, or errors stand in it; each is named

	statusDisagrees exitStatus = 3 // what was verified does not agree; it is named
)

// run is the whole program: it returns the status to exit with. SIGINT and
// SIGTERM cancel the context that every command works under.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(ctx, syscall.SIGINT, syscall.SIGTERM)
	defer stop()

	root := newRootCommand()
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(stdout)
	root.SetErr(stderr)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return 0
	}
	if status, ok := errors.AsType[exitStatus](err); ok {
		return int(status)
	}
	fmt.Fprintln(stderr, "halfpoint:", err)
	return int(statusFailed)
}

func newRootCommand() *cobra.Command {
	root := &cobra.Command{
		Use:           "halfpoint",
		Short:         "Judging and scoring for aerobatic contests",
		Long:          "Halfpoint carries a grade from the judge's eye to the published standing.",
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.AddCommand(
		newServeCommand(), newDemoCommand(), newMigrateCommand(), newImportCommand(), newExportCommand(), newAccountCommand(),
		newVerifyCommand(), newBackupCommand(), newRestoreCommand(), newVersionCommand(),
		newScoreCommand(), newJudgesCommand(), newSequenceCommand(),
	)
	return root
}

// badInput says what is wrong with what was given.
func badInput(cmd *cobra.Command, format string, values ...any) error {
	fmt.Fprintf(cmd.ErrOrStderr(), format+"\n", values...)
	return statusBadInput
}

// refuse writes every complaint about a file on a line of its own; another error
// it passes on.
func refuse(cmd *cobra.Command, path string, err error) error {
	complaints, ok := errors.AsType[document.Complaints](err)
	if !ok {
		return err
	}
	for _, c := range complaints {
		fmt.Fprintf(cmd.ErrOrStderr(), "%s: %s\n", path, c)
	}
	return statusBadInput
}

// readContest reads the id of a contest.
func readContest(cmd *cobra.Command, text string) (uuid.UUID, error) {
	contest, err := uuid.Parse(text)
	if err != nil {
		return uuid.Nil, badInput(cmd, "%q is not the id of a contest: it is like 0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7", text)
	}
	return contest, nil
}
