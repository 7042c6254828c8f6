package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"
)

// exitStatus is the error of a command that has already said all there is to
// say: run returns it as the process's status and prints nothing more.
type exitStatus int

func (s exitStatus) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

// Exit statuses of every command.
const (
	statusFailed   exitStatus = 1 // it could not be done
	statusBadInput exitStatus = 2 // what was given is wrong; each problem is named

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
