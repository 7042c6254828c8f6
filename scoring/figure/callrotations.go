package figure

import "slices"

// sayLine tells the rotations of the lines in a row that begin with move i.
func (c *caller) sayLine(i int) {
	text, last := "", c.spun(i)
	list := c.inRow(i)
	for k := range list {
		text = c.join(text, c.rotation(&list[k], last))
		last = &list[k]
	}
	s, known := c.from(i)
	if text == "" || !known || c.shape == LevelLine {
		c.add(text)
		return
	}
	c.add(phrase(c.onLine(s), text))
}

// spun is the spin before a line, which is the first rotation of it; nil for a
// line after any other move.
func (c *caller) spun(line int) *Rotation {
	if line == 0 || c.moves[line-1].Kind != Spin {
		return nil
	}
	return &Rotation{Left: c.moves[line-1].Left}
}

// inRow are the rotations of the lines in a row that begin with move i.
func (c *caller) inRow(i int) []Rotation {
	list := c.moves[i].Rotations
	for _, m := range c.moves[i+1:] {
		if m.Kind != Line {
			break
		}
		if len(m.Rotations) > 0 {
			list = slices.Concat(list, m.Rotations)
		}
	}
	return list
}

// rotations tells several in a row.
func (c *caller) rotations(list []Rotation) string {
	text := ""
	for i := range list {
		last := (*Rotation)(nil)
		if i > 0 {
			last = &list[i-1]
		}
		text = c.join(text, c.rotation(&list[i], last))
	}
	return text
}

func (c *caller) join(text, next string) string {
	if text == "" {
		return next
	}
	return text + c.And + next
}

func (c *caller) onLine(s State) string {
	switch {
	case s.Level():
		return c.OnLevel
	case s.Vertical() && s.Up():
		return c.OnVerticalUp
	case s.Vertical():
		return c.OnVerticalDown
	case s.Up():
		return c.On45Up
	}
	return c.On45Down
}

// rotation tells one, opposite where the last one before it on its line went
// to the other side.
func (c *caller) rotation(r, last *Rotation) string {
	var text string
	switch {
	case r.Kind == Roll && r.Points > 0:
		text = c.pointRoll(r.Quarters*r.Points/4, r.Points)
	case r.Kind == Roll:
		text = at(c.Rolls[:], r.Quarters)
	case r.Kind == Flick:
		text = at(c.Flicks[:], r.Quarters)
	default:
		text = at(c.OutsideFlicks[:], r.Quarters)
	}
	if last != nil && last.Left != r.Left {
		text = phrase(c.Opposite, text)
	}
	return text
}

// pointRoll tells a roll of so many points of 2, 4 or 8.
func (c *caller) pointRoll(count, points int) string {
	form := struct{ whole, one, some string }{c.EightPoint, c.OfEight, c.OfEight}
	switch points {
	case 2:
		form.whole, form.one, form.some = c.TwoPoint, c.OneOfTwo, c.OfTwo
	case 4:
		form.whole, form.one, form.some = c.FourPoint, c.OneOfFour, c.OfFour
	}
	switch count {
	case points:
		return form.whole
	case 1:
		return phrase(form.one, at(c.Counts[:], 1))
	}
	return phrase(form.some, at(c.Counts[:], count))
}

// at is the nth text of a list counted from 1, empty outside it.
func at(list []string, n int) string {
	if n < 1 || n > len(list) {
		return ""
	}
	return list[n-1]
}
