package db

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
)

// ImportOptions says how a bundle becomes a contest.
type ImportOptions struct {
	Opened string // Closed where empty
	By     string // the account that imports it; empty for the machine's own operator
}

// Import makes a contest of a bundle: all of it, or nothing. Grades, absences,
// rulings, penalties and statuses become records of the line, as if the office
// had entered them; complete sheets are signed, and a flown flight whose sheets
// are all signed is closed. A bundle that is beyond a contest's limits is
// refused with document.Complaints.
func (db *DB) Import(ctx context.Context, bundle *scoring.Bundle, options ImportOptions) (contest uuid.UUID, err error) {
	text, err := bundle.Encode()
	if err != nil {
		return uuid.Nil, err
	}
	if err := checkLimits(bundle, text); err != nil {
		return uuid.Nil, err
	}
	if options.Opened == "" {
		options.Opened = Closed
	}
	i := newImporter(bundle, options)
	if err := i.plan(); err != nil {
		return uuid.Nil, fmt.Errorf("importing a contest: %w", err)
	}
	details := i.details(text)
	_, err = db.change(ctx, i.contest, func(tx pgx.Tx) (*act, error) {
		return newAct(actImported, options.By, details), i.copy(ctx, tx)
	})
	if err != nil {
		return uuid.Nil, fmt.Errorf("importing a contest: %w", err)
	}
	return i.contest, nil
}

// importedAct is what the journal says of an import.
type importedAct struct {
	BundleSHA256  string    `json:"bundle_sha256"` // of the bundle as we write it
	Opened        string    `json:"opened"`
	Store         uuid.UUID `json:"store"`          // of the records made
	Records       int       `json:"records"`        // how many
	RecordsSHA256 string    `json:"records_sha256"` // of their bytes one after the other, by seq
}

func (i *importer) details(text []byte) importedAct {
	sum := sha256.Sum256(text)
	return importedAct{
		BundleSHA256: hex.EncodeToString(sum[:]), Opened: i.options.Opened,
		Store: i.store, Records: int(i.seq), RecordsSHA256: hex.EncodeToString(i.bodies.Sum(nil)),
	}
}

// table is rows for a table of the database.
type table struct {
	name    string
	columns []string
	rows    [][]any
}

func (t *table) add(values ...any) { t.rows = append(t.rows, values) }

// copy stores the rows.
func (t *table) copy(ctx context.Context, tx pgx.Tx) error {
	if _, err := tx.CopyFrom(ctx, pgx.Identifier{t.name}, t.columns, pgx.CopyFromRows(t.rows)); err != nil {
		return fmt.Errorf("storing %s: %w", t.name, err)
	}
	return nil
}

// importer plans the rows of a contest.
type importer struct {
	bundle  *scoring.Bundle
	options ImportOptions
	contest uuid.UUID
	now     time.Time

	judges, pilots map[string]uuid.UUID // by code
	penaltyKinds   map[string]bool

	store  uuid.UUID
	seq    int64
	bodies hash.Hash

	contests, heads, officials, flyers, penalties table
	categories, entries, programmes, seats        table
	flights, sequences, items, records            table
}

func newImporter(bundle *scoring.Bundle, options ImportOptions) *importer {
	return &importer{
		bundle: bundle, options: options, contest: newID(), store: newID(), now: time.Now().UTC(), bodies: sha256.New(),
		judges: map[string]uuid.UUID{}, pilots: map[string]uuid.UUID{}, penaltyKinds: map[string]bool{},
		contests:   table{name: "contest", columns: []string{"contest_id", "name", "place", "starts", "ends", "opened"}},
		heads:      table{name: "contest_head", columns: []string{"contest_id", "version", "journal_number", "journal_hash"}},
		officials:  table{name: "official", columns: []string{"contest_id", "official_id", "code", "position", "duty", "name", "affiliation"}},
		flyers:     table{name: "pilot", columns: []string{"contest_id", "pilot_id", "code", "position", "name", "affiliation", "aircraft", "note"}},
		penalties:  table{name: "penalty_kind", columns: []string{"contest_id", "kind", "position", "points"}},
		categories: table{name: "category", columns: []string{"contest_id", "category_id", "code", "position", "name", "combine", "weights", "tie_break", "team_best"}},
		entries:    table{name: "entry", columns: []string{"contest_id", "category_id", "pilot_id", "position", "ranked", "team"}},
		programmes: table{name: "programme", columns: []string{
			"contest_id", "programme_id", "category_id", "code", "position", "name", "kind", "cut", "counts",
			"method", "trim", "discard", "style", "seat_weights", "outlier", "lean", "group_min", "hard_zero_majority", "perception_zero",
		}},
		seats:     table{name: "seat", columns: []string{"contest_id", "programme_id", "number", "judge_id"}},
		flights:   table{name: "flight", columns: []string{"contest_id", "flight_id", "programme_id", "category_id", "own_sequences", "pilot_id", "number", "position", "description"}},
		sequences: table{name: "sequence", columns: []string{"contest_id", "sequence_id", "programme_id", "category_id", "own_sequences", "pilot_id", "digest", "entry", "released_at"}},
		items:     newItemTable(),
		records:   table{name: "line_record", columns: recordColumns},
	}
}

// copy stores the plan, each table after those that it refers to.
func (i *importer) copy(ctx context.Context, tx pgx.Tx) error {
	for _, t := range []*table{
		&i.contests, &i.heads, &i.officials, &i.flyers, &i.penalties, &i.categories, &i.entries,
		&i.programmes, &i.seats, &i.flights, &i.sequences, &i.items, &i.records,
	} {
		if err := t.copy(ctx, tx); err != nil {
			return err
		}
	}
	return nil
}

// newID makes a UUIDv7: those made later in a process are greater.
func newID() uuid.UUID { return uuid.Must(uuid.NewV7()) }
