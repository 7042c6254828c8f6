package whole

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

func TestWhatIsThereStaysOrGoes(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "file")
	if err := Make(path, []byte("first"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := Make(path, []byte("second"), 0o644); !errors.Is(err, fs.ErrExist) {
		t.Errorf("made again: %v", err)
	}
	holds(t, path, "first", 0o600)
	if err := Write(path, []byte("third"), 0o644); err != nil {
		t.Fatal(err)
	}
	holds(t, path, "third", 0o644)
	if files, err := os.ReadDir(dir); err != nil || len(files) != 1 {
		t.Errorf("%v are left, %v", files, err)
	}
	if err := Sync(dir); err != nil {
		t.Error(err)
	}
}

func holds(t *testing.T, path, want string, mode fs.FileMode) {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if text, err := os.ReadFile(path); err != nil || string(text) != want || info.Mode().Perm() != mode {
		t.Errorf("%q with mode %v, %v; want %q with %v", text, info.Mode(), err, want, mode)
	}
}

func TestWhatFailsLeavesNothing(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "folder"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := Write(filepath.Join(dir, "folder"), nil, 0o600); err == nil {
		t.Error("a file was written over a folder")
	}
	if files, err := os.ReadDir(dir); err != nil || len(files) != 1 {
		t.Errorf("%v are left, %v", files, err)
	}
}
