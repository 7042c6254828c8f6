package api

import (
	"slices"
	"strings"

	"halfpoint/db"
	"halfpoint/scoring/table"
)

// officialTitles are the columns of a table of officials.
var officialTitles = []string{"code", "name", "duty", "affiliation"}

// duties are what an official can do.
var duties = []string{"judge", "chief", "assistant", "announcer", "office", "director", "jury"}

func officialRows(s *db.Setup) [][]string {
	rows := [][]string{officialTitles}
	for _, o := range s.Officials {
		rows = append(rows, []string{o.Code, o.Name, o.Duty, o.Affiliation})
	}
	return rows
}

// An officialReader lays a table over the officials that there are.
type officialReader struct {
	*roster
	officials []db.OfficialRow // those that there are, then new ones
}

func readOfficials(text []byte, s *db.Setup) (SetupTable, error) {
	o := &officialReader{roster: newRoster(), officials: slices.Clone(s.Officials)}
	for _, one := range s.Officials {
		o.enter(one.ID, one.Code, one.Name)
	}
	o.read(text, officialTitles, o.row)
	return SetupTable{
		Rows: o.rows, Pilots: []SetupPilot{}, Entries: []SetupEntry{},
		Officials: each(unlike(o.officials, s.Officials), setupOfficialOf),
	}, o.err()
}

func (o *officialReader) row(r table.Record) {
	who, ok := o.find(r)
	if !ok {
		return
	}
	if who.first > 0 {
		r.Complain("name", "row %d is about the same person", who.first)
		return
	}
	one := o.official(who)
	if who.code != "" {
		r.Check("code", db.NameBound, who.code)
	}
	readText(r, "name", &one.Name, db.NameBound, 0)
	readText(r, "affiliation", &one.Affiliation, db.LineBound, 0)
	if duty := strings.ToLower(r.Text("duty")); slices.Contains(duties, duty) {
		one.Duty = duty
	} else if duty != "" {
		r.Complain("duty", "%q is none of %s", r.Text("duty"), strings.Join(duties, ", "))
	}
}

// official is the row of an official, made, as a judge, where there is none.
func (o *officialReader) official(who person) *db.OfficialRow {
	made := db.OfficialRow{Code: who.code, Duty: duties[0]}
	return rowFor(&o.officials, who, made, func(one *db.OfficialRow) *db.RowHead { return &one.RowHead })
}
