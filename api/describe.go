package api

import (
	"log/slog"

	"halfpoint/scoring"
	"halfpoint/scoring/figure"
	"halfpoint/scoring/figure/draw"
)

// described is what is said of the items of a sequence, by their numbers; those
// with nothing to say are left out.
type described map[int]*description

type description struct {
	name     string
	call     *string
	crowd    string
	drawings *Drawings // of a figure with moves
}

// describe names, calls and draws the figures of a sequence, nil for none. One
// that cannot be read is shown without.
func describe(s *scoring.Sequence) described {
	if s == nil {
		return nil
	}
	figures, err := s.Figures()
	if err != nil {
		slog.Error("a stored sequence cannot be followed", "error", err)
		return nil
	}
	checked, said := figure.Check(figures, nil), described{}
	for i := range checked.Items {
		if item := &checked.Items[i]; item.Name != nil || item.Call != nil {
			said[item.Item] = &description{name: or(item.Name), call: item.Call, crowd: or(item.Crowd)}
		}
	}
	for _, f := range draw.Subjects(figures, checked) {
		if len(f.Moves) > 0 && said[f.Item] != nil {
			drawings := drawingsOf(f.Subject)
			said[f.Item].drawings = &drawings
		}
	}
	return said
}
