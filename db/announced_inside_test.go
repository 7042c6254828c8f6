package db

import (
	"testing"

	"halfpoint/scoring/line"
)

// TestSaidInOrder holds the order of what was said of a flight against a clock that
// was set back between two of them, and against records that go in a circle.
func TestSaidInOrder(t *testing.T) {
	t.Parallel()
	said := func(id, at string, replaces ...string) line.Stored {
		return line.Stored{Record: line.Record{ID: id, EnteredAt: at, Replaces: replaces}}
	}
	tests := map[string]struct {
		records []line.Stored
		want    string
	}{
		"by the clock":         {[]line.Stored{said("b", "2026-06-12T10:01:00Z"), said("a", "2026-06-12T10:00:00Z")}, "ab"},
		"a clock set back":     {[]line.Stored{said("b", "2026-06-12T09:04:00Z", "a"), said("a", "2026-06-12T10:00:00Z")}, "ab"},
		"in place of the last": {[]line.Stored{said("c", "", "b"), said("b", "", "a"), said("a", "")}, "abc"},
		"a circle":             {[]line.Stored{said("a", "2026-06-12T10:00:00Z", "b"), said("b", "2026-06-12T10:01:00Z", "a")}, "ba"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			inOrder(test.records)
			got := ""
			for _, r := range test.records {
				got += r.ID
			}
			if got != test.want {
				t.Errorf("%s, want %s", got, test.want)
			}
		})
	}
}
