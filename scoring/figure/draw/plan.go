package draw

// A plan is a figure's lines and marks on the page, from the dot at its origin.
type plan struct {
	pieces []piece
	marks  []mark
	end    point // the bar, or the cross of a figure that was not followed to its end
	whole  bool
}

// box is the part of the page that lines, marks, dot and bar take up.
func (p *plan) box() box {
	if len(p.pieces) == 0 {
		return emptyBox
	}
	b := p.dotBox().join(p.barBox())
	for i := range p.pieces {
		b = b.around(p.pieces[i].b).around(p.pieces[i].c).around(p.pieces[i].d)
	}
	for i := range p.marks {
		b = b.join(p.marks[i].room)
	}
	return b
}

// dotBox is what the dot at the start takes up.
func (p *plan) dotBox() box {
	return box{}.grow(dotRadius)
}

// barBox is what the bar takes up, or the cross of a figure that was not
// followed to its end.
func (p *plan) barBox() box {
	b := box{p.end.x, p.end.y, p.end.x, p.end.y}
	if !p.whole {
		return b.grow(crossReach)
	}
	b.top, b.bottom = b.top-barReach, b.bottom+barReach
	return b.grow(1.2)
}
