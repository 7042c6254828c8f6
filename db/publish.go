package db

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
	"halfpoint/scoring/publication"
)

// A Publishing is the wish to publish results.
type Publishing struct {
	State string // publication.Provisional or Official
	// ProtestUntil is the end of the time for protests; or ProtestTime is its
	// length, which stands still during Pause. Neither for no such time.
	ProtestUntil *time.Time
	ProtestTime  time.Duration
	Pause        *Pause
	// Reason is published. With one, results are published that could not be
	// without.
	Reason string
	By     string // the account
}

// A Signer signs what is published.
type Signer struct {
	Key     ed25519.PrivateKey
	Program string // name and version of the program that computes
}

// Publish publishes the results of a programme, or the standing of a category
// over its programmes, as they are at that moment. Fresh is false where the one
// published last says the same already, for the same reason and with the same
// time for protests: then there is no other one. Results that cannot be
// published yet are refused with Refusals.
func (db *DB) Publish(ctx context.Context, of Scope, wish Publishing, by Signer) (id uuid.UUID, fresh bool, err error) {
	scope, err := db.scopeOf(ctx, of)
	if err != nil {
		return uuid.Nil, false, fmt.Errorf("publishing results: %w", err)
	}
	_, err = db.change(ctx, scope.Contest, func(tx pgx.Tx) (*act, error) {
		p := &publisher{scores: &db.scores, scope: scope, wish: wish, signer: by, overrides: wish.Reason != ""}
		act, err := p.publish(ctx, tx)
		id, fresh = p.id, act != nil
		return act, err
	})
	if err != nil {
		return uuid.Nil, false, fmt.Errorf("publishing results: %w", err)
	}
	return id, fresh, nil
}

func (db *DB) scopeOf(ctx context.Context, of Scope) (scope Scope, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		scope, err = findScope(ctx, tx, of)
		return err
	})
	return scope, err
}

// publisher publishes once.
type publisher struct {
	scores *scores
	scope  Scope
	wish   Publishing
	signer Signer

	id       uuid.UUID // of what is published, or was
	now      time.Time // by the database's clock
	head     Head
	latest   *PublicationInfo // of the scope, nil before the first
	content  content
	refusals Refusals

	overrides bool                       // the director gave a reason
	abandoned bool                       // the programme of the scope was
	published []*scoring.ProgrammeResult // of a category: as its programmes were published
}

// A content is what is published: made of the bundle's bytes alone, as whoever
// verifies it makes it.
type content struct {
	bundle, results []byte
	parsed          *publication.Parsed  // the same, read
	sources         []publication.Source // of a category's standing
}

// publish locks what the results depend on, so that nothing of it changes until
// they are stored.
func (p *publisher) publish(ctx context.Context, tx pgx.Tx) (*act, error) {
	for _, step := range []func(context.Context, pgx.Tx) error{p.lock, p.look, p.compute} {
		if err := step(ctx, tx); err != nil {
			return nil, err
		}
	}
	until, err := p.wish.deadline(p.now)
	if err != nil {
		return nil, err
	}
	if same, err := p.isRepeated(ctx, tx); same || err != nil {
		return nil, err
	}
	if err := p.refuse(ctx, tx); err != nil {
		return nil, err
	}
	return p.store(ctx, tx, until)
}

// lock keeps others from publishing in the contest and from protesting, and
// records from coming in for a programme that is published. Locks are taken in
// one order: contest, programmes, flights, and the contest's head last.
func (p *publisher) lock(ctx context.Context, tx pgx.Tx) error {
	if err := lockContest(ctx, tx, p.scope.Contest); err != nil {
		return err
	}
	if err := lockProgrammes(ctx, tx, p.scope); err != nil || p.scope.Programme == uuid.Nil {
		return err
	}
	_, err := tx.Exec(ctx, `
		SELECT
		FROM flight
		WHERE contest_id = @contest
			AND programme_id = @programme
		ORDER BY flight_id
		FOR UPDATE`,
		pgx.StrictNamedArgs{"contest": p.scope.Contest, "programme": p.scope.Programme})
	if err != nil {
		return fmt.Errorf("locking flights: %w", err)
	}
	return nil
}

// lockProgrammes locks the programme of a scope, or all of its category's.
func lockProgrammes(ctx context.Context, tx pgx.Tx, of Scope) error {
	_, err := tx.Exec(ctx, `
		SELECT
		FROM programme
		WHERE contest_id = @contest
			AND category_id = @category
			AND (@programme::uuid IS NULL OR programme_id = @programme)
		ORDER BY programme_id
		FOR NO KEY UPDATE`,
		pgx.StrictNamedArgs{"contest": of.Contest, "category": of.Category, "programme": orNil(of.Programme)})
	if err != nil {
		return fmt.Errorf("locking programmes: %w", err)
	}
	return nil
}

// look reads where things stand.
func (p *publisher) look(ctx context.Context, tx pgx.Tx) (err error) {
	if p.now, err = readClock(ctx, tx); err != nil {
		return err
	}
	if p.head, err = readHead(ctx, tx, p.scope.Contest); err != nil {
		return err
	}
	p.latest, err = readLatest(ctx, tx, p.scope)
	return err
}

// readClock reads the database's clock, by which all deadlines go.
func readClock(ctx context.Context, tx pgx.Tx) (time.Time, error) {
	return value[time.Time](ctx, tx, "SELECT clock_timestamp()", nil)
}

// readLatest reads the last publication of a scope, nil where there is none.
func readLatest(ctx context.Context, tx pgx.Tx, of Scope) (*PublicationInfo, error) {
	list, err := readPublications(ctx, tx, publicationQuery{contest: of.Contest, of: of})
	if err != nil || len(list) == 0 {
		return nil, err
	}
	return &list[len(list)-1], nil
}

// isRepeated tells whether the latest publication says what this one would, and
// notes its id.
func (p *publisher) isRepeated(ctx context.Context, tx pgx.Tx) (bool, error) {
	if p.latest == nil || p.latest.State != p.wish.State || p.latest.Reason != p.wish.Reason {
		return false, nil
	}
	if !sameTime(p.latest.ProtestUntil, p.wish.until(p.latest.PublishedAt)) {
		return false, nil
	}
	stored, err := readPublication(ctx, tx, p.latest.ID)
	if err != nil {
		return false, err
	}
	p.id = stored.Info.ID
	return bytes.Equal(stored.Bundle, p.content.bundle) && bytes.Equal(stored.Results, p.content.results), nil
}
