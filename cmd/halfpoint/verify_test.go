package main

import (
	"bytes"
	"errors"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfpoint/scoring/publication"
)

const (
	exampleFolder      = "../../testdata/publication"
	exampleFingerprint = "06e3fd8fda29bb60ab59557de61edb0aecdb231134be30e75b455f8e1b792fa9" // docs/publications.md
)

// exampleArchive is the example as one file, after a change.
func exampleArchive(t *testing.T, change func(p *publication.Publication)) string {
	t.Helper()
	p, err := publication.ReadFolder(os.DirFS(exampleFolder))
	if err != nil {
		t.Fatal(err)
	}
	change(p)
	text, err := p.Archive()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "publication.zip")
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestVerify(t *testing.T) {
	archive := exampleArchive(t, func(*publication.Publication) {})
	text, err := os.ReadFile(archive)
	if err != nil {
		t.Fatal(err)
	}
	changed := exampleArchive(t, func(p *publication.Publication) {
		p.Results = bytes.Replace(p.Results, []byte(`"score":209.17`), []byte(`"score":209.18`), 1)
	})
	other := filepath.Join(exampleFolder, "bundle.json")
	for name, c := range map[string]struct {
		stdin  string
		args   []string
		status error
		says   string
	}{
		"a folder":        {"", []string{exampleFolder}, nil, "Compare the key's fingerprint"},
		"an archive":      {"", []string{archive, "--key", exampleFingerprint}, nil, "Publication 3 of contest 0197f2a4"},
		"standard input":  {string(text), []string{"-", "--key", filepath.Join(exampleFolder, "key.pem")}, nil, "to the last digit"},
		"another key":     {"", []string{archive, "--key", strings.Repeat("0", 64)}, statusDisagrees, "DISAGREES  the key that was asked for is 000"},
		"another score":   {"", []string{changed}, statusDisagrees, "flights p1, score: published is 209.18, computed is 209.17"},
		"no publication":  {"", []string{other}, statusBadInput, "a ZIP file was expected"},
		"a part of one":   {"", []string{other}, statusBadInput, "…/api/v1/publications/ID/archive"},
		"an empty folder": {"", []string{t.TempDir()}, statusBadInput, "key.pem"},
		"no key":          {"", []string{archive, "--key", "mine"}, statusBadInput, "neither a fingerprint"},
		"another address": {"", []string{"http://127.0.0.1:1/contests/x"}, statusBadInput, "not the address of a publication"},
		"no contest":      {"", []string{"--journal", "first"}, statusBadInput, "not the id of a contest"},
	} {
		t.Run(name, func(t *testing.T) {
			stdout, stderr, err := runCommand(t, newVerifyCommand(), strings.NewReader(c.stdin), c.args...)
			if !errors.Is(err, c.status) || !strings.Contains(stdout+stderr, c.says) {
				t.Errorf("%v, printed\n%s%s\nwant %v and %q", err, stdout, stderr, c.status, c.says)
			}
		})
	}
	if _, _, err := runCommand(t, newVerifyCommand(), nil, filepath.Join(t.TempDir(), "nothing.zip")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a file that is not there: %v", err)
	}
	closed := httptest.NewServer(http.NotFoundHandler())
	defer closed.Close()
	_, _, err = runCommand(t, newVerifyCommand(), nil, closed.URL+"/publications/0197f2a4-0000-7000-8000-000000000001")
	if err == nil || !strings.Contains(err.Error(), "not open to everyone") {
		t.Errorf("of a contest that is closed: %v", err)
	}
}
