package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// ProgrammeDetail is all of a programme that is set up.
type ProgrammeDetail struct {
	Head     Head
	Contest  ContestInfo
	Category Named
	Programme
	Panel    []Seat
	Sequence *Sequence // all pilots', nil where each has the own or it is not there yet
}

// A Seat is a judge's chair on a panel.
type Seat struct {
	Number      int // counts from 1
	Judge       uuid.UUID
	Code        string // the judge's id in bundles
	Name        string
	Affiliation string
}

// A Sequence is what is flown. Only the office may see one that is not released.
type Sequence struct {
	scoring.Sequence
	Digest     string
	Revision   int // counts what was registered in its place, from 1
	Registered time.Time
	Released   *time.Time
	SignedOff  *SignOff // nil where nobody has accepted this revision

	id uuid.UUID
}

// A SignOff is the office's acceptance of a sequence.
type SignOff struct {
	At     time.Time
	By     string
	Reason string // empty where none was needed or given
}

// Programme reads a programme with its panel and the common sequence.
func (db *DB) Programme(ctx context.Context, id uuid.UUID) (p *ProgrammeDetail, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		contest, err := contestOf(ctx, tx, "programme", id)
		if err != nil {
			return err
		}
		p, err = readProgramme(ctx, tx, contest, id)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a programme: %w", err)
	}
	return p, nil
}

func readProgramme(ctx context.Context, tx pgx.Tx, contest, id uuid.UUID) (p *ProgrammeDetail, err error) {
	p = &ProgrammeDetail{}
	if p.Head, err = readHead(ctx, tx, contest); err != nil {
		return nil, err
	}
	if p.Contest, err = readContestInfo(ctx, tx, contest); err != nil {
		return nil, err
	}
	all, err := readProgrammes(ctx, tx, contest, id)
	if err != nil {
		return nil, err
	}
	p.Programme = all[0]
	if p.Category, err = readCategoryName(ctx, tx, contest, p.Programme.Category); err != nil {
		return nil, err
	}
	panels, err := readPanels(ctx, tx, contest, []uuid.UUID{id})
	if err != nil {
		return nil, err
	}
	p.Panel = panels[id]
	sequences, err := readSequences(ctx, tx, contest, []uuid.UUID{id})
	p.Sequence = sequences[sequenceKey{programme: id}]
	return p, err
}

func readCategoryName(ctx context.Context, tx pgx.Tx, contest, category uuid.UUID) (Named, error) {
	return row[Named](ctx, tx, `
		SELECT
			category_id AS id,
			name
		FROM category
		WHERE contest_id = @contest
			AND category_id = @category`,
		pgx.StrictNamedArgs{"contest": contest, "category": category})
}

// readProgrammes reads the named programmes of a contest, or all, in the order
// of the categories and of flying.
func readProgrammes(ctx context.Context, tx pgx.Tx, contest uuid.UUID, only ...uuid.UUID) ([]Programme, error) {
	read, err := readProgrammeRows(ctx, tx, contest, nil, only)
	if err != nil {
		return nil, err
	}
	programmes := make([]Programme, len(read))
	for i, r := range read {
		programmes[i] = r.programme()
	}
	return programmes, countFlights(ctx, tx, contest, programmes)
}

// readProgrammeRows reads the programmes of a contest, of one category only
// where one is named, and of these only the named ones where some are.
func readProgrammeRows(ctx context.Context, tx pgx.Tx, contest uuid.UUID, category *uuid.UUID, only []uuid.UUID) ([]programmeRow, error) {
	return rows[programmeRow](ctx, tx, `
		SELECT
			p.programme_id AS id,
			p.revision,
			p.position,
			p.category_id AS category,
			p.code,
			p.name,
			p.kind,
			p.cut,
			p.counts,
			p.frozen_at,
			p.method AS method_name,
			p.trim,
			p.discard,
			p.style,
			p.seat_weights,
			p.outlier,
			p.lean,
			p.group_min,
			p.hard_zero_majority,
			p.perception_zero,
			(SELECT count(*) FROM seat s WHERE s.contest_id = p.contest_id AND s.programme_id = p.programme_id) AS seats
		FROM programme p
		JOIN category c USING (contest_id, category_id)
		WHERE p.contest_id = @contest
			AND (@category::uuid IS NULL OR p.category_id = @category)
			AND (@only::uuid[] IS NULL OR p.programme_id = ANY (@only))
		ORDER BY c.position, p.position`,
		pgx.StrictNamedArgs{"contest": contest, "category": category, "only": only})
}

// programmeRow is a programme as the database has it.
type programmeRow struct {
	ID       uuid.UUID
	Revision int64
	Position int
	Category uuid.UUID
	Code     string
	Name     string
	Kind     string
	Cut      int
	Counts   bool
	FrozenAt *time.Time
	methodRow
	Seats int
}

type methodRow struct {
	MethodName       string
	Trim             int
	Discard          float64
	Style            bool
	SeatWeights      string
	Outlier          float64
	Lean             float64
	GroupMin         int
	HardZeroMajority string
	PerceptionZero   string
}

func (r *methodRow) method() scoring.Method {
	return scoring.Method{
		Name: r.MethodName, Trim: r.Trim, Discard: r.Discard, Style: r.Style, SeatWeights: r.SeatWeights,
		Outlier: r.Outlier, Lean: r.Lean, GroupMin: r.GroupMin,
		HardZeroMajority: r.HardZeroMajority, PerceptionZero: r.PerceptionZero,
	}
}

func (r *programmeRow) programme() Programme {
	return Programme{
		ID: r.ID, Category: r.Category, Code: r.Code, Name: r.Name, Kind: r.Kind, Cut: r.Cut, Counts: r.Counts,
		Method: r.method(), FrozenAt: r.FrozenAt, Seats: r.Seats,
	}
}

// countFlights counts flights by their status, which only a few records of the
// line decide.
func countFlights(ctx context.Context, tx pgx.Tx, contest uuid.UUID, programmes []Programme) error {
	ids, at := make([]uuid.UUID, len(programmes)), map[uuid.UUID]*Programme{}
	for i := range programmes {
		ids[i], at[programmes[i].ID] = programmes[i].ID, &programmes[i]
	}
	flights, err := readFlights(ctx, tx, contest, ids)
	if err != nil {
		return err
	}
	statuses, err := readStatuses(ctx, tx, contest, flights)
	if err != nil {
		return err
	}
	for i, f := range flights {
		p := at[f.Programme]
		p.Flights++
		switch statuses[i] {
		case line.StatusClosed:
			p.Closed++
			p.Flown++
		case line.StatusLanded:
			p.Flown++
		}
	}
	return nil
}

// readPanels reads the panels of programmes, each in the order of the seats.
func readPanels(ctx context.Context, tx pgx.Tx, contest uuid.UUID, programmes []uuid.UUID) (map[uuid.UUID][]Seat, error) {
	read, err := rows[struct {
		Programme uuid.UUID
		Seat
	}](ctx, tx, `
		SELECT
			s.programme_id AS programme,
			s.number,
			s.judge_id AS judge,
			o.code,
			o.name,
			o.affiliation
		FROM seat s
		JOIN official o ON o.contest_id = s.contest_id AND o.official_id = s.judge_id
		WHERE s.contest_id = @contest
			AND s.programme_id = ANY (@programmes)
		ORDER BY s.programme_id, s.number`,
		pgx.StrictNamedArgs{"contest": contest, "programmes": programmes})
	panels := map[uuid.UUID][]Seat{}
	for _, r := range read {
		panels[r.Programme] = append(panels[r.Programme], r.Seat)
	}
	return panels, err
}
