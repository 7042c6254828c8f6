// Command halfpoint is the judging and scoring server for aerobatic contests
// and the tools around it; halfpoint --help lists them.
package main

import (
	"context"
	"os"
)

func main() {
	os.Exit(run(context.Background(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
