package db_test

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
)

func readBundle(t testing.TB, path string) *scoring.Bundle {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	b, err := scoring.DecodeBundle(text)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return b
}

// bundles are the worked cases and one with everything that a bundle can say.
func bundles(t testing.TB) []string {
	t.Helper()
	paths, err := filepath.Glob("../testdata/cases/*.bundle.json")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no bundles: %v", err)
	}
	return append(paths, "testdata/everything.bundle.json")
}

// encoded is a bundle as it is written, which says all of it.
func encoded(t testing.TB, b *scoring.Bundle) []byte {
	t.Helper()
	text, err := b.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func TestExportIsWhatWasImported(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	for _, path := range bundles(t) {
		t.Run(filepath.Base(path), func(t *testing.T) {
			want := readBundle(t, path)
			contest, err := d.Import(t.Context(), want, db.ImportOptions{})
			if err != nil {
				t.Fatal(err)
			}
			exported, err := d.Export(t.Context(), contest)
			if err != nil {
				t.Fatal(err)
			}
			got, err := scoring.DecodeBundle(encoded(t, exported))
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(got, want) {
				t.Errorf("%s", difference(encoded(t, got), encoded(t, want)))
			}
		})
	}
}

// difference shows two texts from where they part.
func difference(got, want []byte) string {
	at := 0
	for at < min(len(got), len(want)) && got[at] == want[at] {
		at++
	}
	from := max(0, at-200)
	cut := func(text []byte) string { return string(bytes.TrimSpace(text[from:min(len(text), at+200)])) }
	return "got\n" + cut(got) + "\nwant\n" + cut(want)
}
