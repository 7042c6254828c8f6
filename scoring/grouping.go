package scoring

import (
	"cmp"
	"slices"
)

// rowKey names a row of a programme: an item of a scored flight, both counted
// from 0.
type rowKey struct{ flight, item int }

// groupRows puts the rows whose grades a seat's level is compared over into
// groups, counted from 0: groups[flight][item]. In a known or unknown each item
// is a group; where pilots fly sequences of their own, items of a class and of
// about the same K are.
func groupRows(p *Programme, flights []*CleanFlight) (groups [][]int, n int) {
	g := grouping{flights: flights, groups: make([][]int, len(flights))}
	for i, f := range flights {
		g.groups[i] = make([]int, len(f.Items))
	}
	if p.OwnSequences() {
		g.byClass(p.Method.GroupMin)
		g.byOverallOrder()
	} else {
		g.byItem()
	}
	return g.groups, g.n
}

type grouping struct {
	flights []*CleanFlight
	groups  [][]int
	n       int // groups made so far
}

func (g *grouping) byItem() {
	for i, f := range g.flights {
		for item := range f.Items {
			g.groups[i][item] = item
		}
		g.n = max(g.n, len(f.Items))
	}
}

// byOverallOrder groups the first overall marks of all flights, the second
// ones, and so on.
func (g *grouping) byOverallOrder() {
	first := g.n
	for i, f := range g.flights {
		next := first
		for item := range f.Items {
			if f.Items[item].Kind == Overall {
				g.groups[i][item] = next
				next++
			}
		}
		g.n = max(g.n, next)
	}
}

// byClass groups the figures. A class with too few rows joins the general
// class, and where that is not enough either, all are one class.
func (g *grouping) byClass(least int) {
	rows := g.classRows()
	for _, class := range classes {
		if class != General && len(rows[class]) < least {
			rows[General] = append(rows[General], rows[class]...)
			delete(rows, class)
		}
	}
	if general := len(rows[General]); general > 0 && general < least && len(rows) > 1 {
		for _, class := range classes[1:] {
			rows[General] = append(rows[General], rows[class]...)
			delete(rows, class)
		}
	}
	for _, class := range classes {
		g.cut(rows[class], least)
	}
}

// classRows lists the rows of figures by class.
func (g *grouping) classRows() map[string][]rowKey {
	rows := map[string][]rowKey{}
	for i, f := range g.flights {
		for item := range f.Items {
			if one := &f.Items[item]; one.Kind != Overall {
				class := one.ItemClass()
				rows[class] = append(rows[class], rowKey{i, item})
			}
		}
	}
	return rows
}

// cut makes groups of at least so many rows out of a class, those of about the
// same K together; the first groups are one row longer where it does not divide.
func (g *grouping) cut(rows []rowKey, least int) {
	if len(rows) == 0 {
		return
	}
	slices.SortFunc(rows, func(a, b rowKey) int {
		return cmp.Or(cmp.Compare(g.k(a), g.k(b)), cmp.Compare(a.flight, b.flight), cmp.Compare(a.item, b.item))
	})
	n := max(1, len(rows)/least)
	size, longer := len(rows)/n, len(rows)%n
	for i := range n {
		end := size
		if i < longer {
			end++
		}
		for _, row := range rows[:end] {
			g.groups[row.flight][row.item] = g.n
		}
		rows = rows[end:]
		g.n++
	}
}

func (g *grouping) k(row rowKey) K { return g.flights[row.flight].Items[row.item].K }
