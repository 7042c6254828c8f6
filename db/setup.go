package db

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
)

// A Setup is what the office sets up of a contest: everything but sequences,
// flights and what happens on the line. Lists are in the order shown.
type Setup struct {
	Head       Head
	Contest    ContestRow
	Penalties  []PenaltyRow
	Officials  []OfficialRow
	Pilots     []PilotRow
	Categories []CategoryRow
	Entries    []EntryRow
	Programmes []ProgrammeRow
}

// RowHead is what every row of a set-up has.
type RowHead struct {
	ID       uuid.UUID
	Revision int64 // counts the row's changes from 1; 0 for one that is not there yet
	Position int   // order in its list
}

func (h *RowHead) head() *RowHead { return h }

// A ContestRow is what a contest says of itself. Its position means nothing.
type ContestRow struct {
	RowHead
	Name   string
	Place  string
	Starts string // YYYY-MM-DD, or empty
	Ends   string // YYYY-MM-DD, or empty
	Opened string // Closed, Published or Live
}

// A PenaltyRow is a kind of penalty that the officials are offered.
type PenaltyRow struct {
	RowHead
	Kind         string
	Points       float64 // for each occurrence
	Repeats      bool    // it can occur more than once in a flight
	Disqualifies bool
}

// judgeDuty is what an official does who can sit on a panel.
const judgeDuty = "judge"

// An OfficialRow is a judge, or another person who runs the contest.
type OfficialRow struct {
	RowHead
	Code        string // the id in bundles, where judges alone stand
	Duty        string // judge, chief, assistant, announcer, office, director or jury
	Name        string
	Affiliation string
}

// A PilotRow is a pilot of the contest.
type PilotRow struct {
	RowHead
	Code        string // the id in bundles
	Name        string
	Affiliation string
	Aircraft    string
	Note        string // a line about the pilot, for the announcer
}

// A CategoryRow is a level of competition.
type CategoryRow struct {
	RowHead
	Code    string // the id in bundles
	Name    string
	Combine scoring.Combine
}

// An EntryRow is a pilot in a category.
type EntryRow struct {
	RowHead
	Category uuid.UUID
	Pilot    uuid.UUID
	Ranked   bool // false is hors concours
	Team     string
}

// A ProgrammeRow is a round of a category with its panel. Whether it counts is
// no part of its set-up: that is decided with a reason, by [DB.SetCounting].
type ProgrammeRow struct {
	RowHead
	Category uuid.UUID
	Code     string // the id in bundles
	Name     string
	Kind     string
	Cut      int
	Method   scoring.Method
	Panel    []uuid.UUID // judges, seat 1 first
}

// Setup reads what is set up of a contest.
func (db *DB) Setup(ctx context.Context, contest uuid.UUID) (s *Setup, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		s, err = readWholeSetup(ctx, tx, contest)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a contest's set-up: %w", err)
	}
	return s, nil
}

func readWholeSetup(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (*Setup, error) {
	s := &Setup{}
	for _, read := range []func(context.Context, pgx.Tx, uuid.UUID) error{
		s.readHead, s.readContest, s.readPenalties, s.readOfficials, s.readPilots, s.readCategories, s.readEntries, s.readProgrammes,
	} {
		if err := read(ctx, tx, contest); err != nil {
			return nil, err
		}
	}
	return s, nil
}

func (s *Setup) readHead(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (err error) {
	s.Head, err = readHead(ctx, tx, contest)
	return err
}

func (s *Setup) readContest(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (err error) {
	s.Contest, err = row[ContestRow](ctx, tx, `
		SELECT `+contestColumns+`,
			revision,
			0 AS position
		FROM contest
		WHERE contest_id = @contest`,
		pgx.StrictNamedArgs{"contest": contest})
	return err
}

func (s *Setup) readPenalties(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (err error) {
	s.Penalties, err = rows[PenaltyRow](ctx, tx, `
		SELECT
			penalty_kind_id AS id,
			revision,
			position,
			kind,
			points,
			repeats,
			disqualifies
		FROM penalty_kind
		WHERE contest_id = @contest
		ORDER BY position, kind`,
		pgx.StrictNamedArgs{"contest": contest})
	return err
}

func (s *Setup) readOfficials(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (err error) {
	s.Officials, err = rows[OfficialRow](ctx, tx, `
		SELECT
			official_id AS id,
			revision,
			position,
			code,
			duty,
			name,
			affiliation
		FROM official
		WHERE contest_id = @contest
		ORDER BY position, official_id`,
		pgx.StrictNamedArgs{"contest": contest})
	return err
}

func (s *Setup) readPilots(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (err error) {
	s.Pilots, err = rows[PilotRow](ctx, tx, `
		SELECT
			pilot_id AS id,
			revision,
			position,
			code,
			name,
			affiliation,
			aircraft,
			note
		FROM pilot
		WHERE contest_id = @contest
		ORDER BY position, pilot_id`,
		pgx.StrictNamedArgs{"contest": contest})
	return err
}

func (s *Setup) readCategories(ctx context.Context, tx pgx.Tx, contest uuid.UUID) error {
	read, err := rows[struct {
		RowHead
		Code string
		Name string
		combineRow
	}](ctx, tx, `
		SELECT
			category_id AS id,
			revision,
			position,
			code,
			name,
			combine,
			weights,
			tie_break,
			team_best
		FROM category
		WHERE contest_id = @contest
		ORDER BY position, category_id`,
		pgx.StrictNamedArgs{"contest": contest})
	if err != nil {
		return err
	}
	s.Categories = make([]CategoryRow, len(read))
	for i, r := range read {
		combine, err := r.combine()
		if err != nil {
			return fmt.Errorf("category %s: %w", r.Code, err)
		}
		s.Categories[i] = CategoryRow{r.RowHead, r.Code, r.Name, combine}
	}
	return nil
}

func (s *Setup) readEntries(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (err error) {
	s.Entries, err = rows[EntryRow](ctx, tx, `
		SELECT
			entry_id AS id,
			revision,
			position,
			category_id AS category,
			pilot_id AS pilot,
			ranked,
			team
		FROM entry
		WHERE contest_id = @contest
		ORDER BY category_id, position, entry_id`,
		pgx.StrictNamedArgs{"contest": contest})
	return err
}

func (s *Setup) readProgrammes(ctx context.Context, tx pgx.Tx, contest uuid.UUID) error {
	read, err := readProgrammeRows(ctx, tx, contest, nil, nil)
	if err != nil {
		return err
	}
	s.Programmes = make([]ProgrammeRow, len(read))
	programmes := make([]uuid.UUID, len(read))
	for i, r := range read {
		programmes[i] = r.ID
		s.Programmes[i] = ProgrammeRow{
			RowHead{r.ID, r.Revision, r.Position}, r.Category, r.Code, r.Name, r.Kind, r.Cut, r.method(), make([]uuid.UUID, r.Seats),
		}
	}
	panels, err := readPanels(ctx, tx, contest, programmes)
	for i, id := range programmes {
		for n, seat := range panels[id] {
			s.Programmes[i].Panel[n] = seat.Judge
		}
	}
	return err
}
