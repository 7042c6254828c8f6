package db

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/document"
	"halfpoint/scoring/season"
)

// What a season holds at most.
const (
	maxSeasonParts  = 200
	maxSeasonPeople = 5000
)

// ErrSeasonChanged: somebody else has changed the season meanwhile.
var ErrSeasonChanged = errors.New("the season was changed meanwhile")

// A SeasonChange is what a season is to be.
type SeasonChange struct {
	Name     string
	Rules    season.Rules
	Parts    []SeasonSource // in the order flown
	Revision int64          // that was read
}

// A SeasonSource is a category that adds to one of a season's standings.
type SeasonSource struct {
	Category uuid.UUID
	Class    string
}

func (c *SeasonChange) check() error {
	var report document.Report
	NameBound.Check(&report, "name", c.Name)
	if len(c.Parts) > maxSeasonParts {
		report.Add("parts", "are %d, at most %d", len(c.Parts), maxSeasonParts)
	}
	for i, p := range c.Parts {
		NameBound.Check(&report, fmt.Sprintf("parts[%d].class", i), p.Class)
	}
	var complaints document.Complaints
	if errors.As(c.Rules.Check(), &complaints) {
		for _, one := range complaints {
			report.Add("rules."+one.Place, "%s", one.Text)
		}
	}
	return report.Err()
}

// MakeSeason makes a season without contests. By is the account.
func (db *DB) MakeSeason(ctx context.Context, name, by string) (id uuid.UUID, err error) {
	c := SeasonChange{Name: strings.TrimSpace(name), Rules: season.Rules{Points: season.ByPercentOfMaximum, Table: []float64{}, Ties: season.ShareMean, TieBreak: []string{}, Affiliations: []string{}}}
	if err := c.check(); err != nil {
		return uuid.Nil, err
	}
	rules, err := json.Marshal(c.Rules)
	if err != nil {
		return uuid.Nil, fmt.Errorf("writing rules: %w", err)
	}
	id = newID()
	err = db.write(ctx, func(tx pgx.Tx) error {
		return exec(ctx, tx, `
			INSERT INTO season (season_id, name, rules, made_by)
			VALUES (@season, @name, @rules, @by)`,
			pgx.StrictNamedArgs{"season": id, "name": c.Name, "rules": rules, "by": by})
	})
	if err != nil {
		return uuid.Nil, fmt.Errorf("making a season: %w", err)
	}
	return id, nil
}

// ChangeSeason puts a season's name, rules and parts in place of those that are
// there; the same again changes nothing. It fails with ErrSeasonChanged where
// another revision is there, and with document.Complaints about what is wrong.
func (db *DB) ChangeSeason(ctx context.Context, id uuid.UUID, c SeasonChange) error {
	if err := c.check(); err != nil {
		return err
	}
	err := db.write(ctx, func(tx pgx.Tx) error {
		present, err := lockedSeason(ctx, tx, id)
		if err != nil {
			return err
		}
		if same, err := c.is(present); same || err != nil {
			return err
		}
		if present.Revision != c.Revision {
			return ErrSeasonChanged
		}
		return storeSeason(ctx, tx, id, &c)
	})
	if err != nil {
		return fmt.Errorf("changing a season: %w", err)
	}
	return nil
}

// lockedSeason is a season that nobody else changes until the transaction ends.
func lockedSeason(ctx context.Context, tx pgx.Tx, id uuid.UUID) (*Season, error) {
	err := exec(ctx, tx, `
		SELECT
		FROM season
		WHERE season_id = @season
		FOR UPDATE`,
		pgx.StrictNamedArgs{"season": id})
	if err != nil {
		return nil, err
	}
	return readSeason(ctx, tx, id)
}

// is tells whether a season is what it is to be.
func (c *SeasonChange) is(s *Season) (bool, error) {
	if s.Name != c.Name || len(s.Parts) != len(c.Parts) {
		return false, nil
	}
	for i, p := range s.Parts {
		if (SeasonSource{p.Category.ID, p.Class}) != c.Parts[i] {
			return false, nil
		}
	}
	there, err := json.Marshal(s.Rules)
	if err != nil {
		return false, err
	}
	wanted, err := json.Marshal(c.Rules)
	return bytes.Equal(there, wanted), err
}

func storeSeason(ctx context.Context, tx pgx.Tx, id uuid.UUID, c *SeasonChange) error {
	rules, err := json.Marshal(c.Rules)
	if err != nil {
		return err
	}
	_, err = tx.Exec(ctx, `
		UPDATE season
		SET name = @name,
			rules = @rules,
			revision = revision + 1
		WHERE season_id = @season`,
		pgx.StrictNamedArgs{"season": id, "name": c.Name, "rules": rules})
	if err != nil {
		return err
	}
	return storeSeasonParts(ctx, tx, id, c.Parts)
}

func storeSeasonParts(ctx context.Context, tx pgx.Tx, id uuid.UUID, parts []SeasonSource) error {
	if _, err := tx.Exec(ctx, `DELETE FROM season_part WHERE season_id = @season`, pgx.StrictNamedArgs{"season": id}); err != nil {
		return err
	}
	for i, p := range parts {
		err := exec(ctx, tx, `
			INSERT INTO season_part (contest_id, season_id, category_id, class, position)
			SELECT
				contest_id,
				@season,
				category_id,
				@class,
				@position
			FROM category
			WHERE category_id = @category`,
			pgx.StrictNamedArgs{"season": id, "category": p.Category, "class": p.Class, "position": i})
		if err != nil {
			return err
		}
	}
	return nil
}

// DeleteSeason deletes a season of a revision, with who is who in it; what its
// contests published stays. It fails with ErrSeasonChanged where another revision
// is there.
func (db *DB) DeleteSeason(ctx context.Context, id uuid.UUID, revision int64) error {
	err := db.write(ctx, func(tx pgx.Tx) error {
		present, err := lockedSeason(ctx, tx, id)
		if err != nil {
			return err
		}
		if present.Revision != revision {
			return ErrSeasonChanged
		}
		return removeSeason(ctx, tx, id)
	})
	if err != nil {
		return fmt.Errorf("deleting a season: %w", err)
	}
	return nil
}

func removeSeason(ctx context.Context, tx pgx.Tx, id uuid.UUID) error {
	for _, sql := range []string{
		`DELETE FROM season_person WHERE season_id = @season`,
		`DELETE FROM season_part WHERE season_id = @season`,
		`DELETE FROM season WHERE season_id = @season`,
	} {
		if _, err := tx.Exec(ctx, sql, pgx.StrictNamedArgs{"season": id}); err != nil {
			return err
		}
	}
	return nil
}

// SetSeasonPeople says who is the same person in a season's contests, in place
// of what was said before of the revision that was read. A person has one pilot of
// a contest: two fail with ErrConflict. It fails with ErrSeasonChanged where
// another revision is there.
func (db *DB) SetSeasonPeople(ctx context.Context, id uuid.UUID, people []SeasonPerson, revision int64) error {
	if len(people) > maxSeasonPeople {
		var report document.Report
		report.Add("people", "are %d, at most %d", len(people), maxSeasonPeople)
		return report.Err()
	}
	err := db.write(ctx, func(tx pgx.Tx) error {
		present, err := lockedSeason(ctx, tx, id)
		if err != nil {
			return err
		}
		if present.Revision != revision {
			return ErrSeasonChanged
		}
		return storeSeasonPeople(ctx, tx, id, people)
	})
	if err != nil {
		return fmt.Errorf("saying who is who in a season: %w", err)
	}
	return nil
}

func storeSeasonPeople(ctx context.Context, tx pgx.Tx, id uuid.UUID, people []SeasonPerson) error {
	for _, sql := range []string{
		`DELETE FROM season_person WHERE season_id = @season`,
		`UPDATE season SET revision = revision + 1 WHERE season_id = @season`,
	} {
		if _, err := tx.Exec(ctx, sql, pgx.StrictNamedArgs{"season": id}); err != nil {
			return err
		}
	}
	_, err := tx.CopyFrom(ctx, pgx.Identifier{"season_person"}, []string{"contest_id", "season_id", "pilot", "person_id"},
		pgx.CopyFromSlice(len(people), func(i int) ([]any, error) {
			return []any{people[i].Contest, id, people[i].Pilot, people[i].Person}, nil
		}))
	return err
}
