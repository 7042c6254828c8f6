package db

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"

	"github.com/google/uuid"

	"halfpoint/scoring"
	"halfpoint/scoring/document"
)

// bundle has the set-up read as a bundle.
func (c *setupCheck) bundle() error {
	b, rows := c.after.bundle()
	text, err := b.Encode()
	if err != nil {
		return err
	}
	if _, err = scoring.DecodeBundle(text); err == nil {
		err = checkLimits(b, text)
	}
	c.translate(err, rows)
	return nil
}

// translate puts the complaints about a bundle where the change says it.
func (c *setupCheck) translate(err error, rows map[string]uuid.UUID) {
	complaints, _ := errors.AsType[document.Complaints](err)
	for _, one := range complaints {
		place, field := splitPlace(one.Place)
		id, known := rows[place]
		if known && c.places[id] != "" {
			c.add(id, field, "%s", one.Text)
		} else {
			c.report.Add("", "%s: %s", one.Place, one.Text)
		}
	}
}

// rowPlace finds the row of a place in a bundle.
var rowPlace = regexp.MustCompile(`^(contest|(?:judges|pilots)\[\d+\]|categories\[\d+\](?:\.(?:entries|programmes)\[\d+\])?)\.?(.*)$`)

func splitPlace(place string) (row, field string) {
	parts := rowPlace.FindStringSubmatch(place)
	if parts == nil {
		return place, ""
	}
	if parts[2] == "id" {
		return parts[1], "code"
	}
	return parts[1], parts[2]
}

// bundle writes a set-up as a bundle without flights, and says which row stands
// at which of its places.
func (s *Setup) bundle() (*scoring.Bundle, map[string]uuid.UUID) {
	at := map[string]uuid.UUID{"contest": s.Contest.ID}
	b := &scoring.Bundle{
		Format: scoring.BundleFormat, Judges: []scoring.Judge{}, Pilots: []scoring.Pilot{}, Categories: []scoring.Category{},
		Contest: scoring.Contest{Name: s.Contest.Name, Place: s.Contest.Place, Starts: s.Contest.Starts, Ends: s.Contest.Ends},
	}
	codes := map[uuid.UUID]string{}
	for _, o := range s.Officials {
		if o.Duty == judgeDuty {
			at["judges"+index(len(b.Judges))], codes[o.ID] = o.ID, o.Code
			b.Judges = append(b.Judges, scoring.Judge{ID: o.Code, Name: o.Name, Affiliation: o.Affiliation})
		}
	}
	for _, p := range s.Pilots {
		at["pilots"+index(len(b.Pilots))], codes[p.ID] = p.ID, p.Code
		b.Pilots = append(b.Pilots, scoring.Pilot{ID: p.Code, Name: p.Name, Affiliation: p.Affiliation, Aircraft: p.Aircraft})
	}
	for n, c := range s.Categories {
		place := "categories" + index(n)
		at[place] = c.ID
		b.Categories = append(b.Categories, s.category(place, c, codes, at))
	}
	return b, at
}

func index(n int) string { return "[" + strconv.Itoa(n) + "]" }

func (s *Setup) category(place string, c CategoryRow, codes map[uuid.UUID]string, at map[string]uuid.UUID) scoring.Category {
	category := scoring.Category{ID: c.Code, Name: c.Name, Combine: c.Combine}
	for _, e := range s.Entries {
		if e.Category == c.ID {
			at[fmt.Sprintf("%s.entries[%d]", place, len(category.Entries))] = e.ID
			category.Entries = append(category.Entries, scoring.Entry{Pilot: codes[e.Pilot], Ranked: e.Ranked, Team: e.Team})
		}
	}
	for _, p := range s.Programmes {
		if p.Category == c.ID {
			at[fmt.Sprintf("%s.programmes[%d]", place, len(category.Programmes))] = p.ID
			category.Programmes = append(category.Programmes, p.programme(codes))
		}
	}
	return category
}

func (p *ProgrammeRow) programme(codes map[uuid.UUID]string) scoring.Programme {
	panel := make([]string, len(p.Panel))
	for i, judge := range p.Panel {
		panel[i] = codes[judge]
	}
	return scoring.Programme{
		ID: p.Code, Name: p.Name, Kind: p.Kind, Cut: p.Cut, Counts: true, Method: p.Method, Panel: panel,
	}
}
