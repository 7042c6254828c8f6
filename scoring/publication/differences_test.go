package publication

import (
	"bytes"
	"slices"
	"testing"

	"halfpoint/scoring"
)

// parsed is what the example says after changes of its bundle's text.
func parsed(t *testing.T, changes ...string) *Parsed {
	t.Helper()
	p := signed(t, exampleStatement())
	for i := 0; i < len(changes); i += 2 {
		if !bytes.Contains(p.Bundle, []byte(changes[i])) {
			t.Fatalf("the example has no %s", changes[i])
		}
		p.Bundle = bytes.Replace(p.Bundle, []byte(changes[i]), []byte(changes[i+1]), 1)
	}
	bundle, err := scoring.DecodeBundle(p.Bundle)
	if err != nil {
		t.Fatal(err)
	}
	p.Results = scoring.Score(bundle).Encode()
	read, err := p.Parse()
	if err != nil {
		t.Fatal(err)
	}
	return read
}

// TestDifferences has scores worked by hand: K 10, 12.5 and 5; the first pilot's
// means are 8, 22/3 and 7.5, together 80 + 91.67 + 37.5; with j1's first grade
// at 5.0 the first is 7, and 10 points are gone.
func TestDifferences(t *testing.T) {
	t.Parallel()
	before := parsed(t)
	if same := Differences(OfProgramme, before, parsed(t)); same != nil {
		t.Errorf("the same differs in %+v", same)
	}
	after := parsed(t, `"method":{"name":"mean","trim":1`, `"method":{"name":"mean","trim":2`,
		`["8.0","7.5","7.0"]`, `["5.0","7.5","7.0"]`,
		`"hard-zero-overruled"`, `"hard-zero-confirmed"`,
		`"pilot":"p3","status":"scheduled"`, `"pilot":"p3","status":"withdrawn"`)
	got := Differences(OfProgramme, before, after)
	for _, want := range []Change{
		{What: ChangedMethod, From: "trim 1", To: "trim 2"},
		{What: ChangedScore, Pilot: "p1", From: "209.17", To: "199.17"},
		{What: ChangedGrade, Pilot: "p1", Item: 1, Judge: "j1", From: "8.0", To: "5.0"},
		{What: ChangedRuling, Pilot: "p2", Item: 2, From: "hard-zero-overruled", To: "hard-zero-confirmed"},
		{What: ChangedStatus, Pilot: "p3", From: "scheduled", To: "withdrawn"},
		{What: ChangedScore, Pilot: "p3", To: "0.00"},
		{What: ChangedRank, Pilot: "p3", To: "3"},
	} {
		if !slices.Contains(got, want) {
			t.Errorf("%+v is not in\n%+v", want, got)
		}
	}
	if len(got) != 8 { // the second pilot's score too
		t.Errorf("%d differences: %+v", len(got), got)
	}
}

func TestDifferencesOfStandings(t *testing.T) {
	t.Parallel()
	after := parsed(t, `["8.0","7.5","7.0"]`, `["5.0","7.5","7.0"]`)
	got := Differences(OfCategory, parsed(t), after)
	want := []Change{{What: ChangedTotal, Pilot: "p1", From: "209.17", To: "199.17"}}
	if !slices.Equal(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}
