package main

import (
	"cmp"
	"context"
	"crypto/ed25519"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"halfpoint/db"
	"halfpoint/db/backup"
	"halfpoint/db/shelf"
	"halfpoint/scoring/publication"
)

const restoreExample = `  HALFPOINT_BACKUP_PASSPHRASE=… halfpoint restore contest.backup --data ./data

  # with the publications of the lost server
  halfpoint restore contest.backup --publications-dir /media/stick/publications`

// newRestoreCommand brings a backup back.
func newRestoreCommand() *cobra.Command {
	r := &restoration{}
	cmd := &cobra.Command{
		Use:   "restore FILE",
		Short: "Bring everything back from a backup",
		Long: `Brings a backup back into an empty database: one without a contest, which no
service is using. Files of the data folder that an encrypted backup holds are put
back where there are none of their names.

It begins a new epoch: tablets then send again whatever the database does not
have any more, and each contest's journal says that it was restored. Publications
in the folder of publications that the backup does not have yet are taken back,
each after its signature was checked with a key that is known here; numbers that
they use are not used again.`,
		Example: restoreExample,
		Args:    cobra.ExactArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return r.run(cmd, args[0]) },
	}
	r.into.add(cmd)
	addKeyFile(cmd, &r.key)
	cmd.Flags().StringVar(&r.publications, settingPublications.flag, "", settingPublications.about+", also "+settingPublications.env)
	return cmd
}

// restoration is what a restore was told.
type restoration struct {
	into              databaseFlags
	key, publications string
}

func (r *restoration) run(cmd *cobra.Command, path string) error {
	b, err := backup.Open(path, os.Getenv(passphraseVariable))
	if err != nil {
		return err
	}
	defer b.Close()
	url, stop, err := r.into.locate(cmd.Context())
	if err != nil {
		return err
	}
	defer stop()
	if err := db.Clear(cmd.Context(), url); err != nil {
		return err
	}
	if err := b.Restore(cmd.Context(), url); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "Restored %s as of %s.\n",
		counted(len(b.Manifest.Inventory.Contests), "contest"), b.Manifest.Taken.Format("2006-01-02 15:04:05 MST"))
	if err := r.putBack(cmd, b); err != nil {
		return err
	}
	return r.begin(cmd, b, url)
}

// putBack writes the secret files of the backup that are not there.
func (r *restoration) putBack(cmd *cobra.Command, b *backup.Backup) error {
	for _, name := range b.Manifest.Files {
		text, err := b.Secret(name)
		if err != nil {
			return err
		}
		path := filepath.Join(r.into.folder(), name)
		if name == keyName {
			path = r.keyFile()
		}
		switch err := writeSecret(path, text); {
		case errors.Is(err, fs.ErrExist):
			fmt.Fprintf(cmd.ErrOrStderr(), "%s is there already and stays as it is.\n", path)
		case err != nil:
			return err
		}
	}
	return nil
}

func (r *restoration) keyFile() string {
	return givenKeyFile(r.key, r.into.folder())
}

// begin begins the new epoch, and takes publications back.
func (r *restoration) begin(cmd *cobra.Command, b *backup.Backup, url string) error {
	d, err := db.Open(cmd.Context(), url)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Restored(cmd.Context(), b.Manifest.Taken); err != nil {
		return err
	}
	return r.takeBackAll(cmd, d)
}

// takeBackAll takes back what the folder of publications has and the backup has
// not.
func (r *restoration) takeBackAll(cmd *cobra.Command, d *db.DB) error {
	dir := shelfDir(cmp.Or(r.publications, os.Getenv(settingPublications.env)), r.into.folder())
	kept, err := shelf.Open(dir)
	if err != nil {
		return err
	}
	all, err := kept.All()
	if err != nil {
		return err
	}
	known, err := r.knownKeys(cmd.Context(), d)
	if err != nil {
		return err
	}
	for _, k := range all {
		if err := takeBack(cmd, d, k, known); err != nil {
			return err
		}
	}
	return nil
}

// knownKeys are the fingerprints of the keys that publications were or are signed
// with here.
func (r *restoration) knownKeys(ctx context.Context, d *db.DB) (known []string, err error) {
	keys, err := d.PublicKeys(ctx)
	for _, key := range keys {
		known = append(known, publication.Fingerprint(ed25519.PublicKey(key)))
	}
	if own, ownErr := readSigningKey(r.keyFile()); ownErr == nil {
		known = append(known, fingerprint(own))
	}
	return known, err
}

// takeBack takes one publication back, or says why it stays in the folder.
func takeBack(cmd *cobra.Command, d *db.DB, k shelf.Kept, known []string) error {
	if k.Publication == nil {
		fmt.Fprintf(cmd.ErrOrStderr(), "%s cannot be read and was left there: %v\n", k.Path, k.Err)
		return nil
	}
	if key := publication.Fingerprint(k.PublicKey); !slices.Contains(known, key) || !k.Check(key).Agrees() {
		fmt.Fprintf(cmd.ErrOrStderr(), "%s is not a publication that is signed with a key known here, and was left there.\n", k.Path)
		return nil
	}
	taken, err := d.TakeBack(cmd.Context(), k.ID, k.Publication)
	switch {
	case errors.Is(err, db.ErrNotFound), errors.Is(err, db.ErrConflict):
		fmt.Fprintf(cmd.ErrOrStderr(), "%s was left there: its contest is not in the backup, or another publication has its number: %v\n", k.Path, err)
		return nil
	case taken:
		fmt.Fprintf(cmd.OutOrStdout(), "Took back %s.\n", k.Path)
	}
	return err
}
