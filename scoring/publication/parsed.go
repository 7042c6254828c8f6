package publication

import (
	"encoding/json"
	"errors"
	"fmt"

	"halfpoint/scoring"
)

// A Parsed is what the bytes of a publication say: of one category, with its
// programmes. Of a programme's publication the last programme is the one
// published; others stand before it where its ranks depend on their cuts.
type Parsed struct {
	Bundle  *scoring.Bundle
	Results *scoring.Results
}

var errOtherResults = errors.New("the results are not those of the bundle")

// Parse reads the bundle and the results.
func (p *Publication) Parse() (*Parsed, error) {
	bundle, err := scoring.DecodeBundle(p.Bundle)
	if err != nil {
		return nil, fmt.Errorf("reading a published bundle: %w", err)
	}
	var results scoring.Results
	if err := json.Unmarshal(p.Results, &results); err != nil {
		return nil, fmt.Errorf("reading published results: %w", err)
	}
	if len(bundle.Categories) != 1 || len(results.Categories) != 1 || !sameShape(&bundle.Categories[0], &results.Categories[0]) {
		return nil, errOtherResults
	}
	return &Parsed{bundle, &results}, nil
}

func sameShape(c *scoring.Category, r *scoring.CategoryResult) bool {
	if len(c.Programmes) != len(r.Programmes) || len(c.Programmes) == 0 || len(c.Entries) != len(r.Overall) {
		return false
	}
	for i := range c.Programmes {
		if len(c.Programmes[i].Flights) != len(r.Programmes[i].Flights) {
			return false
		}
	}
	return true
}

// Category is the category published of.
func (p *Parsed) Category() (*scoring.Category, *scoring.CategoryResult) {
	return &p.Bundle.Categories[0], &p.Results.Categories[0]
}

// Programme is the programme published, of a programme's publication.
func (p *Parsed) Programme() (*scoring.Programme, *scoring.ProgrammeResult) {
	category, result := p.Category()
	last := len(category.Programmes) - 1
	return &category.Programmes[last], &result.Programmes[last]
}
