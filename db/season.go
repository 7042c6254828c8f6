package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/season"
)

// A Season is a standing over several contests.
type Season struct {
	ID       uuid.UUID
	Name     string
	Rules    season.Rules
	Revision int64
	MadeBy   string         // the account
	Parts    []SeasonPart   `db:"-"`
	People   []SeasonPerson `db:"-"`
}

// A SeasonPart is a category of a contest whose standing adds to a season's.
type SeasonPart struct {
	Contest  ContestInfo
	Category Named
	Class    string     // which of the season's standings
	Latest   *uuid.UUID // the publication of the category that stands; nil where there is none
	State    string     // of that
	At       *time.Time // of that
}

// A SeasonPerson says which person a pilot of a contest is.
type SeasonPerson struct {
	Contest uuid.UUID
	Pilot   string // the id in the contest's publications
	Person  uuid.UUID
}

// Contests are those of a season, each once, in its order.
func (s *Season) Contests() (list []ContestInfo) {
	seen := map[uuid.UUID]bool{}
	for _, p := range s.Parts {
		if !seen[p.Contest.ID] {
			seen[p.Contest.ID] = true
			list = append(list, p.Contest)
		}
	}
	return list
}

// Seasons lists the seasons with their parts, the one made last first.
func (db *DB) Seasons(ctx context.Context) (list []Season, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		list, err = readSeasons(ctx, tx, nil)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing seasons: %w", err)
	}
	return list, nil
}

// Season reads a season with who is who in it.
func (db *DB) Season(ctx context.Context, id uuid.UUID) (s *Season, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		s, err = readSeason(ctx, tx, id)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a season: %w", err)
	}
	return s, nil
}

func readSeason(ctx context.Context, tx pgx.Tx, id uuid.UUID) (*Season, error) {
	list, err := readSeasons(ctx, tx, &id)
	if err == nil && len(list) == 0 {
		err = pgx.ErrNoRows
	}
	if err != nil {
		return nil, err
	}
	list[0].People, err = rows[SeasonPerson](ctx, tx, `
		SELECT
			contest_id AS contest,
			pilot,
			person_id AS person
		FROM season_person
		WHERE season_id = @season
		ORDER BY contest_id, pilot`,
		pgx.StrictNamedArgs{"season": id})
	return &list[0], err
}

// readSeasons reads all seasons, or the one with an id.
func readSeasons(ctx context.Context, tx pgx.Tx, id *uuid.UUID) ([]Season, error) {
	list, err := rows[Season](ctx, tx, `
		SELECT
			season_id AS id,
			name,
			rules,
			revision,
			made_by
		FROM season
		WHERE @id::uuid IS NULL OR season_id = @id
		ORDER BY season_id DESC
		LIMIT 200`,
		pgx.StrictNamedArgs{"id": id})
	if err != nil {
		return nil, err
	}
	parts, err := readSeasonParts(ctx, tx, id)
	if err != nil {
		return nil, err
	}
	for i := range list {
		list[i].Parts = parts[list[i].ID]
	}
	return list, nil
}

func readSeasonParts(ctx context.Context, tx pgx.Tx, id *uuid.UUID) (map[uuid.UUID][]SeasonPart, error) {
	found, err := rows[seasonPartRow](ctx, tx, `
		SELECT
			p.season_id AS season,
			p.contest_id AS contest,
			c.name AS contest_name,
			c.opened,
			p.category_id AS category,
			g.name AS category_name,
			p.class,
			l.publication_id AS latest,
			coalesce(l.state, '') AS state,
			l.published_at AS at
		FROM season_part p
		JOIN contest c USING (contest_id)
		JOIN category g USING (contest_id, category_id)
		LEFT JOIN LATERAL (
			SELECT
				publication_id,
				state,
				published_at
			FROM publication
			WHERE contest_id = p.contest_id
				AND category_id = p.category_id
				AND programme_id IS NULL
			ORDER BY number DESC
			LIMIT 1
		) l ON true
		WHERE @id::uuid IS NULL OR p.season_id = @id
		ORDER BY p.season_id, p.position`,
		pgx.StrictNamedArgs{"id": id})
	parts := map[uuid.UUID][]SeasonPart{}
	for _, f := range found {
		parts[f.Season] = append(parts[f.Season], f.part())
	}
	return parts, err
}

type seasonPartRow struct {
	Season       uuid.UUID
	Contest      uuid.UUID
	ContestName  string
	Opened       string
	Category     uuid.UUID
	CategoryName string
	Class        string
	Latest       *uuid.UUID
	State        string
	At           *time.Time
}

func (r *seasonPartRow) part() SeasonPart {
	return SeasonPart{
		Contest: ContestInfo{ID: r.Contest, Name: r.ContestName, Opened: r.Opened}, Category: Named{r.Category, r.CategoryName},
		Class: r.Class, Latest: r.Latest, State: r.State, At: r.At,
	}
}
