package figure

import (
	"slices"
	"strings"

	"halfpoint/scoring/document"
)

// MaxItems is how many items a sequence may hold.
const MaxItems = 40

// A Sequence is what is flown, in order, with the limits it must keep.
type Sequence struct {
	Items    []Item
	Limits   *Limits // nil for none
	Inverted bool    // flight at the beginning of the first figure
}

// An Item is a figure or an overall mark.
type Item struct {
	Overall  bool // an overall mark, else a figure
	K        K
	Elements []string // catalogue numbers, as typed
	ElementK []K      // of each number; nil where not given
	Class    string
	Name     string
	Words    Words

	// Moves is what the aeroplane does; nil where nothing is said.
	Moves []Move
	// MoveErrors is what was wrong with the moves as written: while any
	// stands, they are not followed.
	MoveErrors document.Complaints
	// Begins is how the figure is drawn to begin; nil where nothing is said.
	Begins *Begins
}

// Begins is how a figure is drawn to begin.
type Begins struct{ Inverted bool }

// Words are the pilot's own for a figure, instead of generated ones; an empty
// one was not given.
type Words struct {
	Name  string `json:"name,omitempty"`
	Call  string `json:"call,omitempty"`
	Crowd string `json:"crowd,omitempty"`
}

// hasMoves tells whether anything was said about moves, right or wrong.
func (i *Item) hasMoves() bool { return len(i.Moves) > 0 || len(i.MoveErrors) > 0 }

var classes = []string{"general", "spin", "flick", "tailslide", "rolling-turn"}

// ReadSequence reads a sequence from JSON. Where the organiser's table is
// given, a K left out is filled in from it. What is wrong inside the moves of
// a figure is kept with it; anything else wrong refuses the document, with
// document.Complaints as the error, those inside moves among them.
func ReadSequence(text []byte, table Table) (Sequence, error) {
	var report document.Report
	v, ok := document.Parse(text, &report)
	if !ok {
		return Sequence{}, report.Err()
	}
	s := ReadSequenceValue(v, table)
	if report.Err() == nil {
		return s, nil
	}
	s.ReportMoves(&report)
	return Sequence{}, report.Err()
}

// ReadSequenceValue reads a sequence from a document that is parsed already, in
// which fields of others may stand beside. What is wrong inside the moves of a
// figure is kept with it; anything else wrong is a complaint.
func ReadSequenceValue(v document.Value, table Table, beside ...string) (s Sequence) {
	o, ok := v.Object(append([]string{"items", "limits", "entry"}, beside...)...)
	if !ok {
		return s
	}
	if items, there := o.Required("items"); there {
		list, _ := items.List()
		if len(list) > MaxItems {
			items.Complain("%d items; a sequence has at most %d", len(list), MaxItems)
			list = list[:MaxItems]
		}
		s.Items = make([]Item, len(list))
		for i, one := range list {
			s.Items[i] = readItem(one, table)
		}
	}
	if limits, there := o.Optional("limits"); there {
		s.Limits = ReadLimits(limits)
	}
	if entry, there := o.Optional("entry"); there {
		s.Inverted = readEntry(entry)
	}
	return s
}

func readEntry(v document.Value) (inverted bool) {
	o, ok := v.Object("inverted")
	return ok && readFlag(o, "inverted")
}

// ReadEntry reads how flight begins.
func ReadEntry(v document.Value) Begins { return Begins{Inverted: readEntry(v)} }

// ReadItem reads one item of a sequence. Whatever is wrong with it, moves
// included, is a complaint at its place.
func ReadItem(v document.Value, table Table) Item {
	item := readItem(v, table)
	item.reportMoves(v.Report())
	return item
}

// ReportMoves complains of what is wrong inside the moves of the figures.
func (s *Sequence) ReportMoves(report *document.Report) {
	for i := range s.Items {
		s.Items[i].reportMoves(report)
	}
}

// reportMoves complains of what is wrong inside the moves.
func (i *Item) reportMoves(report *document.Report) {
	for _, c := range i.MoveErrors {
		report.Add(c.Place, "%s", c.Text)
	}
}

func readItem(v document.Value, table Table) (item Item) {
	o, ok := v.Object("kind", "k", "elements", "element_k", "class", "name", "words", "moves", "entry")
	if !ok {
		return item
	}
	if kind, there := o.Required("kind"); there {
		item.Overall = readKind(kind)
	}
	if elements, there := o.Optional("elements"); there {
		item.Elements = readElements(elements)
	}
	if ks, there := o.Optional("element_k"); there {
		item.ElementK = readElementK(ks)
	}
	readItemK(o, &item, table)
	readItemWords(o, &item)
	if moves, there := o.Optional("moves"); there {
		var report document.Report
		item.Moves = ReadMoves(moves.ReportTo(&report))
		item.MoveErrors = report.Complaints()
	}
	if entry, there := o.Optional("entry"); there {
		item.Begins = &Begins{Inverted: readEntry(entry)}
	}
	if item.Overall {
		refuseFigureParts(o, &item)
	}
	return item
}

func readKind(v document.Value) (overall bool) {
	text, ok := v.Text()
	if ok && text != "figure" && text != "overall" {
		v.Complain(`%q where "figure" or "overall" was expected`, text)
	}
	return text == "overall"
}

// readItemK reads the item's K, or adds it up from the table where it was left
// out and the table knows every number.
func readItemK(o document.Object, item *Item, table Table) {
	if k, there := o.Optional("k"); there {
		item.K, _ = ReadK(k)
		return
	}
	total, missing := table.sum(item.Elements)
	if len(item.Elements) > 0 && len(missing) == 0 {
		item.K = total
		return
	}
	o.Required("k")
	if table != nil && len(missing) > 0 {
		o.Complain("its K cannot be filled in: the table lacks %s", strings.Join(missing, ", "))
	}
}

func readItemWords(o document.Object, item *Item) {
	if class, there := o.Optional("class"); there {
		text, ok := class.Text()
		if ok && !slices.Contains(classes, text) {
			class.Complain("%q is no class; known: %s", text, strings.Join(classes, ", "))
		}
		item.Class = text
	}
	item.Name = readText(o, "name")
	if words, there := o.Optional("words"); there {
		if w, ok := words.Object("name", "call", "crowd"); ok {
			item.Words = Words{readText(w, "name"), readText(w, "call"), readText(w, "crowd")}
		}
	}
}

func readText(o document.Object, name string) string {
	v, there := o.Optional(name)
	if !there {
		return ""
	}
	text, _ := v.Text()
	return text
}

func readElements(v document.Value) []string {
	list, _ := v.List()
	elements := make([]string, len(list))
	for i, one := range list {
		elements[i], _ = one.Text()
	}
	return elements
}

func readElementK(v document.Value) []K {
	list, _ := v.List()
	ks := make([]K, len(list))
	for i, one := range list {
		ks[i], _ = ReadK(one)
	}
	return ks
}

// refuseFigureParts complains about what only a figure has.
func refuseFigureParts(o document.Object, item *Item) {
	for _, part := range []struct {
		name  string
		given bool
	}{
		{"elements", len(item.Elements) > 0},
		{"element_k", len(item.ElementK) > 0},
		{"moves", item.hasMoves()},
	} {
		if part.given {
			v, _ := o.Optional(part.name)
			v.Complain("an overall mark has none; only a figure has")
		}
	}
}
