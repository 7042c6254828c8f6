package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"halfpoint/db"
	"halfpoint/db/backup"
	"halfpoint/db/dbtest"
	"halfpoint/scoring/publication"
)

// A place is a data folder and a database.
type place struct{ data, url string }

func (p place) flags() []string { return []string{"--data=" + p.data, "--database=" + p.url} }

// publish publishes the first programme of a contest for a reason, as the service
// does.
func (p place) publish(t *testing.T, id uuid.UUID, reason string) {
	t.Helper()
	c := &config{data: p.data, database: p.url}
	d, _, shutBy, err := openDatabase(t.Context(), c)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { shutBy(time.Now().Add(endTime)) }()
	contest, err := d.Contest(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	key, err := signingKey(keyFile("", p.data))
	if err != nil {
		t.Fatal(err)
	}
	of := db.Scope{Programme: contest.Categories[0].Programmes[0].ID}
	wish := db.Publishing{State: publication.Provisional, Reason: reason}
	if _, _, err := d.Publish(t.Context(), of, wish, db.Signer{Key: key, Program: programName()}); err != nil {
		t.Fatal(err)
	}
	if _, _, err := preparePublications(t.Context(), c, d); err != nil {
		t.Fatal(err)
	}
}

// TestBackupAndRestore loses a server after its last backup, and restores another
// one from it and the folder of publications.
func TestBackupAndRestore(t *testing.T) {
	t.Setenv(passphraseVariable, "correct horse battery staple")
	text, err := os.ReadFile("../../testdata/cases/108.bundle.json")
	if err != nil {
		t.Fatal(err)
	}
	run := func(cmd *cobra.Command, stdin string, args ...string) (stdout string) {
		t.Helper()
		stdout, stderr, err := runCommand(t, cmd, strings.NewReader(stdin), args...)
		if err != nil {
			t.Fatalf("%s %v: %v\n%s%s", cmd.Name(), args, err, stdout, stderr)
		}
		return stdout
	}
	lost, found := place{t.TempDir(), dbtest.URL(t)}, place{t.TempDir(), dbtest.URL(t)}
	contest := uuid.MustParse(strings.TrimSpace(run(newImportCommand(), string(text), append(lost.flags(), "-")...)))
	lost.publish(t, contest, "In the backup.")
	path := filepath.Join(t.TempDir(), "one.backup")
	if said := run(newBackupCommand(), "", append(lost.flags(), path)...); !strings.Contains(said, "1 contest and 1 publication,") {
		t.Error(said)
	}
	lost.publish(t, contest, "After the backup.")

	from := append(found.flags(), "--publications-dir="+filepath.Join(lost.data, "publications"), path)
	if said := run(newRestoreCommand(), "", from...); !strings.Contains(said, "Restored 1 contest as of ") || strings.Count(said, "Took back") != 1 {
		t.Error(said)
	}
	found.publish(t, contest, "After the restore.")
	said := run(newVerifyCommand(), "", append(found.flags(), "--journal")...)
	for _, want := range []string{"the server was restored from a backup", "publication 3 is signed"} {
		if !strings.Contains(said, want) {
			t.Errorf("%s\ndoes not say %s", said, want)
		}
	}
	if _, _, err := runCommand(t, newRestoreCommand(), nil, from...); !errors.Is(err, db.ErrNotEmpty) {
		t.Errorf("over a contest: %v", err)
	}
	key, err := signingKey(keyFile("", lost.data))
	if err != nil {
		t.Fatal(err)
	}
	if restored, err := signingKey(keyFile("", found.data)); err != nil || !restored.Equal(key) {
		t.Errorf("the key is another one, %v", err)
	}
}

// TestBackupsAreKept runs the service's own backups until there is one.
func TestBackupsAreKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "backups")
	c := &config{data: t.TempDir(), backupEvery: leastInterval, backupDir: dir}
	ctx, stop := context.WithCancel(t.Context())
	c.keepBackup(ctx, dir, dbtest.URL(t))
	last, err := backup.Last(dir)
	if err != nil || last.IsZero() {
		t.Fatalf("no backup, %v", err)
	}
	if wait := c.untilBackup(ctx, dir); wait <= 0 || wait > leastInterval {
		t.Errorf("the next one is in %v", wait)
	}
	ended := make(chan struct{})
	go func() { defer close(ended); c.keepBackups(ctx, "") }()
	stop()
	<-ended
}

// A file that is there is not written over.
func TestBackupLeavesFiles(t *testing.T) {
	path := filepath.Join(t.TempDir(), "one.backup")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := runCommand(t, newBackupCommand(), nil, "--database="+dbtest.URL(t), path); err == nil || !strings.Contains(err.Error(), "there already") {
		t.Errorf("over a file: %v", err)
	}
}
