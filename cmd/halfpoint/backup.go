package main

import (
	"cmp"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"halfpoint/db/backup"
)

const backupExample = `  HALFPOINT_BACKUP_PASSPHRASE=… halfpoint backup /media/stick/contest.backup

  # without us: what is in it
  age --decrypt contest.backup | tar --list`

// passphraseVariable has the passphrase: a flag would show it to everyone who can
// list processes.
const passphraseVariable = "HALFPOINT_BACKUP_PASSPHRASE"

// newBackupCommand writes all of a database into one file.
func newBackupCommand() *cobra.Command {
	var from databaseFlags
	var key string
	cmd := &cobra.Command{
		Use:   "backup FILE",
		Short: "Write everything into one file, and check that it can be restored",
		Long: `Writes the whole database as it is at one moment, while the service goes on, and
restores it into an empty database of its own to see that every contest and every
publication is in it. Only then FILE is there.

` + passphraseVariable + ` encrypts it (age, by a passphrase). Only an encrypted backup
holds the files of the data folder too: the key that publications are signed with,
tokens and certificates. Without a passphrase keep these elsewhere.`,
		Example: backupExample,
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return writeBackup(cmd, &from, key, args[0])
		},
	}
	from.add(cmd)
	addKeyFile(cmd, &key)
	return cmd
}

func addKeyFile(cmd *cobra.Command, key *string) {
	cmd.Flags().StringVar(key, settingKeyFile.flag, "", settingKeyFile.about+", also "+settingKeyFile.env)
}

// givenKeyFile is the key's file where a flag or the environment may name it.
func givenKeyFile(flag, data string) string {
	return keyFile(cmp.Or(flag, os.Getenv(settingKeyFile.env)), data)
}

func writeBackup(cmd *cobra.Command, from *databaseFlags, key, path string) error {
	data := from.folder()
	url, stop, err := from.locate(cmd.Context())
	if err != nil {
		return err
	}
	defer stop()
	passphrase := os.Getenv(passphraseVariable)
	m, err := backUp(cmd.Context(), path, url, data, givenKeyFile(key, data), passphrase)
	if err != nil {
		return err
	}
	publications := 0
	for _, c := range m.Inventory.Contests {
		publications += len(c.Publications)
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s holds %s and %s, and was restored to check it.\n",
		path, counted(len(m.Inventory.Contests), "contest"), counted(publications, "publication"))
	if passphrase == "" {
		fmt.Fprintf(cmd.ErrOrStderr(), "It is not encrypted, so the key for publications and other secrets are not in it: keep them elsewhere, or set %s.\n", passphraseVariable)
	}
	return nil
}

// backUp writes one backup.
func backUp(ctx context.Context, path, url, data, key, passphrase string) (*backup.Manifest, error) {
	secrets, err := secretsIn(data, key)
	if err != nil {
		return nil, err
	}
	return backup.Write(ctx, path, backup.Source{URL: url, Program: programName(), Secrets: secrets}, passphrase)
}

// keyName is the name of the signing key in a backup.
const keyName = "signing-key.pem"

// secretsIn lists the files of the data folder by their names in a backup: all
// but the database, what can be made again, and what lies open anyway.
func secretsIn(data, key string) (map[string]string, error) {
	secrets := map[string]string{}
	err := filepath.WalkDir(data, func(path string, entry fs.DirEntry, err error) error {
		name, relErr := filepath.Rel(data, path)
		switch {
		case os.IsNotExist(err):
			return nil
		case err != nil:
			return err
		case relErr != nil:
			return relErr
		case entry.IsDir() && isNoSecret(name):
			return fs.SkipDir
		case entry.Type().IsRegular() && !isNoSecret(name):
			secrets[name] = path
		}
		return nil
	})
	if _, statErr := os.Stat(key); statErr == nil {
		secrets[keyName] = key
	}
	return secrets, err
}

func isNoSecret(name string) bool {
	switch name {
	case "postgres", "socket", "postgres.log", "publications", "backups":
		return true
	}
	return name != "." && strings.HasPrefix(name, ".") || strings.HasPrefix(name, "new-")
}

// counted is a number of things in words.
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
