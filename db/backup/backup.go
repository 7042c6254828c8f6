// Package backup writes all of a database into one file and brings it back. The
// file is a TAR archive: a manifest that says what must be in it, the dump that
// Postgres's own pg_dump writes, and, in an encrypted file only, the files of the
// data folder, the keys among them. Encrypted, the archive is inside an age file
// (age-encryption.org/v1) with a passphrase. So all of it can be opened without
// us: age, tar and pg_restore.
//
// What was written is restored into an empty database of its own and held
// against the manifest before it counts as a backup.
package backup

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"halfpoint/db"
	"halfpoint/db/cluster"
	"halfpoint/db/whole"
)

// Format is the first field of every manifest.
const Format = "halfpoint-backup/1"

// A Manifest says what a backup holds.
type Manifest struct {
	Format    string        `json:"format"` // Format
	Taken     time.Time     `json:"taken"`
	Program   string        `json:"program"` // name and version
	Schema    int           `json:"schema"`  // version of the database's
	Inventory *db.Inventory `json:"inventory"`
	Files     []string      `json:"files"` // of the data folder
	// Digests are the SHA-256 of everything else in the backup, in hexadecimal, by
	// its name: what a disk changed is found though the database would take it.
	Digests map[string]string `json:"digests,omitempty"`
}

// A Source is what is backed up.
type Source struct {
	URL     string // of the database
	Program string // name and version of this program
	// Secrets are files by their names in the backup; they go into an encrypted
	// one only.
	Secrets map[string]string
}

// Write writes a backup to a file that is not there yet, and checks it. Without a
// passphrase it is not encrypted.
func Write(ctx context.Context, path string, s Source, passphrase string) (*Manifest, error) {
	if _, err := os.Stat(path); err == nil {
		return nil, fmt.Errorf("%s is there already", path)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return nil, fmt.Errorf("the folder of the backup: %w", err)
	}
	aside, err := os.MkdirTemp(filepath.Dir(path), ".backup-")
	if err != nil {
		return nil, fmt.Errorf("the folder of the backup: %w", err)
	}
	defer os.RemoveAll(aside)
	m, err := s.dump(ctx, filepath.Join(aside, fileDump))
	if err != nil {
		return nil, fmt.Errorf("dumping the database: %w", err)
	}
	archive := filepath.Join(aside, "whole")
	if err := s.pack(archive, m, filepath.Join(aside, fileDump), passphrase); err != nil {
		return nil, fmt.Errorf("writing the backup: %w", err)
	}
	if err := Check(ctx, archive, passphrase); err != nil {
		return nil, err
	}
	return m, put(archive, path)
}

// put gives a file its name, and sees to it that the disk knows it.
func put(aside, path string) error {
	if err := os.Rename(aside, path); err != nil {
		return fmt.Errorf("writing the backup: %w", err)
	}
	if err := whole.Sync(filepath.Dir(path)); err != nil {
		return fmt.Errorf("writing the backup: %w", err)
	}
	return nil
}

// dump writes the database as it is at one moment, and says what is in it.
func (s *Source) dump(ctx context.Context, to string) (*Manifest, error) {
	program, err := cluster.Program(ctx, "pg_dump")
	if err != nil {
		return nil, err
	}
	schema, err := db.ReadSchema(ctx, s.URL)
	if err != nil {
		return nil, err
	}
	d, err := db.Open(ctx, s.URL)
	if err != nil {
		return nil, err
	}
	defer d.Close()
	m := &Manifest{Format: Format, Taken: time.Now().UTC(), Program: s.Program, Schema: schema.Version}
	err = d.Snapshot(ctx, func(snapshot string, i *db.Inventory) error {
		m.Inventory = i
		return run(ctx, program, "--format=custom", "--no-owner", "--no-privileges",
			"--snapshot="+snapshot, "--file="+to, "--dbname="+s.URL)
	})
	return m, err
}

// run runs a program and says what it complained about.
func run(ctx context.Context, program string, args ...string) error {
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8")
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w: %s", filepath.Base(program), err, strings.TrimSpace(string(out)))
	}
	return nil
}

// Check restores a backup into an empty database of its own, and says what is not
// as its manifest says.
func Check(ctx context.Context, path, passphrase string) error {
	b, err := Open(path, passphrase)
	if err != nil {
		return err
	}
	defer b.Close()
	private, err := cluster.TempDir("halfpoint-check-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(private)
	c, err := cluster.Start(ctx, filepath.Join(private, "data"), "fsync=off", "full_page_writes=off", "autovacuum=off")
	if err != nil {
		return fmt.Errorf("checking the backup: %w", err)
	}
	defer c.Stop()
	if err := b.Restore(ctx, c.URL()); err != nil {
		return fmt.Errorf("checking the backup: %w", err)
	}
	return nil
}

// Restore brings the database back, into an empty one, and holds it against the
// manifest.
func (b *Backup) Restore(ctx context.Context, url string) error {
	program, err := cluster.Program(ctx, "pg_restore")
	if err != nil {
		return err
	}
	if err := run(ctx, program, "--no-owner", "--no-privileges", "--exit-on-error", "--single-transaction",
		"--dbname="+url, filepath.Join(b.dir, fileDump)); err != nil {
		return err
	}
	if err := db.Migrate(ctx, url); err != nil {
		return err
	}
	return b.compare(ctx, url)
}

func (b *Backup) compare(ctx context.Context, url string) error {
	d, err := db.Open(ctx, url)
	if err != nil {
		return err
	}
	defer d.Close()
	there, err := d.Inventory(ctx)
	if err != nil {
		return err
	}
	if words := b.Manifest.Inventory.Differences(there); len(words) > 0 {
		return fmt.Errorf("what was restored is not what was backed up: %s", strings.Join(words, "; "))
	}
	return nil
}

func (m *Manifest) text() ([]byte, error) { return json.MarshalIndent(m, "", "  ") }
