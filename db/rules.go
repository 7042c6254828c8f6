package db

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Rules are what sequences are held against.
type Rules struct {
	Contest  uuid.UUID
	Limits   json.RawMessage // as written, of the category; nil for none
	Note     string          // where the limits come from
	Numbers  int             // of the organiser's table; 0 where there is none
	Digest   string          // of the table, empty where there is none
	Category *Named          // nil where only a contest was asked for
}

// A RuleBook is the rules of a category or a contest, as read at a version.
type RuleBook struct {
	Head    Head
	Contest ContestInfo
	Rules
}

// CategoryRules reads the limits of a category, and of which table its contest
// has.
func (db *DB) CategoryRules(ctx context.Context, category uuid.UUID) (*RuleBook, error) {
	return db.ruleBook(ctx, func(ctx context.Context, tx pgx.Tx) (uuid.UUID, error) {
		return contestOf(ctx, tx, "category", category)
	}, &category)
}

// ContestRules reads which table of numbers a contest has.
func (db *DB) ContestRules(ctx context.Context, contest uuid.UUID) (*RuleBook, error) {
	return db.ruleBook(ctx, func(context.Context, pgx.Tx) (uuid.UUID, error) { return contest, nil }, nil)
}

func (db *DB) ruleBook(ctx context.Context, find func(context.Context, pgx.Tx) (uuid.UUID, error), category *uuid.UUID) (b *RuleBook, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		contest, err := find(ctx, tx)
		if err != nil {
			return err
		}
		b = &RuleBook{}
		if b.Head, err = readHead(ctx, tx, contest); err != nil {
			return err
		}
		if b.Contest, err = readContestInfo(ctx, tx, contest); err != nil {
			return err
		}
		b.Rules, err = readRules(ctx, tx, contest, category)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading the rules of sequences: %w", err)
	}
	return b, nil
}

// readRules reads the rules of a contest, and the limits of a category where
// one is named.
func readRules(ctx context.Context, tx pgx.Tx, contest uuid.UUID, category *uuid.UUID) (r Rules, err error) {
	r.Contest = contest
	if err := r.readTable(ctx, tx); err != nil || category == nil {
		return r, err
	}
	return r, r.readLimits(ctx, tx, *category)
}

// readTable reads which table of numbers there is; none leaves both fields empty.
func (r *Rules) readTable(ctx context.Context, tx pgx.Tx) error {
	found, err := rows[struct {
		Digest  string
		Numbers int
	}](ctx, tx, `
		SELECT
			digest,
			numbers
		FROM number_table
		WHERE contest_id = @contest`,
		pgx.StrictNamedArgs{"contest": r.Contest})
	for _, one := range found {
		r.Digest, r.Numbers = one.Digest, one.Numbers
	}
	return err
}

func (r *Rules) readLimits(ctx context.Context, tx pgx.Tx, category uuid.UUID) error {
	limits, err := row[struct {
		ID     uuid.UUID
		Name   string
		Limits json.RawMessage
		Note   string
	}](ctx, tx, `
		SELECT
			category_id AS id,
			name,
			limits,
			limits_note AS note
		FROM category
		WHERE contest_id = @contest
			AND category_id = @category`,
		pgx.StrictNamedArgs{"contest": r.Contest, "category": category})
	r.Category, r.Limits, r.Note = &Named{limits.ID, limits.Name}, limits.Limits, limits.Note
	return err
}

// SetLimits says what the sequences of a category must keep: limits as
// figure.ParseLimits reads them, nil for none, and where they come from.
func (db *DB) SetLimits(ctx context.Context, contest, category uuid.UUID, limits json.RawMessage, note, by string) error {
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		return newAct(actLimits, by, limitsAct{category, limits, note}), exec(ctx, tx, `
			UPDATE category
			SET limits = @limits,
				limits_note = @note
			WHERE contest_id = @contest
				AND category_id = @category`,
			pgx.StrictNamedArgs{"contest": contest, "category": category, "limits": limits, "note": note})
	})
	if err != nil {
		return fmt.Errorf("setting limits: %w", err)
	}
	return nil
}

// limitsAct is what the journal says of a change of limits.
type limitsAct struct {
	Category uuid.UUID       `json:"category"`
	Limits   json.RawMessage `json:"limits"`
	Note     string          `json:"note"`
}

// A NumberTable is the organiser's own table.
type NumberTable struct {
	Head   Head
	Digest string // empty where there is none
	Body   []byte // CSV as it was sent
}

// Numbers reads the organiser's table of a contest.
func (db *DB) Numbers(ctx context.Context, contest uuid.UUID) (t *NumberTable, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		t = &NumberTable{}
		if t.Head, err = readHead(ctx, tx, contest); err != nil {
			return err
		}
		found, err := rows[struct {
			Digest string
			Body   []byte
		}](ctx, tx, `
			SELECT
				digest,
				body
			FROM number_table
			WHERE contest_id = @contest`,
			pgx.StrictNamedArgs{"contest": contest})
		for _, one := range found {
			t.Digest, t.Body = one.Digest, one.Body
		}
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading the table of numbers: %w", err)
	}
	return t, nil
}

// SetNumbers puts a table of so many numbers, as figure.ReadTable reads it, in
// place of the contest's. One without numbers takes it away.
func (db *DB) SetNumbers(ctx context.Context, contest uuid.UUID, body []byte, numbers int, by string) error {
	sum := sha256.Sum256(body)
	details := numbersAct{Digest: hex.EncodeToString(sum[:]), Numbers: numbers}
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		if _, err := readHead(ctx, tx, contest); err != nil {
			return nil, err
		}
		_, err := tx.Exec(ctx, `
			DELETE FROM number_table
			WHERE contest_id = @contest`,
			pgx.StrictNamedArgs{"contest": contest})
		if err == nil && numbers > 0 {
			err = insertNumbers(ctx, tx, contest, body, details)
		}
		return newAct(actNumbers, by, details), err
	})
	if err != nil {
		return fmt.Errorf("setting the table of numbers: %w", err)
	}
	return nil
}

// numbersAct is what the journal says of a change of the table, which it does
// not hold: it is the organiser's own document.
type numbersAct struct {
	Digest  string `json:"sha256"`
	Numbers int    `json:"numbers"`
}

func insertNumbers(ctx context.Context, tx pgx.Tx, contest uuid.UUID, body []byte, a numbersAct) error {
	_, err := tx.Exec(ctx, `
		INSERT INTO number_table (contest_id, body, digest, numbers)
		VALUES (@contest, @body, @digest, @numbers)`,
		pgx.StrictNamedArgs{"contest": contest, "body": body, "digest": a.Digest, "numbers": a.Numbers})
	return err
}
