package main

import (
	"cmp"
	"context"
	"log/slog"
	"path/filepath"
	"time"

	"halfpoint/db/backup"
)

// backupDir is where backups are written in rotation.
func backupDir(dir, data string) string { return cmp.Or(dir, filepath.Join(data, "backups")) }

// shelfDir is where publications are kept beside the database.
func shelfDir(dir, data string) string { return cmp.Or(dir, filepath.Join(data, "publications")) }

// keepBackups writes a backup whenever the last one in the folder is so old,
// until ctx is done. Where several processes have the same folder, whoever looks
// first writes it. One that fails is tried again after a whole interval.
func (c *config) keepBackups(ctx context.Context, url string) {
	if c.backupEvery == 0 {
		return
	}
	dir := backupDir(c.backupDir, c.data)
	for wait := c.untilBackup(ctx, dir); ; {
		select {
		case <-ctx.Done():
			return
		case <-time.After(wait):
		}
		if wait = c.untilBackup(ctx, dir); wait > 0 {
			continue
		}
		c.keepBackup(ctx, dir, url)
		wait = c.backupEvery
	}
}

// untilBackup is how long there is until the next backup.
func (c *config) untilBackup(ctx context.Context, dir string) time.Duration {
	last, err := backup.Last(dir)
	if err != nil {
		slog.ErrorContext(ctx, "looking at the backups", "error", err)
		return c.backupEvery
	}
	return max(time.Until(last.Add(c.backupEvery)), 0)
}

// lastBackup says when the newest backup was begun; nil where none are to be
// written, and the zero time where there is none or the folder cannot be read.
func (c *config) lastBackup() func() time.Time {
	if c.backupEvery == 0 {
		return nil
	}
	return func() time.Time {
		last, err := backup.Last(backupDir(c.backupDir, c.data))
		if err != nil {
			return time.Time{}
		}
		return last
	}
}

// keepBackup writes a backup and deletes those that are not worth keeping.
func (c *config) keepBackup(ctx context.Context, dir, url string) {
	begin := time.Now()
	path := filepath.Join(dir, backup.Name(begin))
	_, err := backUp(ctx, path, url, c.data, keyFile(c.keyFile, c.data), c.passphrase)
	if err == nil {
		err = backup.Rotate(dir, begin)
	}
	switch {
	case ctx.Err() != nil: // the service stops; what was begun is gone
	case err != nil:
		slog.ErrorContext(ctx, "the backup failed", "error", err)
	default:
		slog.InfoContext(ctx, "backup written and checked", "path", path, "encrypted", c.passphrase != "", "seconds", time.Since(begin).Seconds())
	}
}
