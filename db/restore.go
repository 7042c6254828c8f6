package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/publication"
)

// An Inventory says what a database holds, so that a copy can be held against
// it.
type Inventory struct {
	Epoch    uuid.UUID          `json:"epoch"`
	Contests []InventoryContest `json:"contests"`
}

// An InventoryContest is what an inventory says of a contest. Hashes are SHA-256
// in lower-case hexadecimal.
type InventoryContest struct {
	ID            uuid.UUID              `json:"id"`
	Name          string                 `json:"name"`
	Version       int64                  `json:"version"`
	JournalNumber int64                  `json:"journal_number"`
	JournalHash   string                 `json:"journal_sha256"`
	Bundle        string                 `json:"bundle_sha256"` // of the whole contest
	Publications  []InventoryPublication `json:"publications"`
}

// An InventoryPublication is what an inventory says of a publication.
type InventoryPublication struct {
	ID        uuid.UUID `json:"id"`
	Number    int64     `json:"number"`
	Statement string    `json:"statement_sha256"`
	Bundle    string    `json:"bundle_sha256"`
	Results   string    `json:"results_sha256"`
}

// Inventory takes stock of the database.
func (db *DB) Inventory(ctx context.Context) (i *Inventory, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		i, err = readInventory(ctx, tx)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("taking stock: %w", err)
	}
	return i, nil
}

// Snapshot takes stock of the database, and calls use with the name of the
// snapshot in which it did: while use runs, Postgres's own tools see the same.
func (db *DB) Snapshot(ctx context.Context, use func(name string, i *Inventory) error) error {
	err := db.read(ctx, func(tx pgx.Tx) error {
		name, err := value[string](ctx, tx, "SELECT pg_export_snapshot()", nil)
		if err != nil {
			return err
		}
		i, err := readInventory(ctx, tx)
		if err != nil {
			return err
		}
		return use(name, i)
	})
	if err != nil {
		return fmt.Errorf("taking a snapshot: %w", err)
	}
	return nil
}

func readInventory(ctx context.Context, tx pgx.Tx) (*Inventory, error) {
	epoch, err := value[uuid.UUID](ctx, tx, "SELECT epoch FROM server", nil)
	if err != nil {
		return nil, err
	}
	contests, err := readContestIDs(ctx, tx)
	if err != nil {
		return nil, err
	}
	i := &Inventory{Epoch: epoch, Contests: []InventoryContest{}}
	for _, id := range contests {
		one, err := readInventoryContest(ctx, tx, id)
		if err != nil {
			return nil, err
		}
		i.Contests = append(i.Contests, one)
	}
	return i, nil
}

// readContestIDs reads the ids of all contests, in one order.
func readContestIDs(ctx context.Context, tx pgx.Tx) ([]uuid.UUID, error) {
	return values[uuid.UUID](ctx, tx, `
		SELECT contest_id
		FROM contest
		ORDER BY contest_id`, nil)
}

func readInventoryContest(ctx context.Context, tx pgx.Tx, id uuid.UUID) (c InventoryContest, err error) {
	part, err := readPart(ctx, tx, scope{contest: id})
	if err != nil {
		return c, err
	}
	text, err := part.Bundle.Encode()
	if err != nil {
		return c, err
	}
	c = InventoryContest{
		ID: id, Name: part.Contest.Name, Version: part.Head.Version, JournalNumber: part.Head.JournalNumber,
		JournalHash: publication.Hash(part.Head.JournalHash).String(), Bundle: publication.HashOf(text).String(),
	}
	c.Publications, err = rows[InventoryPublication](ctx, tx, `
		SELECT
			publication_id AS id,
			number,
			encode(sha256(convert_to(statement, 'UTF8')), 'hex') AS statement,
			encode(sha256(bundle), 'hex') AS bundle,
			encode(sha256(results), 'hex') AS results
		FROM publication
		WHERE contest_id = @contest
		ORDER BY number`,
		pgx.StrictNamedArgs{"contest": id})
	return c, err
}

// Differences lists, in words, what a copy does not have as it is here.
func (i *Inventory) Differences(copied *Inventory) (words []string) {
	if i.Epoch != copied.Epoch {
		words = append(words, "the epoch is another one")
	}
	there := map[uuid.UUID]*InventoryContest{}
	for n := range copied.Contests {
		there[copied.Contests[n].ID] = &copied.Contests[n]
	}
	for n := range i.Contests {
		c := &i.Contests[n]
		if other := there[c.ID]; other == nil {
			words = append(words, fmt.Sprintf("contest %s (%s) is missing", c.ID, c.Name))
		} else {
			words = append(words, c.differences(other)...)
		}
	}
	if len(i.Contests) != len(copied.Contests) {
		words = append(words, fmt.Sprintf("%d contests instead of %d", len(copied.Contests), len(i.Contests)))
	}
	return words
}

func (c *InventoryContest) differences(other *InventoryContest) (words []string) {
	say := func(differs bool, format string, args ...any) {
		if differs {
			words = append(words, fmt.Sprintf("contest %s (%s): ", c.ID, c.Name)+fmt.Sprintf(format, args...))
		}
	}
	say(c.Version != other.Version, "it is at version %d instead of %d", other.Version, c.Version)
	say(c.JournalNumber != other.JournalNumber || c.JournalHash != other.JournalHash, "the journal is another one")
	say(c.Bundle != other.Bundle, "its bundle is another one")
	there := map[uuid.UUID]InventoryPublication{}
	for _, p := range other.Publications {
		there[p.ID] = p
	}
	for _, p := range c.Publications {
		say(there[p.ID] != p, "publication %d is missing or another one", p.Number)
	}
	say(len(c.Publications) != len(other.Publications), "%d publications instead of %d", len(other.Publications), len(c.Publications))
	return words
}

// restoredAct is what the journal says of a restore.
type restoredAct struct {
	BackupOf time.Time `json:"backup_of"` // when the backup was taken
	Epoch    uuid.UUID `json:"epoch"`     // before
}

// Restored says that the database was restored from a backup: it begins a new
// epoch, so that devices send again what is missing, and each contest's journal
// says so.
func (db *DB) Restored(ctx context.Context, backupOf time.Time) error {
	err := db.transact(ctx, pgx.TxOptions{}, func(tx pgx.Tx) error { return restored(ctx, tx, backupOf) })
	if err != nil {
		return fmt.Errorf("beginning a new epoch: %w", err)
	}
	return nil
}

func restored(ctx context.Context, tx pgx.Tx, backupOf time.Time) error {
	before, err := value[uuid.UUID](ctx, tx, "SELECT epoch FROM server FOR UPDATE", nil)
	if err != nil {
		return err
	}
	if _, err := tx.Exec(ctx, "UPDATE server SET epoch = gen_random_uuid()"); err != nil {
		return err
	}
	contests, err := readContestIDs(ctx, tx)
	if err != nil {
		return err
	}
	act := newAct(actRestored, "", restoredAct{BackupOf: backupOf.UTC(), Epoch: before})
	for _, id := range contests {
		if _, err := raise(ctx, tx, id, *act); err != nil {
			return err
		}
	}
	return nil
}

// TakeBack stores a publication that the database had before it was restored. It
// was checked before. Taken is false where it is here already; one whose number
// another one has is ErrConflict, one of a contest or programme that is not here
// ErrNotFound.
func (db *DB) TakeBack(ctx context.Context, id uuid.UUID, p *publication.Publication) (taken bool, err error) {
	s, err := publication.Read(string(p.Statement))
	if err != nil {
		return false, fmt.Errorf("taking a publication back: %w: %w", ErrInvalid, err)
	}
	scope, err := db.scopeOf(ctx, scopeStated(s))
	if err == nil && scope.Contest.String() != s.Contest {
		err = ErrNotFound
	}
	if err == nil {
		_, err = db.change(ctx, scope.Contest, func(tx pgx.Tx) (act *act, err error) {
			act, err = takeBack(ctx, tx, scope, id, s, p)
			taken = act != nil
			return act, err
		})
	}
	if err != nil {
		return false, fmt.Errorf("taking publication %d back: %w", s.Number, err)
	}
	return taken, nil
}

// scopeStated is the scope that a statement names.
func scopeStated(s *publication.Statement) Scope {
	id := uuid.MustParse(s.Scope.ID) // Read has looked at it
	if s.Scope.Kind == publication.OfProgramme {
		return Scope{Programme: id}
	}
	return Scope{Category: id}
}

func takeBack(ctx context.Context, tx pgx.Tx, of Scope, id uuid.UUID, s *publication.Statement, p *publication.Publication) (*act, error) {
	there, err := readPublications(ctx, tx, publicationQuery{contest: of.Contest, id: &id})
	if err != nil || len(there) > 0 {
		return nil, err
	}
	if err := insertPublication(ctx, tx, id, of.Category, p); err != nil {
		return nil, err
	}
	return newAct(actTakenBack, "", publishedAct{id, s.Number, s.State, publication.HashOf(p.Statement).String()}), nil
}
