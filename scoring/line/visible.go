package line

import "slices"

// Visible returns what a seat may see of records before their flights are
// closed: what the flights are doing, its own sheets, and what sets records of
// these aside. Without a seat it is what the flights are doing alone.
func Visible(records []Stored, seat string) []Stored {
	own := map[string]bool{}
	for i := range records {
		if r := &records[i]; r.Kind == KindStatus || seat != "" && r.ofSheet(seat) {
			own[r.ID] = true
		}
	}
	var visible []Stored
	for i := range records {
		r := &records[i]
		if own[r.ID] || r.Kind == KindAside && slices.ContainsFunc(r.Covers, func(id string) bool { return own[id] }) {
			visible = append(visible, *r)
		}
	}
	return visible
}

// ofSheet tells whether a record is of one seat's sheets.
func (r *Record) ofSheet(seat string) bool {
	c := cellOf(r)
	return c.ofSheet() && c.judge == seat
}
