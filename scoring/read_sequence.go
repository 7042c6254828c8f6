package scoring

import (
	"encoding/json"
	"fmt"

	"halfpoint/scoring/document"
	"halfpoint/scoring/figure"
)

// ReadSequence reads a sequence, in which fields of others may stand beside.
// Whatever is wrong with it, down to the moves of its figures, is a complaint
// at its place. A K left out is filled in from the organiser's table, nil for
// none.
func ReadSequence(v document.Value, table figure.Table, beside ...string) *Sequence {
	o, ok := v.Object(append([]string{"items", "entry"}, beside...)...)
	if !ok {
		return nil
	}
	s := &Sequence{Items: required(o, "items", listOf(func(v document.Value) Item { return readItem(v, table) }))}
	if entry, there := o.Optional("entry"); there {
		figure.ReadEntry(entry)
		s.Entry = entry.JSON()
	}
	return s
}

func readSequence(v document.Value) *Sequence { return ReadSequence(v, nil) }

// readItem reads an item as package figure does. What only the figure's
// drawing and call need is kept as written.
func readItem(v document.Value, table figure.Table) Item {
	read := figure.ReadItem(v, table)
	i := Item{Kind: Figure, K: read.K, Elements: read.Elements, Class: read.Class, Name: read.Name}
	if read.Overall {
		i.Kind = Overall
	}
	quiet := v.ReportTo(&document.Report{}) // it has been complained about already
	if o, ok := quiet.AnyObject(); ok {
		i.ElementK, i.Words = written(o, "element_k"), written(o, "words")
		i.Entry, i.Moves = written(o, "entry"), written(o, "moves")
	}
	return i
}

func written(o document.Object, name string) json.RawMessage {
	return optional(o, name, nil, document.Value.JSON)
}

// Figures is the sequence as package figure follows, checks and calls it,
// without limits.
func (s *Sequence) Figures() (figure.Sequence, error) {
	text, err := json.Marshal(s)
	if err != nil {
		return figure.Sequence{}, fmt.Errorf("writing a sequence: %w", err)
	}
	return figure.ReadSequence(text, nil)
}
