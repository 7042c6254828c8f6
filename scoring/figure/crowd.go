package figure

import "strings"

// A CrowdLanguage is what a crowd is told of a figure, which has seen few of
// them and knows no trade word. A {} in a text is where another stands.
type CrowdLanguage struct {
	Names     map[Shape]string `json:"names"`
	NamesDown map[Shape]string `json:"names_down"` // where the first arc leads down, if that says more
	Outside   string           `json:"outside"`    // of a loop that is pushed

	OneRoll  string     `json:"one_roll"` // up to a whole one
	TwoSteps string     `json:"two_steps"`
	Four     string     `json:"four_steps"`
	Eight    string     `json:"eight_steps"`
	Steps    string     `json:"steps"` // of a roll that is not one whole
	Opposite string     `json:"opposite"`
	Circle   [4]string  `json:"circle"` // by quarters
	Loops    [8]string  `json:"loops"`  // by eighths
	Turned   [16]string `json:"turned"` // a rolling turn's rolls, by halves

	OnLevel        string `json:"on_level"`
	OnSlopeUp      string `json:"on_slope_up"`
	OnSlopeDown    string `json:"on_slope_down"`
	OnVerticalUp   string `json:"on_vertical_up"`
	OnVerticalDown string `json:"on_vertical_down"`
	AtTop          string `json:"at_top"`
	AtBottom       string `json:"at_bottom"`

	ToLevel        string `json:"to_level"`
	ToSlopeUp      string `json:"to_slope_up"`
	ToSlopeDown    string `json:"to_slope_down"`
	ToVerticalUp   string `json:"to_vertical_up"`
	ToVerticalDown string `json:"to_vertical_down"`

	Turn  string `json:"turn"`
	Pivot string `json:"pivot"`
	Slide string `json:"slide"`
	Spin  string `json:"spin"`

	With        string `json:"with"` // between a name and what is done on the way
	Then        string `json:"then"`
	EndUpright  string `json:"end_upright"`
	EndInverted string `json:"end_inverted"`
}

// crowd tells the figure to people who see it for the first time: its shape, or
// its way where it has no name, what is rolled where, and which way up it ends.
func (c *caller) crowd() string {
	text := []byte(c.crowdText() + c.crowdEnd() + c.End)
	capitalise(text)
	return string(text)
}

func (c *caller) crowdText() string {
	var parts []string
	for i := range c.moves {
		parts = append(parts, c.crowdMove(i)...)
	}
	name := c.crowdName()
	switch {
	case name == "" && len(parts) == 0:
		return c.Crowd.Names[LevelLine]
	case name == "":
		return strings.Join(parts, c.Crowd.Then)
	case len(parts) == 0:
		return name
	}
	return name + c.Crowd.With + strings.Join(parts, c.Crowd.Then)
}

// crowdName is the shape's, empty where the way has to be told.
func (c *caller) crowdName() string {
	if c.shape == PlainTurn || c.shape == RollingTurn {
		return "" // the move says all
	}
	name := c.Crowd.Names[c.shape]
	if down, other := c.Crowd.NamesDown[c.shape]; other && !c.goesUp() {
		name = down
	}
	if c.shape == Loop || c.shape == HalfLoopUp || c.shape == HalfLoopDown {
		if c.moves[c.firstArc()].Push {
			name = phrase(c.Crowd.Outside, name)
		}
	}
	return name
}

// crowdMove tells what a move adds to the shape's name; without one it tells the
// way too.
func (c *caller) crowdMove(i int) []string {
	m := c.moves[i]
	s, known := c.from(i)
	switch {
	case m.Kind == Line && i > 0 && c.moves[i-1].Kind == Line:
		return nil // told with the line it goes on from
	case m.Kind == Line:
		return c.crowdRolls(c.inRow(i), c.spun(i), c.crowdLine(s, known))
	case m.Kind == Turn:
		return c.crowdTurn(m)
	case m.Kind == Spin && (c.shape == "" || c.shape == SpinFigure):
		return []string{phrase(c.Crowd.Spin, at(c.SpinTurns[:], m.Quarters))}
	case m.Kind == Arc:
		return append(c.crowdWay(m, s, known), c.crowdRolls(m.Rotations, nil, c.crowdApex(m, s))...)
	case c.shape == "" && m.Kind == Pivot:
		return []string{c.Crowd.Pivot}
	case c.shape == "" && m.Kind == Slide:
		return []string{c.Crowd.Slide}
	}
	return nil
}

// crowdWay tells where an arc of a figure without a name leads.
func (c *caller) crowdWay(m Move, s State, known bool) []string {
	switch {
	case c.shape != "":
		return nil
	case m.Degrees >= 135 || !known:
		return []string{at(c.Crowd.Loops[:], m.Degrees/45)}
	}
	to := c.Crowd.ToLevel
	switch end := s.arc(m.Degrees, m.Push); {
	case end.Vertical() && end.Up():
		to = c.Crowd.ToVerticalUp
	case end.Vertical():
		to = c.Crowd.ToVerticalDown
	case end.Up():
		to = c.Crowd.ToSlopeUp
	case end.Down():
		to = c.Crowd.ToSlopeDown
	}
	return []string{to}
}

func (c *caller) crowdTurn(m Move) []string {
	text := phrase(c.Crowd.Turn, at(c.Crowd.Circle[:], m.Degrees/90))
	if m.HalfRolls > 0 {
		text += c.Crowd.With + at(c.Crowd.Turned[:], m.HalfRolls)
	}
	return []string{text}
}

// crowdRolls tells what is rolled in a row, at one place, after the rotation
// last, if any.
func (c *caller) crowdRolls(list []Rotation, last *Rotation, place string) []string {
	var rolls []string
	for i := range list {
		text := c.crowdRoll(&list[i])
		if last != nil && last.Left != list[i].Left {
			text = phrase(c.Crowd.Opposite, text)
		}
		rolls, last = append(rolls, text), &list[i]
	}
	if len(rolls) == 0 {
		return nil
	}
	return []string{phrase(place, strings.Join(rolls, c.And))}
}

func (c *caller) crowdRoll(r *Rotation) string {
	whole := map[int]string{2: c.Crowd.TwoSteps, 4: c.Crowd.Four, 8: c.Crowd.Eight}
	var text string
	switch {
	case r.Points > 0 && r.Quarters == 4:
		return whole[r.Points]
	case r.Kind == Roll && r.Quarters*r.Points > 4: // with a stop on the way
		text = phrase(c.Crowd.Steps, at(c.Rolls[:], r.Quarters))
	case r.Kind == Roll:
		text = at(c.Rolls[:], r.Quarters)
	default:
		text = at(c.Flicks[:], r.Quarters)
	}
	if r.Quarters > 4 {
		return text
	}
	return phrase(c.Crowd.OneRoll, text)
}

func (c *caller) crowdLine(s State, known bool) string {
	switch {
	case !known || c.shape == LevelLine:
		return "{}"
	case s.Level():
		return c.Crowd.OnLevel
	case s.Vertical() && s.Up():
		return c.Crowd.OnVerticalUp
	case s.Vertical():
		return c.Crowd.OnVerticalDown
	case s.Up():
		return c.Crowd.OnSlopeUp
	}
	return c.Crowd.OnSlopeDown
}

func (c *caller) crowdApex(m Move, s State) string {
	if c.apex(m, s) == c.Language.AtBottom {
		return c.Crowd.AtBottom
	}
	return c.Crowd.AtTop
}

// crowdEnd tells which way up the figure ends, where that changes.
func (c *caller) crowdEnd() string {
	if !c.ends() {
		return ""
	}
	end := c.trace.States[len(c.moves)]
	switch {
	case c.trace.States[0].Inverted() == end.Inverted():
		return ""
	case end.Inverted():
		return c.Crowd.EndInverted
	}
	return c.Crowd.EndUpright
}
