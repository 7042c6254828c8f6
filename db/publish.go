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
	"halfpoint/scoring/document"
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

// A Pause is when the time for protests stands still, such as a night.
type Pause struct{ From, Until time.Time }

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
		pgx.StrictNamedArgs{"contest": of.Contest, "category": of.Category, "programme": nilIsNull(of.Programme)})
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

// deadline is the end of the time for protests of what is published at a time.
// What is wrong with the wish comes back as document.Complaints.
func (w *Publishing) deadline(published time.Time) (*time.Time, error) {
	var report document.Report
	ReasonBound.Check(&report, "reason", w.Reason)
	until := w.until(published)
	switch {
	case until == nil:
	case w.State == publication.Official:
		report.Add("protest_until", "official results have no time for protests")
	case w.ProtestUntil != nil && w.ProtestTime > 0:
		report.Add("protest_minutes", "the time for protests is given by its end or by its length")
	case !until.After(published):
		report.Add("protest_until", "is over already")
	}
	if w.Pause != nil && !w.Pause.Until.After(w.Pause.From) {
		report.Add("pause.until", "is not after the pause began")
	}
	return until, report.Err()
}

func (w *Publishing) until(published time.Time) *time.Time {
	if w.ProtestUntil != nil {
		until := w.ProtestUntil.UTC().Truncate(time.Microsecond)
		return &until
	}
	if w.ProtestTime <= 0 {
		return nil
	}
	until := w.Pause.extend(published, published.Add(w.ProtestTime)).UTC().Truncate(time.Microsecond)
	return &until
}

// extend moves the end of a time that begins at from by as much of the pause as
// lies in it.
func (p *Pause) extend(from, end time.Time) time.Time {
	if p == nil || !p.Until.After(from) || !end.After(p.From) {
		return end
	}
	begin := p.From
	if from.After(begin) {
		begin = from
	}
	return end.Add(p.Until.Sub(begin))
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

func sameTime(a, b *time.Time) bool {
	return a == nil && b == nil || a != nil && b != nil && a.Equal(*b)
}

// publishedAct is what the journal says of a publication.
type publishedAct struct {
	Publication uuid.UUID `json:"publication"`
	Number      int64     `json:"number"`
	State       string    `json:"state"`
	Statement   string    `json:"statement_sha256"`
}

// store signs the publication and adds it.
func (p *publisher) store(ctx context.Context, tx pgx.Tx, until *time.Time) (*act, error) {
	s, err := p.statement(ctx, tx, until)
	if err != nil {
		return nil, err
	}
	signed := publication.Sign(p.signer.Key, *s, p.wish.Reason, p.content.bundle, p.content.results)
	p.id = newID()
	if err := insertPublication(ctx, tx, p.id, p.scope.Category, signed); err != nil {
		return nil, err
	}
	return newAct(actPublished, p.wish.By, publishedAct{p.id, s.Number, s.State, publication.HashOf(signed.Statement).String()}), nil
}

func (p *publisher) statement(ctx context.Context, tx pgx.Tx, until *time.Time) (*publication.Statement, error) {
	s := &publication.Statement{
		Contest: p.scope.Contest.String(), Scope: p.scope.stated(), Number: 1, State: p.wish.State,
		Published: p.now, Program: p.signer.Program,
		JournalNumber: p.head.JournalNumber, Programmes: p.content.sources,
	}
	copy(s.JournalHash[:], p.head.JournalHash)
	if until != nil {
		s.ProtestUntil = *until
	}
	before, err := readLatest(ctx, tx, Scope{Contest: p.scope.Contest})
	if err != nil {
		return nil, err
	}
	if before != nil {
		s.Number, s.Preceding = before.Number+1, before.Statement
	}
	return s, nil
}

// stated is the scope as a statement names it.
func (s Scope) stated() publication.Scope {
	if s.Programme != uuid.Nil {
		return publication.Scope{Kind: publication.OfProgramme, ID: s.Programme.String()}
	}
	return publication.Scope{Kind: publication.OfCategory, ID: s.Category.String()}
}

// insertPublication adds a publication as its statement says.
func insertPublication(ctx context.Context, tx pgx.Tx, id, category uuid.UUID, p *publication.Publication) error {
	s, err := publication.Read(string(p.Statement))
	if err != nil {
		return fmt.Errorf("reading a statement: %w", err)
	}
	var programme, until any
	if s.Scope.Kind == publication.OfProgramme {
		programme = s.Scope.ID
	}
	if !s.ProtestUntil.IsZero() {
		until = s.ProtestUntil
	}
	_, err = tx.Exec(ctx, `
		INSERT INTO publication (
			contest_id,
			publication_id,
			number,
			category_id,
			programme_id,
			state,
			published_at,
			protest_until,
			reason,
			statement,
			signature,
			key_id,
			public_key,
			bundle,
			results
		)
		VALUES (
			@contest,
			@publication,
			@number,
			@category,
			@programme,
			@state,
			@published_at,
			@protest_until,
			@reason,
			@statement,
			@signature,
			@key_id,
			@public_key,
			@bundle,
			@results
		)`,
		pgx.StrictNamedArgs{
			"contest": s.Contest, "publication": id, "number": s.Number, "category": category, "programme": programme,
			"state": s.State, "published_at": s.Published, "protest_until": until, "reason": p.Reason,
			"statement": string(p.Statement), "signature": p.Signature, "key_id": s.Key, "public_key": []byte(p.PublicKey),
			"bundle": p.Bundle, "results": p.Results,
		})
	return err
}
