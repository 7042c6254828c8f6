package demo

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"slices"

	"halfpoint/scoring"
	"halfpoint/scoring/figure"
)

//go:embed figures.json
var figuresJSON []byte

// readFigures reads the figures that the demo's sequences are made of.
func readFigures() ([]scoring.Item, error) {
	var raw []json.RawMessage
	if err := json.Unmarshal(figuresJSON, &raw); err != nil {
		return nil, fmt.Errorf("reading the demo's figures: %w", err)
	}
	items := make([]scoring.Item, len(raw))
	for i, text := range raw {
		var one struct {
			K        json.Number     `json:"k"`
			Elements []string        `json:"elements"`
			Entry    json.RawMessage `json:"entry"`
			Moves    json.RawMessage `json:"moves"`
		}
		if err := json.Unmarshal(text, &one); err != nil {
			return nil, fmt.Errorf("reading figure %d of the demo: %w", i, err)
		}
		k, err := one.K.Int64()
		if err != nil {
			return nil, fmt.Errorf("reading figure %d of the demo: its K: %w", i, err)
		}
		items[i] = scoring.Item{Kind: scoring.Figure, K: scoring.K(10 * k), Elements: one.Elements, Entry: one.Entry, Moves: one.Moves}
	}
	return items, nil
}

// draw is a generator that belongs to a name, so that one part of the contest
// does not move when another changes.
func draw(name string) *rand.Rand {
	h := fnv.New64a()
	_, _ = h.Write([]byte(name)) // a hash never fails
	return rand.New(rand.NewPCG(seed, h.Sum64()))
}

// runningOrder draws an order of n flights.
func runningOrder(name string, n int) []int { return draw("order " + name).Perm(n) }

// compose draws figures until they make a sequence without an error: begun
// and ended upright, no figure twice, within the level's K.
func compose(l *level, figures []scoring.Item, name string) *scoring.Sequence {
	random := draw("sequence " + name)
	for {
		s := &scoring.Sequence{}
		for _, at := range random.Perm(len(figures)) {
			if len(s.Items) == l.figures {
				break
			}
			if tried := append(slices.Clip(s.Items), figures[at]); flyable(tried, l, len(tried) == l.figures) {
				s.Items = tried
			}
		}
		if len(s.Items) == l.figures {
			s.Items = append(s.Items, scoring.Item{Kind: scoring.Overall, K: 100, Name: "Positioning"})
			return s
		}
	}
}

// flyable tells whether the figures follow from each other, within the
// level's limits and, once whole, upright at the end and along the box.
func flyable(items []scoring.Item, l *level, whole bool) bool {
	checked, err := l.check(items, whole, nil)
	if err != nil {
		return false
	}
	end := checked.Items[len(items)-1].Exit
	if !checked.Clean() || end == nil || end.Inverted && !l.inverted {
		return false
	}
	return !whole || !end.Inverted && end.Heading%180 == 0
}

// check holds items against the level's limits.
func (l *level) check(items []scoring.Item, whole bool, table figure.Table) (figure.Checked, error) {
	limits, err := l.limits(whole)
	if err != nil {
		return figure.Checked{}, err
	}
	text, err := json.Marshal(map[string]any{"items": items, "limits": limits})
	if err != nil {
		return figure.Checked{}, err
	}
	s, err := figure.ReadSequence(text, table)
	if err != nil {
		return figure.Checked{}, err
	}
	return figure.Check(s, table), nil
}

// limits are what a sequence of the level must keep; while it is not whole, at
// most.
func (l *level) limits(whole bool) (json.RawMessage, error) {
	limits := map[string]any{
		"max_figures": l.figures, "max_k": l.maxK, "max_figure_k": maxFigureK, "max_turns": 2,
		"rotations_per_line": figure.DefaultRotationsPerLine, "repeat_allowed": []string{"9.1.", "9.4."},
	}
	if whole {
		limits["min_figures"], limits["min_k"] = l.figures, l.minK
	}
	return json.Marshal(limits)
}

// maxFigureK is the K of one figure at most.
const maxFigureK = 25
