package figure

import (
	"cmp"
	"unicode"
	"unicode/utf8"
)

// Describe puts a figure into words: its name, empty where it has none, the
// caller's words and those for a crowd. trace is what Follow made of the moves;
// moves behind a fault are told without saying where they are flown. The words
// name no side, so that the same figure flown to the other side of the box is
// called the same.
func (l *Language) Describe(moves []Move, trace Trace) Words {
	shape := ShapeOf(moves, trace)
	call := caller{Language: l, moves: moves, trace: trace, shape: shape, text: make([]byte, 0, 160)}
	call.say()
	look := cmp.Or(l.Look[shape], l.lookFor(moves))
	if mostQuarters(moves) == 0 {
		look = cmp.Or(l.LookPlain[shape], look)
	}
	return Words{Name: l.Names[shape], Call: string(call.text), Crowd: call.crowd() + " " + look}
}

// A caller writes one figure's call.
type caller struct {
	*Language
	moves []Move
	trace Trace
	shape Shape
	text  []byte
	said  int // phrases so far, the name not counted
}

func (c *caller) say() {
	c.text = append(c.text, c.head()...)
	for i := range c.moves {
		c.sayMove(i)
	}
	c.sayOut()
	c.text = append(c.text, c.End...)
	capitalise(c.text)
}

// add writes a phrase behind the name or the phrase before.
func (c *caller) add(text string) {
	switch {
	case text == "":
		return
	case c.said > 0:
		c.text = append(c.text, c.Between...)
	case len(c.text) > 0:
		c.text = append(c.text, c.AfterName...)
	}
	c.said++
	c.text = append(c.text, text...)
}

// capitalise makes the first letter a capital, in place where it takes as many
// bytes.
func capitalise(text []byte) {
	first, size := utf8.DecodeRune(text)
	if upper := unicode.ToUpper(first); utf8.RuneLen(upper) == size {
		utf8.EncodeRune(text, upper)
	}
}

// head is the name with what it takes to tell figures of the same name apart.
func (c *caller) head() string {
	name := c.Names[c.shape]
	switch c.shape {
	case "", PlainTurn, RollingTurn:
		return ""
	case LevelLine:
		if mostQuarters(c.moves) > 0 {
			return ""
		}
		return name
	case Hammerhead, TailSlide, SpinFigure, VerticalS, HalfCuban, CubanEight, HorizontalS:
		return name
	}
	up := c.goesUp()
	if c.moves[c.firstArc()].Push && (c.shape == Loop || c.shape == HalfLoopUp || c.shape == HalfLoopDown) {
		name = phrase(c.OutsideName, name)
	}
	switch {
	case c.shape == HalfLoopUp || c.shape == HalfLoopDown:
	case !up:
		name = phrase(c.NameDown, name)
	case c.shape == VerticalLine || c.shape == InclinedLine:
		name = phrase(c.NameUp, name)
	}
	return name
}

func (c *caller) firstArc() int {
	for i, m := range c.moves {
		if m.Kind == Arc {
			return i
		}
	}
	return 0
}

// goesUp tells where the first arc of a figure with a name leads.
func (c *caller) goesUp() bool {
	first := c.firstArc()
	return c.trace.States[first].arc(45, c.moves[first].Push).Up()
}

// from is the state a move begins in, if it was followed so far.
func (c *caller) from(move int) (State, bool) {
	if move < len(c.trace.States) {
		return c.trace.States[move], true
	}
	return State{}, false
}

func (c *caller) sayMove(i int) {
	m := c.moves[i]
	switch m.Kind {
	case Line:
		if i == 0 || c.moves[i-1].Kind != Line {
			c.sayLine(i)
		}
	case Arc:
		c.sayArc(i)
	case Turn:
		c.sayTurn(m)
	case Pivot:
		if c.shape != Hammerhead {
			c.add(c.StallTurn)
		}
	case Slide:
		c.saySlide(m)
	case Spin:
		turns := at(c.SpinTurns[:], m.Quarters)
		if c.shape != SpinFigure {
			turns = phrase(c.Language.Spin, turns)
		}
		c.add(turns)
	}
}

func (c *caller) saySlide(m Move) {
	side := c.CanopyDown
	if m.CanopyUp {
		side = c.CanopyUp
	}
	if c.shape != TailSlide {
		side = phrase(c.Language.Slide, side)
	}
	c.add(side)
}

// ends tells whether the figure was followed to its end, in level flight.
func (c *caller) ends() bool {
	if len(c.trace.States) <= len(c.moves) {
		return false
	}
	_, level := c.trace.States[len(c.moves)].Attitude()
	return level
}

// lastArc is the arc that brings the figure out, -1 where no short arc does.
func (c *caller) lastArc() int {
	for i := len(c.moves) - 1; i >= 0; i-- {
		m := c.moves[i]
		if m.Kind == Arc && m.Degrees < 135 {
			return i
		}
		if m.Kind != Line || len(m.Rotations) > 0 {
			break
		}
	}
	return -1
}

// sayOut tells how the figure ends: the way out where no name implies it, the
// attitude where it changed.
func (c *caller) sayOut() {
	if !c.ends() {
		return
	}
	end := c.trace.States[len(c.moves)]
	inverted, changed := end.Inverted(), c.changes(end)
	out := [2]string{c.OutUpright, c.OutInverted}
	plain := ""
	if last := c.lastArc(); last >= 0 && c.shape == "" {
		out, plain = [2]string{c.PullOutUpright, c.PullOutInverted}, c.PullOut
		if c.moves[last].Push {
			out, plain = [2]string{c.PushOutUpright, c.PushOutInverted}, c.PushOut
		}
	}
	switch {
	case !changed:
		c.add(plain)
	case inverted:
		c.add(out[1])
	default:
		c.add(out[0])
	}
}

// changes tells whether the figure ends in another attitude than it began in,
// or a rotation turned it over on the way where that can be seen.
func (c *caller) changes(end State) bool {
	if c.trace.States[0].Inverted() != end.Inverted() {
		return true
	}
	turned := 0
	for i, m := range c.moves {
		if m.Kind == Arc || m.Kind == Line && !c.trace.States[i].Vertical() {
			turned += sum(m.Rotations)
		}
	}
	return turned%4 != 0
}

// lookFor is the announcer's sentence for a figure without a name.
func (l *Language) lookFor(moves []Move) string {
	best, rank := l.LookArc, 0
	for _, m := range moves {
		text, r := l.striking(m)
		if r > rank {
			best, rank = text, r
		}
	}
	return best
}

// striking is what a crowd should look for in a move, and how much it should.
func (l *Language) striking(m Move) (text string, rank int) {
	switch m.Kind {
	case Spin:
		return l.LookSpin, 7
	case Slide:
		return l.LookSlide, 6
	case Pivot:
		return l.LookPivot, 5
	case Turn:
		if m.HalfRolls > 0 {
			return l.LookRollingTurn, 4
		}
	}
	for _, r := range m.Rotations {
		switch {
		case r.Kind != Roll:
			return l.LookFlick, 3
		case r.Points > 0:
			text, rank = l.LookPoints, 2
		case rank < 1:
			text, rank = l.LookRoll, 1
		}
	}
	return text, rank
}
