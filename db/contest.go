package db

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
)

// Who may see a contest besides its officials.
const (
	Closed    = "closed"    // nobody
	Published = "published" // anyone its publications
	Live      = "live"      // anyone its live results
)

// Named is what a link to something needs.
type Named struct {
	ID   uuid.UUID
	Name string
}

// ContestInfo is what a list says of a contest.
type ContestInfo struct {
	ID     uuid.UUID
	Name   string
	Place  string
	Starts string // YYYY-MM-DD, or empty
	Ends   string // YYYY-MM-DD, or empty
	Opened string // Closed, Published or Live
}

// contestColumns are those of a ContestInfo.
const contestColumns = `
			contest_id AS id,
			name,
			place,
			coalesce(to_char(starts, 'YYYY-MM-DD'), '') AS starts,
			coalesce(to_char(ends, 'YYYY-MM-DD'), '') AS ends,
			opened`

// ContestQuery chooses contests for a list.
type ContestQuery struct {
	Opened []string    // only contests opened in one of these ways; nil for all
	Beside []uuid.UUID // these too, however they are opened
	After  uuid.UUID   // the last one of the page before; uuid.Nil for the first page
	Limit  int         // at most so many
}

// Contests lists contests, the one made last first. There is another page where
// it returns as many as the limit.
func (db *DB) Contests(ctx context.Context, q ContestQuery) (contests []ContestInfo, err error) {
	var after *uuid.UUID
	if q.After != uuid.Nil {
		after = &q.After
	}
	err = db.read(ctx, func(tx pgx.Tx) error {
		contests, err = rows[ContestInfo](ctx, tx, `
			SELECT `+contestColumns+`
			FROM contest
			WHERE (@opened::text[] IS NULL OR opened = ANY (@opened) OR contest_id = ANY (@beside))
				AND (@after::uuid IS NULL OR contest_id < @after)
			ORDER BY contest_id DESC
			LIMIT @limit`,
			pgx.StrictNamedArgs{"opened": q.Opened, "beside": q.Beside, "after": after, "limit": q.Limit})
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing contests: %w", err)
	}
	return contests, nil
}

// Contest is a contest with what is flown in it.
type Contest struct {
	Head Head
	ContestInfo
	Categories []Category
}

// Category is a level of competition with its programmes, in the order flown.
type Category struct {
	ID         uuid.UUID
	Code       string // the id in bundles
	Name       string
	Combine    string      // scoring.BySum, BySumPercent or ByWeightedPercent
	Pilots     int         // how many are entered
	Programmes []Programme `db:"-"`
}

// Programme is one round of a category.
type Programme struct {
	ID       uuid.UUID
	Category uuid.UUID
	Code     string // the id in bundles
	Name     string
	Kind     string // scoring.Known, Free, Unknown or Freestyle
	Cut      int    // how many go on after it; 0 for all
	Counts   bool
	Method   scoring.Method
	FrozenAt *time.Time // since when the method stands; nil before the first flight is called
	Seats    int
	Flights  int // all of them
	Flown    int // landed or closed
	Closed   int // of those, closed by the chief judge
}

// Contest reads a contest with its categories and programmes.
func (db *DB) Contest(ctx context.Context, id uuid.UUID) (c *Contest, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		c = &Contest{}
		if c.Head, err = readHead(ctx, tx, id); err != nil {
			return err
		}
		if c.ContestInfo, err = readContestInfo(ctx, tx, id); err != nil {
			return err
		}
		c.Categories, err = readCategories(ctx, tx, id)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a contest: %w", err)
	}
	return c, nil
}

func readContestInfo(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (ContestInfo, error) {
	return row[ContestInfo](ctx, tx, `
		SELECT `+contestColumns+`
		FROM contest
		WHERE contest_id = @contest`,
		pgx.StrictNamedArgs{"contest": contest})
}

// readCategories reads all categories of a contest with their programmes.
func readCategories(ctx context.Context, tx pgx.Tx, contest uuid.UUID) ([]Category, error) {
	categories, err := rows[Category](ctx, tx, `
		SELECT
			c.category_id AS id,
			c.code,
			c.name,
			c.combine,
			(SELECT count(*) FROM entry e WHERE e.contest_id = c.contest_id AND e.category_id = c.category_id) AS pilots
		FROM category c
		WHERE c.contest_id = @contest
		ORDER BY c.position`,
		pgx.StrictNamedArgs{"contest": contest})
	if err != nil {
		return nil, err
	}
	programmes, err := readProgrammes(ctx, tx, contest)
	if err != nil {
		return nil, err
	}
	for i := range categories {
		c := &categories[i]
		c.Programmes = slices.DeleteFunc(slices.Clone(programmes), func(p Programme) bool { return p.Category != c.ID })
	}
	return categories, nil
}

// SetOpened says who may see a contest besides its officials: Closed, Published
// or Live. By is the account that says so.
func (db *DB) SetOpened(ctx context.Context, contest uuid.UUID, opened, by string) error {
	_, err := db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		err := exec(ctx, tx, `
			UPDATE contest
			SET opened = @opened,
				revision = revision + 1
			WHERE contest_id = @contest`,
			pgx.StrictNamedArgs{"contest": contest, "opened": opened})
		if err != nil {
			return nil, err
		}
		return newAct(actOpened, by, map[string]string{"opened": opened}), nil
	})
	if err != nil {
		return fmt.Errorf("opening a contest: %w", err)
	}
	return nil
}

// NewContest is what a contest is made of; its categories and people come
// later.
type NewContest struct {
	Name   string
	Place  string
	Starts string // YYYY-MM-DD, or empty
	Ends   string // YYYY-MM-DD, or empty; not before Starts
}

// check complains, as document.Complaints, of what a contest cannot be.
func (n *NewContest) check() error {
	var l limits
	NameBound.Check(&l.report, "name", n.Name)
	LineBound.Check(&l.report, "place", n.Place)
	l.days("", n.Starts, n.Ends)
	return l.report.Err()
}

// MakeContest makes an empty contest that is closed. By is the account that
// makes it. What is wrong with it comes back as document.Complaints.
func (db *DB) MakeContest(ctx context.Context, n NewContest, by string) (contest uuid.UUID, err error) {
	if err := n.check(); err != nil {
		return uuid.Nil, err
	}
	contest = newID()
	_, err = db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		return newAct(actMade, by, madeAct{Name: n.Name}), insertContest(ctx, tx, contest, n)
	})
	if err != nil {
		return uuid.Nil, fmt.Errorf("making a contest: %w", err)
	}
	return contest, nil
}

// madeAct is what the journal says of a new contest.
type madeAct struct {
	Name string     `json:"name"`
	From *uuid.UUID `json:"from,omitempty"` // the contest that it is a copy of
}

func insertContest(ctx context.Context, tx pgx.Tx, contest uuid.UUID, n NewContest) error {
	_, err := tx.Exec(ctx, `
		WITH made AS (
			INSERT INTO contest (contest_id, name, place, starts, ends, opened)
			VALUES (@contest, @name, @place, nullif(@starts, '')::date, nullif(@ends, '')::date, @opened)
			RETURNING contest_id
		)
		INSERT INTO contest_head (contest_id, version, journal_number, journal_hash)
		SELECT
			contest_id,
			0,
			0,
			decode(repeat('00', 32), 'hex')
		FROM made`,
		pgx.StrictNamedArgs{
			"contest": contest, "name": n.Name, "place": n.Place, "starts": n.Starts, "ends": n.Ends, "opened": Closed,
		})
	return err
}

// lockContest has one change of what a contest says of itself, or publishes,
// wait for the one before.
func lockContest(ctx context.Context, tx pgx.Tx, contest uuid.UUID) error {
	err := exec(ctx, tx, `
		SELECT
		FROM contest
		WHERE contest_id = @contest
		FOR NO KEY UPDATE`,
		pgx.StrictNamedArgs{"contest": contest})
	if err != nil {
		return fmt.Errorf("locking a contest: %w", err)
	}
	return nil
}
