package draw

import "halfpoint/scoring/figure"

// A Numbered is a figure of a sequence to be drawn, with its number there.
type Numbered struct {
	Subject
	Item int
}

// Subjects are the figures of a checked sequence, without overall marks.
func Subjects(s figure.Sequence, checked figure.Checked) []Numbered {
	list := make([]Numbered, 0, len(s.Items))
	for i := range s.Items {
		item, out := &s.Items[i], &checked.Items[i]
		if item.Overall {
			continue
		}
		f := Numbered{Item: out.Item, Subject: Subject{Elements: item.Elements, Name: item.Name}}
		if out.Entry != nil && len(item.MoveErrors) == 0 {
			f.Moves, f.Entry = item.Moves, *out.Entry
		}
		if out.Name != nil && *out.Name != "" {
			f.Name = *out.Name
		}
		if f.Title = f.Name; out.Call != nil && *out.Call != "" {
			f.Title = *out.Call
		}
		list = append(list, f)
	}
	return list
}
