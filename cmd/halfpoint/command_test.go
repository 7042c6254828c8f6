package main

import (
	"bytes"
	"io"
	"testing"

	"github.com/spf13/cobra"
)

// runCommand runs a command on what is at standard input.
func runCommand(t *testing.T, cmd *cobra.Command, stdin io.Reader, args ...string) (stdout, stderr string, err error) {
	t.Helper()
	var out, errs bytes.Buffer
	cmd.SilenceErrors, cmd.SilenceUsage = true, true
	cmd.SetIn(stdin)
	cmd.SetOut(&out)
	cmd.SetErr(&errs)
	cmd.SetArgs(args)
	cmd.SetContext(t.Context())
	err = cmd.Execute()
	return out.String(), errs.String(), err
}
