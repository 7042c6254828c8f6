package cluster

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// programs is one installed version of the server.
type programs struct {
	dir   string // holds initdb and postgres
	major int
}

// installedIn is where Debian keeps each major version.
const installedIn = "/usr/lib/postgresql/*/bin"

var errNoPrograms = errors.New("no Postgres server programs are installed: install them (on Debian: apt install postgresql), or name a running server by --database")

// findPrograms lists what is installed, newest first.
func findPrograms(ctx context.Context, pattern string) ([]programs, error) {
	dirs, err := filepath.Glob(pattern)
	if err != nil {
		return nil, fmt.Errorf("looking for Postgres: %w", err)
	}
	if path, err := exec.LookPath("postgres"); err == nil {
		dirs = append(dirs, filepath.Dir(path))
	}
	var found []programs
	for _, dir := range dirs {
		if major, err := majorOf(ctx, dir); err == nil {
			found = append(found, programs{dir, major})
		}
	}
	if len(found) == 0 {
		return nil, errNoPrograms
	}
	slices.SortStableFunc(found, func(a, b programs) int { return b.major - a.major })
	return found, nil
}

// Program is the path of one of Postgres's own programs, such as pg_dump, of the
// newest version that is installed.
func Program(ctx context.Context, name string) (string, error) {
	found, err := findPrograms(ctx, installedIn)
	if err != nil {
		return "", err
	}
	path := filepath.Join(found[0].dir, name)
	if _, err := os.Stat(path); err != nil {
		return "", fmt.Errorf("%s is not installed: install it (on Debian: apt install postgresql-client): %w", name, err)
	}
	return path, nil
}

// majorOf asks the server program for its major version.
func majorOf(ctx context.Context, dir string) (int, error) {
	if _, err := os.Stat(filepath.Join(dir, "initdb")); err != nil {
		return 0, err
	}
	out, err := exec.CommandContext(ctx, filepath.Join(dir, "postgres"), "--version").Output()
	if err != nil {
		return 0, err
	}
	fields := strings.Fields(string(out)) // postgres (PostgreSQL) 15.18 (Debian …)
	if len(fields) < 3 {
		return 0, fmt.Errorf("%s is no version of Postgres", out)
	}
	digits, _, _ := strings.Cut(fields[2], ".")
	return strconv.Atoi(strings.TrimRight(digits, "abcdefghijklmnopqrstuvwxyz"))
}

// pickPrograms takes the version that wrote the data, or the newest where
// there are none yet.
func pickPrograms(found []programs, data string) (programs, error) {
	text, err := os.ReadFile(filepath.Join(data, "PG_VERSION"))
	if errors.Is(err, os.ErrNotExist) {
		return found[0], nil
	}
	if err != nil {
		return programs{}, fmt.Errorf("reading the version of the data: %w", err)
	}
	major, err := strconv.Atoi(strings.TrimSpace(string(text)))
	if err != nil {
		return programs{}, fmt.Errorf("%s holds no data of Postgres: %w", data, err)
	}
	for _, p := range found {
		if p.major == major {
			return p, nil
		}
	}
	if major > found[0].major {
		return programs{}, fmt.Errorf("the data in %s are of Postgres %d, newer than the installed %d: install that version (on Debian: apt install postgresql-%d)", data, major, found[0].major, major)
	}
	return programs{}, fmt.Errorf("the data in %s are of Postgres %d, and installed is %d: install the older version too (on Debian: apt install postgresql-%d), or bring the data over with pg_upgrade", data, major, found[0].major, major)
}
