package publication

import (
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
)

// console finds the blocks of commands with their output.
var console = regexp.MustCompile("(?s)```console\n(.*?)```")

// TestDocs runs the commands of docs/publications.md on the example and holds
// their output to the page.
func TestDocs(t *testing.T) {
	t.Parallel()
	for _, program := range []string{"sh", "openssl", "sha256sum"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("%s is not installed", program)
		}
	}
	page, err := os.ReadFile("../../docs/publications.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := console.FindAllStringSubmatch(string(page), -1)
	if len(blocks) == 0 {
		t.Fatal("the page has no commands")
	}
	for _, block := range blocks {
		for _, part := range strings.Split("\n"+block[1], "\n$ ")[1:] {
			command, want, _ := strings.Cut(part, "\n")
			shell := exec.CommandContext(t.Context(), "sh", "-c", command)
			shell.Dir = example
			got, err := shell.CombinedOutput()
			if err != nil || strings.TrimSpace(string(got)) != strings.TrimSpace(want) {
				t.Errorf("%s prints\n%s%v\nthe page says\n%s", command, got, err, want)
			}
		}
	}
}
