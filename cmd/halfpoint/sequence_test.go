package main

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// runSequence runs the command on a text at standard input.
func runSequence(t *testing.T, text string, args ...string) (stdout, stderr string, err error) {
	t.Helper()
	return runCommand(t, newSequenceCommand(), strings.NewReader(text), append(args, "-")...)
}

func TestSequenceStatus(t *testing.T) {
	const figureItem = `{"items":[{"kind":"figure","k":14,"moves":[{"arc":%}]}]}`
	for arc, status := range map[string]error{"360": nil, "90": exitStatus(2), "100": exitStatus(2)} {
		stdout, stderr, err := runSequence(t, strings.ReplaceAll(figureItem, "%", arc))
		if !errors.Is(err, status) || stderr != "" || !json.Valid([]byte(stdout)) {
			t.Errorf("an arc of %s: %v, printed %s and %s", arc, err, stdout, stderr)
		}
	}
}

func TestSequenceRefused(t *testing.T) {
	stdout, stderr, err := runSequence(t, `{"items":[{"kind":"figure","k":0,"moves":[{"arc":100}]}],"wind":1}`)
	if !errors.Is(err, exitStatus(2)) || stdout != "" {
		t.Errorf("%v, printed %q", err, stdout)
	}
	for _, place := range []string{"wind: ", "items[0].k: ", "items[0].moves[0].arc: "} {
		if !strings.Contains(stderr, place) {
			t.Errorf("no complaint at %s in\n%s", place, stderr)
		}
	}
}

func TestSequenceNumbers(t *testing.T) {
	table := filepath.Join(t.TempDir(), "numbers.csv")
	if err := os.WriteFile(table, []byte("number,k\n7.123.4.5,12.5\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	stdout, stderr, err := runSequence(t, `{"items":[{"kind":"figure","elements":["7.123.4.5"]}]}`, "--numbers", table)
	if err != nil || stderr != "" || !strings.Contains(stdout, `"total_k": 12.5`) {
		t.Errorf("%v, printed %s and %s", err, stdout, stderr)
	}
	if err := os.WriteFile(table, []byte("7.123.4,12.5\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	stdout, stderr, err = runSequence(t, `{"items":[]}`, "--numbers", table)
	if !errors.Is(err, exitStatus(2)) || stdout != "" || !strings.Contains(stderr, "row 1, column 1") {
		t.Errorf("a broken table: %v, printed %s and %s", err, stdout, stderr)
	}
}
