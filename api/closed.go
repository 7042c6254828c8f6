package api

import (
	"context"

	"halfpoint/db"
)

// closed are results with nothing of what was flown in flights that are not
// closed: what a crowd may be told, and so whoever is heard on the line.
type closed struct {
	programmes *cache[*scoredProgramme]
	categories *cache[*scoredCategory]
}

func newClosed(h *heads, m *metrics, d *db.DB) closed {
	return closed{
		programmes: newProgrammes(h, m, "closed programme", d.ClosedProgramme),
		categories: newCategories(h, m, "closed category", d.ClosedCategory),
	}
}

// programmesFor are the live results of programmes as far as whoever asks may be
// told them.
func (s *server) programmesFor(ctx context.Context) *cache[*scoredProgramme] {
	if reachOf(ctx) == closedOnly {
		return s.closed.programmes
	}
	return s.programmes
}

// categoriesFor are the live standings of categories as far as whoever asks may be
// told them.
func (s *server) categoriesFor(ctx context.Context) *cache[*scoredCategory] {
	if reachOf(ctx) == closedOnly {
		return s.closed.categories
	}
	return s.categories
}
