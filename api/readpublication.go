package api

import (
	"context"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/publication"
)

// A readPublication is what a publication says, and of a programme's what its
// sheets are told with.
type readPublication struct {
	*publication.Parsed
	scored *scoredProgramme // nil of a category's
}

func readPublished(d *db.DB) func(context.Context, uuid.UUID) (*readPublication, error) {
	return func(ctx context.Context, id uuid.UUID) (*readPublication, error) {
		stored, err := d.Publication(ctx, id)
		if err != nil {
			return nil, err
		}
		parsed, err := stored.Parse()
		if err != nil {
			return nil, err
		}
		read := &readPublication{Parsed: parsed}
		if stored.Info.Programme != nil {
			category, _ := parsed.Category()
			programme, result := parsed.Programme()
			read.scored = scored(tableOf(category, programme), result)
		}
		return read, nil
	}
}

// mostParsed is how many publications are kept as they were read: that of a
// large contest takes some megabytes.
const mostParsed = 24
