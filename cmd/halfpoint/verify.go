package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"time"

	"github.com/spf13/cobra"

	"halfpoint/scoring/publication"
)

const verifyExample = `  halfpoint verify https://contest.example.org/publications/0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7

  # a downloaded archive, and whose key it must be signed with
  halfpoint verify publication.zip --key 06e3fd8fda29bb60ab59557de61edb0aecdb231134be30e75b455f8e1b792fa9

  # everything that the database keeps, and the folder beside it
  halfpoint verify --journal --data ./data`

// newVerifyCommand checks published results.
func newVerifyCommand() *cobra.Command {
	var from databaseFlags
	var key string
	var journal bool
	cmd := &cobra.Command{
		Use:   "verify FILE|FOLDER|URL",
		Short: "Check published results, or a whole journal",
		Long: `Checks a publication: its signature, that reason, bundle and results are those
that were signed, and that the results follow from the bundle. It is read from
its archive (a ZIP file, or - for standard input), from a folder with its files,
or from a service. Decimals and ranks must be the same, what is not rounded to
1e-9, probabilities to 0.001. It needs no database.

A key that comes with a publication proves nothing by itself: compare its
fingerprint with one from elsewhere, or give it by --key.

With --journal it walks the journals of all contests of a database, or of those
named, instead: every row, every record of the line, every publication, and
where the server was restored from a backup so that journals part.

Status 0: everything agrees. Status 3: something does not; it is named. Status 2:
what was given is no publication. Status 1: it could not be read.`,
		Example: verifyExample,
		Args: func(cmd *cobra.Command, args []string) error {
			if journal {
				return nil
			}
			return cobra.ExactArgs(1)(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if journal {
				return verifyJournals(cmd, &from, args)
			}
			return verifyPublication(cmd, args[0], key)
		},
	}
	from.add(cmd)
	cmd.Flags().StringVar(&key, "key", "", "fingerprint of the key that must have signed, or a file with it in PEM")
	cmd.Flags().BoolVar(&journal, "journal", false, "walk the journals of a database")
	return cmd
}

func verifyPublication(cmd *cobra.Command, place, key string) error {
	wanted, err := wantedKey(key)
	if err != nil {
		return badInput(cmd, "--key: %v", err)
	}
	p, err := findPublication(cmd.Context(), cmd.InOrStdin(), place)
	if bad, ok := errors.AsType[*noPublication](err); ok {
		return badInput(cmd, "%s: %v", place, bad.error)
	}
	if err != nil {
		return err
	}
	return printVerdict(cmd.OutOrStdout(), p, wanted)
}

// printVerdict prints what a publication states and what was found of it, and
// fails where not all agrees.
func printVerdict(out io.Writer, p *publication.Publication, wanted string) error {
	report := p.Check(wanted)
	if report.Statement != nil {
		printStatement(out, report.Statement, p.Reason)
	}
	printFindings(out, report.Findings)
	if !report.Agrees() {
		fmt.Fprintln(out, "\nThis publication does not agree.")
		return statusDisagrees
	}
	fmt.Fprintln(out, "\nEverything agrees.")
	if wanted == "" {
		fmt.Fprintln(out, "Compare the key's fingerprint with one from elsewhere.")
	}
	return nil
}

var fingerprintForm = regexp.MustCompile(`^[0-9a-f]{64}$`)

// wantedKey reads a fingerprint, or the file of a key.
func wantedKey(key string) (string, error) {
	if key == "" || fingerprintForm.MatchString(key) {
		return key, nil
	}
	text, err := os.ReadFile(key)
	if err != nil {
		return "", fmt.Errorf("%q is neither a fingerprint of 64 lower-case hexadecimal digits nor a file: %w", key, err)
	}
	public, err := publication.ReadKey(text)
	if err != nil {
		return "", fmt.Errorf("%s: %w", key, err)
	}
	return publication.Fingerprint(public), nil
}

func printStatement(w io.Writer, s *publication.Statement, reason string) {
	fmt.Fprintf(w, "Publication %d of contest %s\n", s.Number, s.Contest)
	fmt.Fprintf(w, "of %s, %s\n", s.Scope, s.State)
	fmt.Fprintf(w, "published on %s, computed by %s\n", s.Published.Format(time.RFC3339), s.Program)
	if !s.ProtestUntil.IsZero() {
		fmt.Fprintf(w, "to be protested until %s\n", s.ProtestUntil.Format(time.RFC3339))
	}
	for _, source := range s.Programmes {
		fmt.Fprintf(w, "over programme %s, by statement %s\n", source.Programme, source.Statement)
	}
	if reason != "" {
		fmt.Fprintf(w, "reason: %q\n", reason)
	}
	fmt.Fprintln(w)
}

func printFindings(w io.Writer, findings []publication.Finding) {
	for _, f := range findings {
		mark := "agrees    "
		if !f.Agrees {
			mark = "DISAGREES "
		}
		fmt.Fprintln(w, mark, f.Text)
	}
}
