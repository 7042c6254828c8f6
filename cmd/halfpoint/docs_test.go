package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// documents are all that a reader is told to type.
func documents(t *testing.T) map[string]string {
	t.Helper()
	paths, err := filepath.Glob("../../docs/*.md")
	if err != nil {
		t.Fatal(err)
	}
	texts := make(map[string]string)
	for _, path := range append(paths, "../../README.md", "../../DEVELOPERS.md") {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		texts[filepath.Base(path)] = string(text)
	}
	return texts
}

var (
	block  = regexp.MustCompile("(?ms)^```[a-z]*\n(.*?)^```")
	inline = regexp.MustCompile("`((?:halfpoint|make) [^`]+)`")
	given  = regexp.MustCompile(`^(?:\s*[A-Z_]+=(?:'[^']*'|"[^"]*"|\S*))+\s+`)
)

// commands are the lines of a document that call a program, without what they give
// it in the environment.
func commands(text, program string) []string {
	var lines []string
	for _, found := range block.FindAllStringSubmatch(text, -1) {
		whole := strings.NewReplacer("\\\n", " ", "&&", "\n").Replace(found[1])
		lines = append(lines, strings.FieldsFunc(whole, func(r rune) bool { return r == '\n' || r == '|' })...)
	}
	for i := range lines {
		lines[i] = given.ReplaceAllString(lines[i], "")
	}
	for _, found := range inline.FindAllStringSubmatch(text, -1) {
		lines = append(lines, found[1])
	}
	lines = slices.DeleteFunc(lines, func(line string) bool {
		return !strings.HasPrefix(strings.TrimSpace(line), program+" ")
	})
	return lines
}

// Whatever the documents tell to type is a command with flags that there are.
func TestDocumentsNameWhatThereIs(t *testing.T) {
	t.Parallel()
	lines := 0
	for name, text := range documents(t) {
		for _, line := range commands(text, "halfpoint") {
			lines++
			if err := parses(line); err != nil {
				t.Errorf("%s: %s: %v", name, line, err)
			}
		}
	}
	found(t, "commands", lines, 20)
}

// found fails where so few of something were found that it was hardly looked for.
func found(t *testing.T, what string, n, least int) {
	t.Helper()
	if n < least {
		t.Errorf("only %d %s were found", n, what)
	}
}

// parses reads a command line without running it.
func parses(line string) error {
	words := strings.Fields(line)[1:]
	if i := slices.IndexFunc(words, func(word string) bool { return word == "#" || word == "…" || word == "--help" }); i >= 0 {
		words = words[:i]
	}
	cmd, rest, err := newRootCommand().Find(words)
	if err != nil {
		return err
	}
	return cmd.ParseFlags(rest)
}

var target = regexp.MustCompile(`(?m)^([a-z]+):`)

func TestDocumentsNameTargetsThatThereAre(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../Makefile")
	if err != nil {
		t.Fatal(err)
	}
	var there []string
	for _, found := range target.FindAllStringSubmatch(string(text), -1) {
		there = append(there, found[1])
	}
	lines := 0
	for name, text := range documents(t) {
		for _, line := range commands(text, "make") {
			lines++
			if called := strings.Fields(line)[1]; !slices.Contains(there, called) {
				t.Errorf("%s: there is no make %s", name, called)
			}
		}
	}
	found(t, "calls of make", lines, 5)
}

// Every command but the first shows an example, and each example is one that there is.
func TestExamplesParse(t *testing.T) {
	t.Parallel()
	var look func(cmd *cobra.Command)
	look = func(cmd *cobra.Command) {
		lines := commands("```\n"+cmd.Example+"\n```", "halfpoint")
		if len(lines) == 0 && cmd.HasParent() {
			t.Errorf("%s shows no example", cmd.CommandPath())
		}
		for _, line := range lines {
			if err := parses(line); err != nil {
				t.Errorf("the example of %s: %s: %v", cmd.Name(), line, err)
			}
		}
		for _, one := range cmd.Commands() {
			look(one)
		}
	}
	look(newRootCommand())
}

var reference = regexp.MustCompile(`\]\(([^)#:]+)(#[^)]*)?\)`)

// A link from one document to another leads somewhere.
func TestLinksLeadSomewhere(t *testing.T) {
	t.Parallel()
	links := 0
	for name, text := range documents(t) {
		folder := "../../docs"
		if name == "README.md" || name == "DEVELOPERS.md" {
			folder = "../.."
		}
		for _, link := range reference.FindAllStringSubmatch(text, -1) {
			links++
			if _, err := os.Stat(filepath.Join(folder, link[1])); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	found(t, "links", links, 20)
}

var metric = regexp.MustCompile(`\b(halfpoint_[a-z_]+[a-z])`)

// What the rules and the dashboard watch is what the service tells.
func TestOperationsWatchWhatIsTold(t *testing.T) {
	t.Parallel()
	source, err := os.ReadFile("../../api/observe.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"operations/alerts.yml", "operations/dashboard.json", "operating.md"} {
		text, err := os.ReadFile(filepath.Join("../../docs", name))
		if err != nil {
			t.Fatal(err)
		}
		found := metric.FindAllString(string(text), -1)
		if len(found) == 0 {
			t.Errorf("%s watches nothing", name)
		}
		for _, watched := range found {
			if told := strings.TrimSuffix(watched, "_bucket"); !strings.Contains(string(source), `"`+told+`"`) {
				t.Errorf("%s: the service does not tell %s", name, watched)
			}
		}
	}
}

var (
	testNamed = regexp.MustCompile("`((?:Test|Fuzz)[A-Z][A-Za-z]*)`")
	testThere = regexp.MustCompile(`(?m)^func ((?:Test|Fuzz)[A-Z][A-Za-z]*)\(`)
)

// A document that says which test holds something names one that there is.
func TestDocumentsNameTestsThatThereAre(t *testing.T) {
	t.Parallel()
	there := make(map[string]bool)
	for _, folder := range []string{"../../api", "../../cmd", "../../db", "../../identity", "../../scoring"} {
		err := filepath.WalkDir(folder, func(path string, _ fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			for _, found := range testThere.FindAllSubmatch(text, -1) {
				there[string(found[1])] = true
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	named := 0
	for name, text := range documents(t) {
		for _, test := range testNamed.FindAllStringSubmatch(text, -1) {
			named++
			if !there[test[1]] {
				t.Errorf("%s: there is no %s", name, test[1])
			}
		}
	}
	found(t, "names of tests", named, 20)
}
