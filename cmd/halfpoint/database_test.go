package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"halfpoint/db/dbtest"
	"halfpoint/migrations"
)

// TestImportAndExport takes a contest through a private Postgres that each
// command starts and stops.
func TestImportAndExport(t *testing.T) {
	data := "--data=" + filepath.Join(dbtest.Folder(t), "data")
	text, err := os.ReadFile("../../testdata/cases/108.bundle.json")
	if err != nil {
		t.Fatal(err)
	}
	id, stderr, err := runCommand(t, newImportCommand(), strings.NewReader(string(text)), data, "-")
	if err != nil || stderr != "" {
		t.Fatalf("import: %v, %s", err, stderr)
	}
	exported, stderr, err := runCommand(t, newExportCommand(), nil, data, strings.TrimSpace(id))
	if err != nil || stderr != "" {
		t.Fatalf("export: %v, %s", err, stderr)
	}
	if again, _, err := runCommand(t, newExportCommand(), nil, data, strings.TrimSpace(id)); err != nil || again != exported {
		t.Errorf("a second export differs: %v", err)
	}
	want, _, err := runCommand(t, newScoreCommand(), strings.NewReader(string(text)), "-")
	if err != nil {
		t.Fatal(err)
	}
	if got, _, err := runCommand(t, newScoreCommand(), strings.NewReader(exported), "-"); err != nil || got != want {
		t.Errorf("the exported contest has other results: %v", err)
	}
	if said, _, err := runCommand(t, newMigrateCommand(), nil, data); err != nil || !strings.HasPrefix(said, "The database is at version ") {
		t.Errorf("migrate: %v, %q", err, said)
	}
	back := fmt.Sprintf("--back-to=%d", migrations.Latest-1)
	if said, _, err := runCommand(t, newMigrateCommand(), nil, data, back); err != nil || said != fmt.Sprintf("The database is at version %d of %d.\n", migrations.Latest-1, migrations.Latest) {
		t.Errorf("migrate %s: %v, %q", back, err, said)
	}
	if after, _, err := runCommand(t, newExportCommand(), nil, data, strings.TrimSpace(id)); err != nil || after != exported {
		t.Errorf("one step back and forward again, the contest is another: %v", err)
	}
	if _, _, err := runCommand(t, newMigrateCommand(), nil, data, "--back-to=9999"); err == nil || !strings.Contains(err.Error(), "no way back to version 9999") {
		t.Errorf("migrate --back-to=9999: %v", err)
	}
	if _, _, err := runCommand(t, newExportCommand(), nil, data, "0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7"); err == nil || !strings.Contains(err.Error(), "no contest") {
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
			stdout, stderr, err := runCommand(t, c.cmd, strings.NewReader(c.stdin), append(c.args, nowhere)...)
			if !errors.Is(err, statusBadInput) || stdout != "" || !strings.Contains(stderr, c.says) {
				t.Errorf("%v, printed %q and %q", err, stdout, stderr)
			}
		})
	}
	_, _, err := runCommand(t, newMigrateCommand(), nil, nowhere)
	if err == nil || !strings.Contains(err.Error(), "not available") {
		t.Errorf("a database that is not there: %v", err)
	}
}
