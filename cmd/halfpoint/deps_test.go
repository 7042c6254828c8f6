package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// mayImport is the picture of the house: which rooms a room may enter. Within
// a room every door is open.
var mayImport = map[string][]string{
	"cmd":        {"api", "db", "identity", "migrations", "scoring", "webui"},
	"api":        {"db", "identity", "ready", "scoring"},
	"db":         {"migrations", "scoring"},
	"identity":   {},
	"migrations": {},
	"ready":      {},
	"scoring":    {},
	"webui":      {"ready"},
}

// TestRoomsImportOneWay holds the imports to the picture, and scoring to the
// standard library.
func TestRoomsImportOneWay(t *testing.T) {
	for _, p := range packages(t) {
		room := roomOf(p.ImportPath)
		for _, imported := range p.Imports {
			switch other, ours := strings.CutPrefix(imported, "halfpoint/"); {
			case ours && roomOf(imported) != room && !slices.Contains(mayImport[room], roomOf(imported)):
				t.Errorf("%s imports %s: %s may enter %v only", p.ImportPath, other, room, mayImport[room])
			case !ours && room == "scoring" && strings.Contains(strings.Split(imported, "/")[0], "."):
				t.Errorf("%s imports %s: scoring is standard library only", p.ImportPath, imported)
			}
		}
	}
}

type goPackage struct {
	ImportPath string
	Imports    []string
}

// packages lists every package of the module with its imports.
func packages(t *testing.T) []goPackage {
	t.Helper()
	list := exec.CommandContext(t.Context(), "go", "list", "-json=ImportPath,Imports", "halfpoint/...")
	out, err := list.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []goPackage
	for decoder := json.NewDecoder(bytes.NewReader(out)); ; {
		var p goPackage
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

func roomOf(path string) string { return strings.Split(path, "/")[1] }
