package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"halfpoint/migrations"
)

// runDatabase runs a command on a text at standard input.
func runDatabase(t *testing.T, cmd *cobra.Command, stdin string, args ...string) (stdout, stderr string, err error) {
	t.Helper()
	var out, errs bytes.Buffer
	cmd.SilenceErrors, cmd.SilenceUsage = true, true
	cmd.SetIn(strings.NewReader(stdin))
	cmd.SetOut(&out)
	cmd.SetErr(&errs)
	cmd.SetArgs(args)
	cmd.SetContext(t.Context())
	err = cmd.Execute()
	return out.String(), errs.String(), err
}

// TestImportAndExport takes a contest through a private Postgres that each
// command starts and stops.
func TestImportAndExport(t *testing.T) {
	dir := t.TempDir()
	if err := os.Chmod(filepath.Dir(dir), 0o711); err != nil { // whoever Postgres runs as must pass
		t.Fatal(err)
	}
	data := "--data=" + filepath.Join(dir, "data")
	text, err := os.ReadFile("../../testdata/cases/108.bundle.json")
	if err != nil {
		t.Fatal(err)
	}
	id, stderr, err := runDatabase(t, newImportCommand(), string(text), data, "-")
	if err != nil || stderr != "" {
		t.Fatalf("import: %v, %s", err, stderr)
	}
	exported, stderr, err := runDatabase(t, newExportCommand(), "", data, strings.TrimSpace(id))
	if err != nil || stderr != "" {
		t.Fatalf("export: %v, %s", err, stderr)
	}
	if again, _, err := runDatabase(t, newExportCommand(), "", data, strings.TrimSpace(id)); err != nil || again != exported {
		t.Errorf("a second export differs: %v", err)
	}
	want, _, err := runDatabase(t, newScoreCommand(), string(text), "-")
	if err != nil {
		t.Fatal(err)
	}
	if got, _, err := runDatabase(t, newScoreCommand(), exported, "-"); err != nil || got != want {
		t.Errorf("the exported contest has other results: %v", err)
	}
	if said, _, err := runDatabase(t, newMigrateCommand(), "", data); err != nil || !strings.HasPrefix(said, "The database is at version ") {
		t.Errorf("migrate: %v, %q", err, said)
	}
	back := fmt.Sprintf("--back-to=%d", migrations.Latest-1)
	if said, _, err := runDatabase(t, newMigrateCommand(), "", data, back); err != nil || said != fmt.Sprintf("The database is at version %d of %d.\n", migrations.Latest-1, migrations.Latest) {
		t.Errorf("migrate %s: %v, %q", back, err, said)
	}
	if after, _, err := runDatabase(t, newExportCommand(), "", data, strings.TrimSpace(id)); err != nil || after != exported {
		t.Errorf("one step back and forward again, the contest is another: %v", err)
	}
	if _, _, err := runDatabase(t, newMigrateCommand(), "", data, "--back-to=9999"); err == nil || !strings.Contains(err.Error(), "no way back to version 9999") {
		t.Errorf("migrate --back-to=9999: %v", err)
	}
	if _, _, err := runDatabase(t, newExportCommand(), "", data, "0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7"); err == nil || !strings.Contains(err.Error(), "no contest") {
		t.Errorf("export of no contest: %v", err)
	}
}

// What is wrong with what is given is found before any database is touched.
func TestDatabaseCommandsRefuse(t *testing.T) {
	nowhere := "--database=postgres:///nowhere?host=/nowhere"
	for name, c := range map[string]struct {
		cmd   *cobra.Command
		stdin string
		args  []string
		says  string
	}{
		"a bad bundle": {newImportCommand(), `{"format": "halfpoint-bundle/1", "judges": [{}]}`, []string{"-"}, "-: judges[0].id: "},
		"a bad word":   {newImportCommand(), "", []string{"--opened=ajar", "-"}, `"ajar"`},
		"a bad id":     {newExportCommand(), "", []string{"first"}, `"first" is not the id`},
	} {
		t.Run(name, func(t *testing.T) {
			stdout, stderr, err := runDatabase(t, c.cmd, c.stdin, append(c.args, nowhere)...)
			if !errors.Is(err, statusBadInput) || stdout != "" || !strings.Contains(stderr, c.says) {
				t.Errorf("%v, printed %q and %q", err, stdout, stderr)
			}
		})
	}
	_, _, err := runDatabase(t, newMigrateCommand(), "", nowhere)
	if err == nil || !strings.Contains(err.Error(), "not available") {
		t.Errorf("a database that is not there: %v", err)
	}
}
