package main

import (
	"bytes"
	"strings"
	"testing"
)

func TestScorePrintsResultsOrEveryComplaint(t *testing.T) {
	var stdout, stderr bytes.Buffer
	status := run(t.Context(), []string{"score", "../../testdata/cases/101.bundle.json"}, nil, &stdout, &stderr)
	if status != 0 || stderr.Len() > 0 || !strings.HasPrefix(stdout.String(), `{"format":"halfpoint-results/1"`) {
		t.Errorf("status %d, %q, %.80q", status, stderr.String(), stdout.String())
	}

	stdout.Reset()
	bad := strings.NewReader(`{"format": "halfpoint-bundle/1", "contest": {"name": 1}, "extra": true}`)
	status = run(t.Context(), []string{"score", "-"}, bad, &stdout, &stderr)
	if status != 2 || stdout.Len() > 0 {
		t.Errorf("a bad bundle: status %d, printed %q", status, stdout.String())
	}
	for _, place := range []string{"contest.name: ", "extra: "} {
		if !strings.Contains(stderr.String(), place) {
			t.Errorf("no complaint about %q in %q", place, stderr.String())
		}
	}
}
