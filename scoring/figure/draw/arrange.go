package draw

import (
	"math"

	"halfpoint/scoring/figure"
)

// The page of a figure: all are drawn into the same, so that strokes, marks and
// letters are as large on every card. Only a figure with more marks than fit
// gets a larger one.
const (
	pageWidth  = 112.0
	pageHeight = 88.0
	pageMargin = 4.0
)

// radii are tried in turn, of every loop in a figure, until the figure fits.
var radii = [...]float64{22, 20, 18, 16, 14.5, 13, 11.5, 10, 8.5}

// lay sets a figure out on the page.
func lay(s Subject, wind Wind) drawing {
	d := newDrafter(s, wind)
	var best drawing
	least, most := math.Inf(1), radii[0]
	for i, radius := range radii {
		last := i == len(radii)-1
		if radius > most && !last {
			continue
		}
		d.radius = radius
		d.begin()
		p := d.draw()
		d.spare = plan{}
		if p.crowded() {
			return drawing{plan: p}
		}
		if b := p.box(); b.excess() > 0 && !last {
			most = radius * b.fits()
			d.spare = p
			continue
		}
		if found, cost := d.fit(p); cost < least {
			best, least = found, cost
		}
		if least == 0 {
			break
		}
	}
	return best
}

// begin takes all changes back. Of half loops over the top and through the bottom
// one after the other, which would close a ring, one is wider than the other.
func (d *drafter) begin() {
	clear(d.changes)
	for i := 2; i < len(d.legs); i++ {
		first, second := &d.legs[i-2], &d.legs[i]
		if first.halfLoop() && second.halfLoop() && first.Push == second.Push {
			d.changes[i-2], d.changes[i] = ringWider, -ringWider
		}
	}
}

// ringWider is how much larger and smaller such half loops are.
const ringWider = 5.0

// halfLoop tells half a loop from one vertical line to another.
func (l *leg) halfLoop() bool {
	return l.Kind == figure.Arc && l.Degrees == 180 && l.begin.Vertical()
}

// fit arranges a plan and labels it, and measures what is still wrong.
func (d *drafter) fit(p plan) (drawing, float64) {
	p, cost := d.arrange(p)
	found := drawing{plan: p, labels: place(p)}
	return found, cost + found.box().excess()
}

// fits is how much of a box's width and height have room on the page; less
// where marks are part of it, which keep their size.
func (b box) fits() float64 {
	return min((pageWidth-2*pageMargin)/(b.right-b.left), (pageHeight-2*pageMargin)/(b.bottom-b.top))
}

// excess is by how much a box is too large for the page.
func (b box) excess() float64 {
	return max(0, b.right-b.left-pageWidth+2*pageMargin) + max(0, b.bottom-b.top-pageHeight+2*pageMargin)
}

// crowded tells that there is more than any figure that is flown has: it is
// drawn as it comes and without labels, so that the work stays bounded.
func (p *plan) crowded() bool { return len(p.marks) > 32 || len(p.pieces) > 256 }

// arrange changes one leg after the other, the last first, as long as something
// lies on top of something else.
func (d *drafter) arrange(p plan) (plan, float64) {
	cost := costOf(&p)
	d.later = max(0, d.tries-min(20, 600/len(p.pieces)))
	for round := range 2 * len(choices) {
		for leg := len(d.changes) - 1; leg >= 0; leg-- {
			if cost == 0 || d.tries == d.later {
				return p, cost
			}
			if choice := d.choice(leg); choice == round%len(choices) && (choice != ofLoop || cost > 20) {
				p, cost = d.better(leg, choices[choice], p, cost)
			}
		}
	}
	return p, cost
}

// better tries changes of one leg.
func (d *drafter) better(leg int, changes []float64, p plan, cost float64) (plan, float64) {
	before := d.changes[leg]
	best := before
	for _, by := range changes {
		if cost == 0 || d.tries == d.later {
			break
		}
		d.tries--
		d.changes[leg] = before + by
		q := d.draw()
		if now := costOf(&q); now < cost {
			p, q = q, p
			best, cost = d.changes[leg], now
		}
		d.spare = q
	}
	d.changes[leg] = best
	return p, cost
}

func costOf(p *plan) float64 { return overlaps(p) + p.box().excess() }

// choices are what may be changed of the legs, in the units of the page, what
// is seen least first.
var choices = [...][]float64{
	ofSlope: {17, -17, 34, -34, 51},
	ofLine:  {12, -12, 24, -24, 36},
	ofPivot: {1}, // it falls to the other side
	ofWay:   {11, -8, 22},
	ofLoop:  {6, -6, 12}, // it gets wider or narrower
}

const (
	nothing = iota - 1
	ofSlope
	ofLine
	ofPivot
	ofWay
	ofLoop
)

// choice is what may be changed of a leg, or of the way in or out.
func (d *drafter) choice(i int) int {
	if i >= len(d.legs) {
		return ofWay
	}
	switch l := &d.legs[i]; {
	case l.first || l.last:
		return ofWay
	case l.Kind == figure.Line && (l.begin.Vertical() || l.begin.Level()):
		return ofLine
	case l.Kind == figure.Line:
		return ofSlope
	case l.Kind == figure.Pivot:
		return ofPivot
	case l.halfLoop():
		return ofLoop
	}
	return nothing
}
