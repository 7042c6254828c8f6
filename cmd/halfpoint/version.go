package main

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"halfpoint/scoring/publication"
)

// newVersionCommand says which program this is.
func newVersionCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "version",
		Short:   "Print the program's version",
		Example: `  halfpoint version`,
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			_, err := fmt.Fprintf(cmd.OutOrStdout(), "%s, %s, %s/%s\n", programName(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return err
		},
	}
}

// programName is the program with its version, as publications name it.
func programName() string {
	name := "halfpoint devel"
	if info, ok := debug.ReadBuildInfo(); ok && strings.HasPrefix(info.Main.Version, "v") {
		name = "halfpoint " + info.Main.Version
	}
	if !publication.IsProgram(name) {
		return "halfpoint"
	}
	return name
}
