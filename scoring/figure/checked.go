package figure

import (
	"halfpoint/scoring/document"
)

// Checked is what is to be said about a sequence, as halfpoint sequence prints
// it.
type Checked struct {
	Items    []CheckedItem `json:"items"`
	Findings []Finding     `json:"findings"`
	TotalK   K             `json:"total_k"` // of the figures, without overall marks
	Figures  int           `json:"figures"`
}

// A CheckedItem is one item, followed and put into words. What speaks of moves
// is nil where the item has none, Exit also where it has errors; words that
// the pilot gave stand in any case.
type CheckedItem struct {
	Item   int                  `json:"item"` // from 1
	K      K                    `json:"k"`
	Name   *string              `json:"name,omitempty"`
	Call   *string              `json:"call,omitempty"`
	Crowd  *string              `json:"crowd,omitempty"`
	Entry  *Attitude            `json:"entry,omitempty"`
	Exit   *Attitude            `json:"exit,omitempty"`
	Across *bool                `json:"across,omitempty"` // begins across the box
	Errors []document.Complaint `json:"errors"`
}

// Level tells an error from a remark.
type Level string

// The levels of findings. A sequence with errors is accepted only for a reason
// that is kept.
const (
	Error  Level = "error"
	Remark Level = "remark"
)

// Rule names what a finding is about.
type Rule string

// The rules.
const (
	RuleAttitude   Rule = "attitude"
	RuleMaxFigures Rule = "max_figures"
	RuleMinFigures Rule = "min_figures"
	RuleMaxK       Rule = "max_k"
	RuleMinK       Rule = "min_k"
	RuleMaxFigureK Rule = "max_figure_k"
	RuleMaxTurns   Rule = "max_turns"
	RuleRepeat     Rule = "repeat"
	RuleRequire    Rule = "require"
	RuleForbid     Rule = "forbid"
	RuleOrder      Rule = "order"
	RuleSumOfK     Rule = "sum_of_k"
	RuleNumber     Rule = "number"
)

// A Finding is one rule that an item, or the sequence, does not keep.
type Finding struct {
	Item  int    `json:"item"` // from 1; 0 for the whole sequence
	Rule  Rule   `json:"rule"`
	Level Level  `json:"level"`
	Text  string `json:"text"`
}

// Clean tells whether no error stands, with remarks or without.
func (c *Checked) Clean() bool {
	for _, f := range c.Findings {
		if f.Level == Error {
			return false
		}
	}
	for _, item := range c.Items {
		if len(item.Errors) > 0 {
			return false
		}
	}
	return true
}
