package figure

import (
	"slices"
	"strconv"
	"strings"
)

// checkNumbers reads the catalogue numbers and holds K against their sum and
// against the organiser's table.
func (c *checker) checkNumbers() {
	c.numbers = make([][]number, len(c.Items))
	for i := range c.Items {
		if !c.Items[i].Overall {
			c.checkForm(i)
			c.checkSum(i)
		}
	}
}

// checkForm keeps the well formed numbers of an item and tells of the others.
func (c *checker) checkForm(i int) {
	var malformed, unknown []string
	for _, text := range c.Items[i].Elements {
		n, ok := parseNumber(text)
		if !ok {
			malformed = append(malformed, strconv.Quote(text))
			continue
		}
		c.numbers[i] = append(c.numbers[i], n)
		if _, there := c.table[text]; !there && c.table != nil {
			unknown = append(unknown, text)
		}
	}
	if level, text := c.formWords(i, malformed, unknown); text != "" {
		c.find(i, RuleNumber, level, text)
	}
}

// formWords say what is wrong with the catalogue numbers of an item, and how
// wrong; nothing where all is well.
func (c *checker) formWords(i int, malformed, unknown []string) (level Level, text string) {
	level = Remark
	var texts []string
	if len(malformed) > 0 {
		level = Error
		texts = append(texts, strings.Join(malformed, ", ")+": a catalogue number is four numbers with dots between them, such as 5.2.1.1; "+
			"one of the older three-part form has to be replaced by that of the present catalogue")
	}
	if len(unknown) > 0 {
		texts = append(texts, "not in the organiser's table: "+strings.Join(unknown, ", "))
	}
	if len(c.Items[i].Elements) == 0 && c.Limits != nil {
		texts = append(texts, "no catalogue numbers: the limits on them were not checked for this figure")
	}
	return level, strings.Join(texts, "; ")
}

// checkSum tells where K is not the sum of the numbers' K, given or the
// table's.
func (c *checker) checkSum(i int) {
	item := &c.Items[i]
	var texts []string
	if item.ElementK != nil {
		texts = append(texts, elementSum(item)...)
	}
	if total, missing := c.table.sum(item.Elements); len(item.Elements) > 0 && len(missing) == 0 && total != item.K {
		texts = append(texts, "K is "+item.K.String()+", the organiser's table adds up to "+total.String())
	}
	if len(item.ElementK) == len(item.Elements) {
		for j, k := range item.ElementK {
			if listed, there := c.table[item.Elements[j]]; there && listed != k {
				texts = append(texts, "K of "+item.Elements[j]+" is "+k.String()+", in the organiser's table "+listed.String())
			}
		}
	}
	if len(texts) > 0 {
		c.find(i, RuleSumOfK, Error, strings.Join(texts, "; "))
	}
}

func elementSum(item *Item) []string {
	if len(item.ElementK) != len(item.Elements) {
		return []string{strconv.Itoa(len(item.ElementK)) + " K for " + strconv.Itoa(len(item.Elements)) + " numbers"}
	}
	var total K
	for _, k := range item.ElementK {
		total += k
	}
	if total == item.K || len(item.Elements) == 0 {
		return nil
	}
	return []string{"K is " + item.K.String() + ", the K of its numbers add up to " + total.String()}
}

// checkOrder tells of every figure after an overall mark.
func (c *checker) checkOrder() {
	marked := false
	for i := range c.Items {
		if c.Items[i].Overall {
			marked = true
		} else if marked {
			c.find(i, RuleOrder, Error, "a figure after an overall mark; figures come first")
		}
	}
}

// checkTotals holds the number of figures and the sum of their K against the
// limits.
func (c *checker) checkTotals() {
	l, figures, total := c.Limits, c.result.Figures, c.result.TotalK
	if l.MaxFigures > 0 && figures > l.MaxFigures {
		c.find(-1, RuleMaxFigures, Error, counted(figures), "; at most ", strconv.Itoa(l.MaxFigures), " are allowed")
	}
	if figures < l.MinFigures {
		c.find(-1, RuleMinFigures, Error, counted(figures), "; at least ", strconv.Itoa(l.MinFigures), " are needed")
	}
	if l.MaxK > 0 && total > l.MaxK {
		level, within := Error, ""
		if total <= l.MaxK+l.KTolerance {
			level, within = Remark, ", within the tolerance of "+l.KTolerance.String()
		}
		c.find(-1, RuleMaxK, level, "the sum of K is ", total.String(), "; at most ", l.MaxK.String(), " is allowed", within)
	}
	if total < l.MinK {
		c.find(-1, RuleMinK, Error, "the sum of K is ", total.String(), "; at least ", l.MinK.String(), " is needed")
	}
}

func counted(figures int) string {
	if figures == 1 {
		return "1 figure"
	}
	return strconv.Itoa(figures) + " figures"
}

// checkFigures holds single figures against the limits.
func (c *checker) checkFigures() {
	l := c.Limits
	for i := range c.Items {
		item := &c.Items[i]
		if item.Overall {
			continue
		}
		if l.MaxFigureK > 0 && item.K > l.MaxFigureK {
			c.find(i, RuleMaxFigureK, Error, "K ", item.K.String(), "; at most ", l.MaxFigureK.String(), " is allowed for one figure")
		}
		most := mostQuarters(item.Moves)
		if l.MaxQuarters > 0 && len(item.MoveErrors) == 0 && most > l.MaxQuarters {
			c.find(i, RuleMaxTurns, Error, string(appendShare(nil, most, 4)), " turns in one rotation; at most ",
				string(appendShare(nil, l.MaxQuarters, 4)), " are allowed")
		}
	}
}

// mostQuarters is the largest rotation or spin of a figure.
func mostQuarters(moves []Move) (most int) {
	for _, m := range moves {
		most = max(most, m.Quarters)
		for _, r := range m.Rotations {
			most = max(most, r.Quarters)
		}
	}
	return most
}

// checkRepeats tells of every item with a number that stood before, in the
// item itself or an earlier one.
func (c *checker) checkRepeats() {
	if c.Limits.RepeatAll {
		return
	}
	first := make(map[number]int, 2*len(c.Items))
	for i, numbers := range c.numbers {
		var again []string
		for _, n := range numbers {
			at, there := first[n]
			if !there {
				first[n] = i
			} else if !covered(n, c.Limits.Repeat) {
				again = append(again, n.String()+" stands in figure "+strconv.Itoa(at+1)+" already")
			}
		}
		if len(again) > 0 {
			c.find(i, RuleRepeat, Error, strings.Join(again, "; "))
		}
	}
}

func covered(n number, prefixes []Prefix) bool {
	return slices.ContainsFunc(prefixes, func(p Prefix) bool { return p.covers(n) })
}

// checkRequired holds what figures carry against what is required.
func (c *checker) checkRequired() {
	for _, r := range c.Limits.Require {
		carry := 0
		for _, numbers := range c.numbers {
			if slices.ContainsFunc(numbers, func(n number) bool { return covered(n, r.Any) }) {
				carry++
			}
		}
		if carry < r.Least {
			c.find(-1, RuleRequire, Error, counted(carry), " with ", either(r.Any), "; at least ", strconv.Itoa(r.Least), " needed")
		} else if r.Most > 0 && carry > r.Most {
			c.find(-1, RuleRequire, Error, counted(carry), " with ", either(r.Any), "; at most ", strconv.Itoa(r.Most), " allowed")
		}
	}
}

// checkForbidden tells of every figure that carries what is forbidden.
func (c *checker) checkForbidden() {
	for i, numbers := range c.numbers {
		var forbidden []string
		for _, n := range numbers {
			if covered(n, c.Limits.Forbid) {
				forbidden = append(forbidden, n.String())
			}
		}
		if len(forbidden) > 0 {
			c.find(i, RuleForbid, Error, strings.Join(forbidden, ", "), " not allowed")
		}
	}
}

func either(prefixes []Prefix) string {
	texts := make([]string, len(prefixes))
	for i, p := range prefixes {
		texts[i] = p.String()
	}
	return strings.Join(texts, " or ")
}
