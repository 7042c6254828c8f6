package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestJudgesPrintsTheSameFromFileAndStandardInput(t *testing.T) {
	path := filepath.Join("..", "..", "testdata", "cases", "108.bundle.json")
	var fromFile, fromInput, stderr bytes.Buffer
	if status := run(context.Background(), []string{"judges", path}, nil, &fromFile, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d, printed %s", status, stderr.String())
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	status := run(context.Background(), []string{"judges", "-"}, bytes.NewReader(text), &fromInput, &stderr)
	if status != 0 || fromInput.String() != fromFile.String() {
		t.Errorf("status %d from standard input, printed %.80s", status, fromInput.String())
	}
	var report struct {
		Format     string
		Categories []struct {
			Programmes []struct{ Judges []struct{ Judge string } }
		}
	}
	if err := json.Unmarshal(fromFile.Bytes(), &report); err != nil || report.Format != "halfpoint-panel/1" {
		t.Fatalf("%v, printed %.80s", err, fromFile.String())
	}
	if judges := report.Categories[0].Programmes[0].Judges; len(judges) != 4 || judges[0].Judge != "j1" {
		t.Errorf("judges of the first programme: %v", judges)
	}
}

func TestJudgesRefusesWithEveryComplaint(t *testing.T) {
	var stdout, stderr bytes.Buffer
	status := run(context.Background(), []string{"judges", "-"}, strings.NewReader(`{"format": "other", "colour": 1}`), &stdout, &stderr)
	if status != int(statusBadInput) || stdout.Len() > 0 {
		t.Errorf("status %d, printed %q", status, stdout.String())
	}
	for _, place := range []string{"format: ", "pilots: missing", "colour: "} {
		if !strings.Contains(stderr.String(), place) {
			t.Errorf("no complaint %q in\n%s", place, stderr.String())
		}
	}
}
