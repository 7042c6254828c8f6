package document_test

import (
	"strings"
	"testing"

	"halfpoint/scoring/document"
)

func TestBound(t *testing.T) {
	t.Parallel()
	name := document.Bound{Least: 1, Most: 5}
	words := document.Bound{Most: 9, Lines: true}
	for _, c := range []struct {
		bound      document.Bound
		text, want string
	}{
		{name, "Böhme", ""},
		{name, "", "it is empty"},
		{name, "  ", "it is empty"},
		{name, "Böhmer", "6 characters are more than 5"},
		{name, "a\tb", "cannot be shown"},
		{name, "a\x00", "cannot be shown"},
		{name, "a\xff", "cannot be shown"},
		{name, " ann", "begins or ends with a space"},
		{words, "", ""},
		{words, "one\ntwo\n", ""},
		{words, "a\x07", "cannot be shown"},
		{document.Bound{Least: 3, Most: 9}, "ab", "2 characters are fewer than 3"},
	} {
		var report document.Report
		c.bound.Check(&report, "here", c.text)
		got := report.Complaints().Error()
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}
