package figure

// sayArc tells an arc that the name does not imply, and what is rolled at its
// apex.
func (c *caller) sayArc(i int) {
	m := c.moves[i]
	s, known := c.from(i)
	ends := i == c.lastArc() && c.ends()
	switch {
	case c.shape == Loop || c.shape == HalfLoopUp || c.shape == HalfLoopDown:
	case m.Degrees >= 135:
		c.add(c.loopPart(m, s, known))
	case c.shape == "" && !ends:
		c.add(c.leadTo(m, s, known))
	}
	if len(m.Rotations) > 0 {
		c.add(phrase(c.apex(m, s), c.rotations(m.Rotations)))
	}
}

// loopPart tells an arc as part of a loop and where it goes.
func (c *caller) loopPart(m Move, s State, known bool) string {
	list := &c.Loops
	if m.Push {
		list = &c.OutsideLoops
	}
	part := at(list[:], m.Degrees/45)
	if !known {
		return part
	}
	switch up := s.arc(45, m.Push).Up(); {
	case s.Level() && !up:
		return phrase(c.ArcDown, part)
	case s.Level() && m.Degrees == 180:
		return phrase(c.ArcUp, part)
	case s.Vertical() && m.Degrees == 180 && up:
		return phrase(c.ArcOver, part)
	case s.Vertical() && m.Degrees == 180:
		return phrase(c.ArcUnder, part)
	}
	return part
}

// leadTo tells a short arc by the line it leads to.
func (c *caller) leadTo(m Move, s State, known bool) string {
	if !known {
		return c.loopPart(m, s, false)
	}
	verb := c.Pull
	if m.Push {
		verb = c.Push
	}
	to := c.Level
	switch end := s.arc(m.Degrees, m.Push); {
	case end.Vertical() && end.Up():
		to = c.VerticalUp
	case end.Vertical():
		to = c.VerticalDown
	case end.Up():
		to = c.Up45
	case end.Down():
		to = c.Down45
	}
	return phrase(verb, to)
}

// apex is the template for what is rolled on an arc: at its highest or lowest
// point.
func (c *caller) apex(m Move, s State) string {
	degrees, known := apexAt(m)
	if before := s.arc(max(degrees-45, 0), m.Push); known && before.Down() {
		return c.AtBottom
	}
	return c.AtTop
}

func (c *caller) sayTurn(m Move) {
	if m.HalfRolls == 0 {
		c.add(at(c.Turns[:], m.Degrees/90))
		return
	}
	c.add(at(c.RollingTurns[:], m.Degrees/90))
	side := c.Outward
	alternate := m.Alternate && m.HalfRolls > 2
	switch {
	case alternate && m.Inward:
		side = c.AlternateInward
	case alternate:
		side = c.AlternateOutward
	case m.Inward:
		side = c.Inward
	}
	c.add(phrase(side, at(c.TurnRolls[:], m.HalfRolls)))
}
