package figure

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"halfpoint/scoring/document"
)

// Check follows every figure of a sequence, puts it into English words and
// holds the sequence against its limits and the organiser's table, nil for
// none.
func Check(s Sequence, table Table) Checked { return CheckIn(English(), s, table) }

// CheckIn is Check with the words of another language.
func CheckIn(language *Language, s Sequence, table Table) Checked {
	c := checker{Sequence: s, table: table, language: language, result: Checked{
		Items: make([]CheckedItem, len(s.Items)), Findings: []Finding{},
	}}
	c.follow()
	c.checkNumbers()
	c.checkOrder()
	if s.Limits != nil {
		c.checkTotals()
		c.checkFigures()
		c.checkRepeats()
		c.checkRequired()
		c.checkForbidden()
	}
	slices.SortStableFunc(c.result.Findings, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(a.Item, b.Item), cmp.Compare(a.Rule, b.Rule))
	})
	return c.result
}

// A checker holds a sequence and what was found about it so far.
type checker struct {
	Sequence
	table    Table
	language *Language
	numbers  [][]number // of each item, those that are well formed
	result   Checked
}

// find keeps a finding about an item counted from 0, -1 for the whole.
func (c *checker) find(item int, rule Rule, level Level, text ...string) {
	c.result.Findings = append(c.result.Findings, Finding{item + 1, rule, level, strings.Join(text, "")})
}

// flown is how far the tracing has come.
type flown struct {
	Attitude      // where the last figure with moves ended, or began if it has errors
	figure   int  // the last figure, from 0; -1 at the beginning
	traced   bool // whether that figure has an exit
}

// follow traces the attitude through the sequence and fills in the items.
func (c *checker) follow() {
	at := flown{Attitude{Inverted: c.Inverted}, -1, true}
	for i := range c.Items {
		item, out := &c.Items[i], &c.result.Items[i]
		out.Item, out.K, out.Errors = i+1, item.K, []document.Complaint{}
		if item.Overall {
			c.fillWords(out, item.Words)
			continue
		}
		c.result.Figures++
		c.result.TotalK += item.K
		c.checkAttitude(i, at)
		at.figure = i
		if !item.hasMoves() {
			at.traced = false
			c.fillWords(out, item.Words)
			continue
		}
		if item.Begins != nil {
			at.Inverted = item.Begins.Inverted
		}
		at.Attitude, at.traced = c.followItem(i, at.Attitude)
	}
}

// checkAttitude compares how a figure is drawn to begin with how the one
// before ended.
func (c *checker) checkAttitude(i int, at flown) {
	item := &c.Items[i]
	if at.traced {
		if item.Begins != nil && item.Begins.Inverted != at.Inverted {
			c.find(i, RuleAttitude, Error, "begins ", attitudeWord(item.Begins.Inverted), ", but ",
				before(at.figure), attitudeWord(at.Inverted))
		}
		return
	}
	if item.hasMoves() {
		c.find(i, RuleAttitude, Remark, "not traced: how figure ", strconv.Itoa(at.figure+1), " ends is not known")
	}
}

func before(figure int) string {
	if figure < 0 {
		return "the sequence begins "
	}
	return "figure " + strconv.Itoa(figure+1) + " ends "
}

// followItem follows one figure with moves from where it begins. It returns
// where the figure ended, or where it began if it has errors.
func (c *checker) followItem(i int, begin Attitude) (end Attitude, traced bool) {
	item, out := &c.Items[i], &c.result.Items[i]
	said := &struct {
		Words
		entry, exit Attitude
		across      bool
	}{entry: begin, across: begin.Across()}
	out.Entry, out.Across = &said.entry, &said.across
	out.Name, out.Call, out.Crowd = &said.Name, &said.Call, &said.Crowd
	end = begin
	if len(item.MoveErrors) > 0 {
		out.Errors = item.MoveErrors
	} else {
		trace := Follow(item.Moves, begin, c.rotationsPerLine())
		for _, fault := range trace.Faults {
			out.Errors = append(out.Errors, document.Complaint{Place: movePlace(i, fault.Move), Text: fault.Text})
		}
		said.Words = c.language.Describe(item.Moves, trace)
		if exit, ok := trace.Exit(); ok {
			said.exit, out.Exit, end, traced = exit, &said.exit, exit, true
		}
	}
	said.Words = item.Words.over(said.Words)
	return end, traced
}

func (c *checker) rotationsPerLine() int {
	if c.Limits == nil || c.Limits.RotationsPerLine == 0 {
		return DefaultRotationsPerLine
	}
	return c.Limits.RotationsPerLine
}

// fillWords gives an item without moves the words the pilot gave, and no
// others.
func (c *checker) fillWords(out *CheckedItem, words Words) {
	for _, w := range []struct {
		to   **string
		text string
	}{{&out.Name, words.Name}, {&out.Call, words.Call}, {&out.Crowd, words.Crowd}} {
		if w.text != "" {
			*w.to = &w.text
		}
	}
}

// over puts the words given before the generated ones.
func (w Words) over(generated Words) Words {
	return Words{
		Name:  cmp.Or(w.Name, generated.Name),
		Call:  cmp.Or(w.Call, generated.Call),
		Crowd: cmp.Or(w.Crowd, generated.Crowd),
	}
}

func movePlace(item, move int) string {
	return "items[" + strconv.Itoa(item) + "].moves[" + strconv.Itoa(move) + "]"
}
