package db

import (
	"context"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// uses is what the flights, the sequences and the line need of a set-up.
type uses struct {
	entered map[[2]uuid.UUID]bool // category and pilot with a flight or a sequence
	flown   map[uuid.UUID]bool    // programmes with flights or sequences
	called  map[uuid.UUID]bool    // programmes with a record of the line
	graded  map[[2]uuid.UUID]bool // programme and judge with a record
}

func readUses(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (*uses, error) {
	u := &uses{map[[2]uuid.UUID]bool{}, map[uuid.UUID]bool{}, map[uuid.UUID]bool{}, map[[2]uuid.UUID]bool{}}
	if err := u.readPlanned(ctx, tx, contest); err != nil {
		return nil, err
	}
	return u, u.readRecorded(ctx, tx, contest)
}

// readPlanned reads what flights and sequences need.
func (u *uses) readPlanned(ctx context.Context, tx pgx.Tx, contest uuid.UUID) error {
	planned, err := rows[struct {
		Programme uuid.UUID
		Category  uuid.UUID
		Pilot     *uuid.UUID
	}](ctx, tx, `
		SELECT
			programme_id AS programme,
			category_id AS category,
			pilot_id AS pilot
		FROM flight
		WHERE contest_id = @contest
		UNION
		SELECT
			programme_id,
			category_id,
			pilot_id
		FROM sequence
		WHERE contest_id = @contest`,
		pgx.StrictNamedArgs{"contest": contest})
	for _, p := range planned {
		u.flown[p.Programme] = true
		if p.Pilot != nil {
			u.entered[[2]uuid.UUID{p.Category, *p.Pilot}] = true
		}
	}
	return err
}

// readRecorded reads what the records of the line need.
func (u *uses) readRecorded(ctx context.Context, tx pgx.Tx, contest uuid.UUID) error {
	recorded, err := rows[struct {
		Programme uuid.UUID
		Judge     *uuid.UUID
	}](ctx, tx, `
		SELECT DISTINCT
			f.programme_id AS programme,
			r.judge_id AS judge
		FROM line_record r
		JOIN flight f USING (contest_id, flight_id)
		WHERE r.contest_id = @contest`,
		pgx.StrictNamedArgs{"contest": contest})
	for _, r := range recorded {
		u.called[r.Programme] = true
		if r.Judge != nil {
			u.graded[[2]uuid.UUID{r.Programme, *r.Judge}] = true
		}
	}
	return err
}
