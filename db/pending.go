package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Pending is what a contest's needs are found in beside its flights, all read
// at one moment.
type Pending struct {
	Head         Head
	Contest      ContestInfo
	Now          time.Time         // by the database's clock
	Publications []PublicationInfo // by number
	Protests     []Protest         // the first filed first
	Devices      []Device
	Sequences    map[uuid.UUID]SequenceTally // by programme
}

// A SequenceTally counts what of a programme's sequences is not done.
type SequenceTally struct {
	Unsigned   int  // registered and not signed off
	Missing    int  // not registered: of pilots with an own one, or the common one
	Unreleased bool // the common one of an unknown programme
}

// Pending reads what a contest's needs are found in.
func (db *DB) Pending(ctx context.Context, contest uuid.UUID) (p *Pending, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		p, err = readPending(ctx, tx, contest)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading what is pending: %w", err)
	}
	return p, nil
}

func readPending(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (p *Pending, err error) {
	p = &Pending{}
	of := Scope{Contest: contest}
	for _, step := range []func() error{
		func() error { p.Head, err = readHead(ctx, tx, contest); return err },
		func() error { p.Contest, err = readContestInfo(ctx, tx, contest); return err },
		func() error { p.Now, err = readClock(ctx, tx); return err },
		func() error {
			p.Publications, err = readPublications(ctx, tx, publicationQuery{contest: contest, of: of})
			return err
		},
		func() error { p.Protests, err = readProtests(ctx, tx, of); return err },
		func() error { p.Devices, err = readDevices(ctx, tx, contest); return err },
		func() error { p.Sequences, err = readTallies(ctx, tx, contest); return err },
	} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// readTallies counts over flights, so that a sequence that nobody flies asks for
// nothing.
func readTallies(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (map[uuid.UUID]SequenceTally, error) {
	read, err := rows[struct {
		Programme uuid.UUID
		SequenceTally
	}](ctx, tx, `
		SELECT
			programme_id AS programme,
			count(DISTINCT sequence_id) FILTER (WHERE signed_off_at IS NULL) AS unsigned,
			count(DISTINCT whose) FILTER (WHERE sequence_id IS NULL) AS missing,
			bool_or(kind = 'unknown' AND sequence_id IS NOT NULL AND released_at IS NULL) AS unreleased
		FROM (
			SELECT
				f.programme_id,
				p.kind,
				CASE WHEN f.own_sequences THEN f.pilot_id ELSE f.programme_id END AS whose,
				s.sequence_id,
				s.signed_off_at,
				s.released_at
			FROM flight f
			JOIN programme p USING (contest_id, programme_id)
			LEFT JOIN sequence s ON s.contest_id = f.contest_id
				AND s.programme_id = f.programme_id
				AND (s.pilot_id = f.pilot_id OR NOT f.own_sequences)
			WHERE f.contest_id = @contest
		) flown
		GROUP BY programme_id`,
		pgx.StrictNamedArgs{"contest": contest})
	tallies := make(map[uuid.UUID]SequenceTally, len(read))
	for _, r := range read {
		tallies[r.Programme] = r.SequenceTally
	}
	return tallies, err
}
