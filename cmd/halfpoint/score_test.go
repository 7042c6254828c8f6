package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfpoint/scoring"
)

func TestScorePrintsTheSameFromFileAndStandardInput(t *testing.T) {
	path := filepath.Join("..", "..", "testdata", "cases", "108.bundle.json")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	fromFile, stderr, err := runCommand(t, newScoreCommand(), nil, path)
	if err != nil || stderr != "" || !strings.HasPrefix(fromFile, `{"format":"halfpoint-results/1","categories":[{"id":"cat",`) {
		t.Fatalf("%v, printed %.80s and %s", err, fromFile, stderr)
	}
	fromInput, stderr, err := runCommand(t, newScoreCommand(), bytes.NewReader(text), "-")
	if err != nil || stderr != "" || fromInput != fromFile {
		t.Errorf("from standard input: %v, printed %.80s and %s", err, fromInput, stderr)
	}
}

func TestScoreRefusesWithEveryComplaint(t *testing.T) {
	stdout, stderr, err := runCommand(t, newScoreCommand(), strings.NewReader(`{"format": "other", "judges": [{"id": "j1"}, {"id": "j1"}], "colour": 1}`), "-")
	if !errors.Is(err, statusBadInput) || stdout != "" {
		t.Errorf("%v, printed %q", err, stdout)
	}
	for _, place := range []string{"format: ", "judges[1].id: ", "pilots: missing", "colour: "} {
		if !strings.Contains(stderr, place) {
			t.Errorf("no complaint %q in\n%s", place, stderr)
		}
	}
}

// endless gives spaces for ever.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

func TestScoreRefusesAHugeDocument(t *testing.T) {
	stdout, stderr, err := runCommand(t, newScoreCommand(), io.LimitReader(endless{}, scoring.MaxBundleBytes+1), "-")
	if !errors.Is(err, statusBadInput) || stdout != "" || !strings.Contains(stderr, "larger than 64 MiB") {
		t.Errorf("%v, printed %q and %q", err, stdout, stderr)
	}
}

func TestScoreWithoutAFile(t *testing.T) {
	if _, _, err := runCommand(t, newScoreCommand(), nil, filepath.Join(t.TempDir(), "none.json")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a file that is not there: %v", err)
	}
}
