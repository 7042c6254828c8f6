package api_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestGeneratedFromTheContract generates the types again: go generate ./api
// puts a difference right.
func TestGeneratedFromTheContract(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("builds the generator where it was not built before")
	}
	path := filepath.Join(t.TempDir(), "contract.gen.go")
	generate := exec.CommandContext(t.Context(), "go", "tool", "-modfile=../tools/go.mod", "oapi-codegen",
		"-config", "codegen.yaml", "-o", path, "openapi.yaml")
	if out, err := generate.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile("contract.gen.go")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Error("contract.gen.go is not what openapi.yaml makes")
	}
}
