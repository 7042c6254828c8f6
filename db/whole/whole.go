// Package whole writes files that are there whole or not at all, also where the
// machine stops meanwhile.
package whole

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// Write writes a file, in place of one that may be there.
func Write(path string, text []byte, mode fs.FileMode) error {
	return write(path, text, mode, os.Rename)
}

// Make writes a file that is not there yet. Where it is, that one stays and it
// fails with fs.ErrExist: of several who make one at once, one succeeds.
func Make(path string, text []byte, mode fs.FileMode) error {
	return write(path, text, mode, os.Link)
}

// write writes a file under another name, and then gives it its own.
func write(path string, text []byte, mode fs.FileMode, name func(aside, path string) error) error {
	aside, err := os.CreateTemp(filepath.Dir(path), ".new-")
	if err != nil {
		return err
	}
	defer func() { _ = os.Remove(aside.Name()) }() // it may have that name no more
	_, err = aside.Write(text)
	if err := errors.Join(err, aside.Chmod(mode), aside.Sync(), aside.Close()); err != nil {
		return err
	}
	return name(aside.Name(), path)
}

// Sync sees to it that the names in a folder are on the disk.
func Sync(dir string) error {
	folder, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}
