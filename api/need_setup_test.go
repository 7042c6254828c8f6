package api_test

import (
	"slices"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/publication"
)

// TestNeedsOfSetUp imports contests that lack something before they can be flown.
func TestNeedsOfSetUp(t *testing.T) {
	t.Parallel()
	s := start(t)
	for _, c := range []struct {
		name   string
		change func(c *scoring.Category, p *scoring.Programme)
		want   []string
	}{
		{"an order", func(*scoring.Category, *scoring.Programme) {}, []string{"there is no running order yet"}},
		{"a panel", func(_ *scoring.Category, p *scoring.Programme) { p.Panel = nil }, []string{"no judge is on its panel", "there is no running order yet"}},
		{"seats to leave out", func(_ *scoring.Category, p *scoring.Programme) {
			p.Method.Name, p.Method.Trim, p.Panel = scoring.TrimmedMean, 1, p.Panel[:4]
		}, []string{"its method (trimmed mean) needs 5 seats, and there are 4: it would be scored by the mean", "there is no running order yet"}},
		{"pilots", func(c *scoring.Category, _ *scoring.Programme) { c.Entries = nil }, []string{"no pilot is entered"}},
		{"pilots to compare", func(c *scoring.Category, _ *scoring.Programme) { c.Entries = c.Entries[:3] }, []string{
			"its method (consensus) needs 5 pilots, and there are 3: it would be scored by the mean", "there is no running order yet",
		}},
		{"a programme", func(c *scoring.Category, _ *scoring.Programme) { c.Programmes = nil }, []string{"there is no programme yet"}},
	} {
		b := bundleOf(t, "101")
		b.Categories = b.Categories[:1]
		first := &b.Categories[0]
		first.Programmes = first.Programmes[:1]
		p := &first.Programmes[0]
		p.Flights, p.Method = nil, scoring.DefaultMethod(scoring.Consensus)
		c.change(first, p)
		if got := s.setUpNeeds(s.imports(b, db.Closed)); !slices.Equal(got, c.want) {
			t.Errorf("without %s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestNeedsOfUnseenResults publishes of a contest that nobody may see.
func TestNeedsOfUnseenResults(t *testing.T) {
	t.Parallel()
	s := start(t)
	for _, opened := range []string{db.Closed, db.Published} {
		id := s.imports(bundleOf(t, "108"), opened)
		programme := get[api.Contest](s, "/api/v1/contests/"+id.String()).Categories[0].Programmes[0].ID
		if _, _, err := s.db.Publish(t.Context(), db.Scope{Programme: programme}, db.Publishing{State: publication.Provisional}, signer); err != nil {
			t.Fatal(err)
		}
		if got := len(s.setUpNeeds(id)) > 0; got != (opened == db.Closed) {
			t.Errorf("%s: the office is told: %v", opened, got)
		}
	}
}

// setUpNeeds are the texts of what a contest's set-up and running orders lack.
func (s *service) setUpNeeds(contest uuid.UUID) (texts []string) {
	s.t.Helper()
	for _, n := range get[api.NeedList](s, "/api/v1/contests/"+contest.String()+"/needs").Needs {
		if n.Kind == "setup" || n.Kind == "order" {
			texts = append(texts, n.Text)
		}
	}
	return texts
}
