package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// A ContestCopy says what becomes of another contest's set-up. Penalties,
// categories with their limits, programmes with their methods, and the table of
// catalogue numbers always come along; nothing that was flown does.
type ContestCopy struct {
	NewContest
	Pilots    bool // with their entries
	Officials bool // with the panels
}

// CopyContest makes a contest, closed, that is set up as another one is. What is
// wrong with it comes back as document.Complaints.
func (db *DB) CopyContest(ctx context.Context, from uuid.UUID, c ContestCopy, by string) (contest uuid.UUID, err error) {
	if err := c.check(); err != nil {
		return uuid.Nil, err
	}
	contest = newID()
	_, err = db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		setup, err := readWholeSetup(ctx, tx, from)
		if err != nil {
			return nil, err
		}
		if err := insertContest(ctx, tx, contest, c.NewContest); err != nil {
			return nil, err
		}
		k := &copier{contest: contest, from: from, wish: c, ids: map[uuid.UUID]uuid.UUID{}}
		return newAct(actMade, by, madeAct{Name: c.Name, From: &from}), k.copy(ctx, tx, setup)
	})
	if err != nil {
		return uuid.Nil, fmt.Errorf("copying a contest: %w", err)
	}
	return contest, nil
}

// A copier gives every row of a set-up an id of its own.
type copier struct {
	contest, from uuid.UUID
	wish          ContestCopy
	ids           map[uuid.UUID]uuid.UUID // new ones by the old
}

func (k *copier) copy(ctx context.Context, tx pgx.Tx, s *Setup) error {
	m := &merged{contest: k.contest}
	m.penalties.put = renamed(k, s.Penalties)
	m.categories.put = renamed(k, s.Categories)
	if k.wish.Officials {
		m.officials.put = renamed(k, s.Officials)
	}
	if k.wish.Pilots {
		m.pilots.put = renamed(k, s.Pilots)
		m.entries.put = k.entries(s.Entries)
	}
	m.programmes.put = k.programmes(s.Programmes)
	if err := m.store(ctx, tx); err != nil {
		return err
	}
	return k.rules(ctx, tx, s.Categories)
}

// renamed gives rows new ids.
func renamed[R any, P rowOf[R]](k *copier, list []R) []R {
	out := make([]R, len(list))
	for i, r := range list {
		head := P(&r).head()
		k.ids[head.ID] = newID()
		head.ID = k.ids[head.ID]
		out[i] = r
	}
	return out
}

func (k *copier) entries(list []EntryRow) []EntryRow {
	out := renamed(k, list)
	for i := range out {
		out[i].Category, out[i].Pilot = k.ids[out[i].Category], k.ids[out[i].Pilot]
	}
	return out
}

// programmes leaves the panels empty where the judges stay behind.
func (k *copier) programmes(list []ProgrammeRow) []ProgrammeRow {
	out := renamed(k, list)
	for i := range out {
		out[i].Category = k.ids[out[i].Category]
		var panel []uuid.UUID
		for _, judge := range out[i].Panel {
			if id, comes := k.ids[judge]; comes {
				panel = append(panel, id)
			}
		}
		out[i].Panel = panel
	}
	return out
}

// rules copies what sequences are held against.
func (k *copier) rules(ctx context.Context, tx pgx.Tx, categories []CategoryRow) error {
	batch := &pgx.Batch{}
	for _, c := range categories {
		k.limits(batch, c.ID)
	}
	k.numbers(batch)
	if err := tx.SendBatch(ctx, batch).Close(); err != nil {
		return fmt.Errorf("copying the rules of sequences: %w", err)
	}
	return nil
}

// limits copies those of one of the contest's categories.
func (k *copier) limits(batch *pgx.Batch, of uuid.UUID) {
	batch.Queue(`
		UPDATE category AS c
		SET limits = f.limits,
			limits_note = f.limits_note
		FROM category AS f
		WHERE c.contest_id = @contest
			AND c.category_id = @category
			AND f.contest_id = @from
			AND f.category_id = @of`,
		pgx.StrictNamedArgs{"contest": k.contest, "category": k.ids[of], "from": k.from, "of": of})
}

// numbers copies the organiser's table, where there is one.
func (k *copier) numbers(batch *pgx.Batch) {
	batch.Queue(`
		INSERT INTO number_table (contest_id, body, digest, numbers)
		SELECT
			@contest,
			body,
			digest,
			numbers
		FROM number_table
		WHERE contest_id = @from`,
		pgx.StrictNamedArgs{"contest": k.contest, "from": k.from})
}
