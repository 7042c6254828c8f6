package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/publication"
)

// PublicationInfo is what a list says of a publication.
type PublicationInfo struct {
	ID           uuid.UUID
	Contest      uuid.UUID
	Number       int64 // counts the contest's publications from 1
	Category     Named
	Programme    *Named // nil for the standing over the category's programmes
	State        string // publication.Provisional or Official
	PublishedAt  time.Time
	ProtestUntil *time.Time // nil where there is no time for protests
	Reason       string
	KeyID        string
	Statement    publication.Hash
	// Supersedes is the one before it of the same scope.
	Supersedes *uuid.UUID
}

// Kind is what it is of: publication.OfProgramme or OfCategory.
func (p *PublicationInfo) Kind() string {
	if p.Programme != nil {
		return publication.OfProgramme
	}
	return publication.OfCategory
}

// SameScope tells whether both are of one programme, or of one category's
// standing.
func (p *PublicationInfo) SameScope(q *PublicationInfo) bool {
	if p.Category.ID != q.Category.ID || p.Kind() != q.Kind() {
		return false
	}
	return p.Programme == nil || p.Programme.ID == q.Programme.ID
}

// A Scope is what results are published of: a programme, a category's standing
// over its programmes, or, for a list, all of a contest's.
type Scope struct {
	Contest   uuid.UUID // one of the three is given
	Category  uuid.UUID
	Programme uuid.UUID
}

// PublicationList is what was published of a scope.
type PublicationList struct {
	Head         Head
	Contest      ContestInfo
	Publications []PublicationInfo // by number
}

// Publications lists what was published of a scope.
func (db *DB) Publications(ctx context.Context, of Scope) (list *PublicationList, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		scope, err := findScope(ctx, tx, of)
		if err != nil {
			return err
		}
		list = &PublicationList{}
		if list.Head, err = readHead(ctx, tx, scope.Contest); err != nil {
			return err
		}
		if list.Contest, err = readContestInfo(ctx, tx, scope.Contest); err != nil {
			return err
		}
		list.Publications, err = readPublications(ctx, tx, publicationQuery{contest: scope.Contest, of: of})
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing publications: %w", err)
	}
	return list, nil
}

// findScope fills in the contest of a scope, and the category of a programme.
func findScope(ctx context.Context, tx pgx.Tx, of Scope) (Scope, error) {
	switch {
	case of.Programme != uuid.Nil:
		found, err := row[struct{ Contest, Category uuid.UUID }](ctx, tx, `
			SELECT
				contest_id AS contest,
				category_id AS category
			FROM programme
			WHERE programme_id = @programme`,
			pgx.StrictNamedArgs{"programme": of.Programme})
		return Scope{Contest: found.Contest, Category: found.Category, Programme: of.Programme}, err
	case of.Category != uuid.Nil:
		contest, err := contestOf(ctx, tx, "category", of.Category)
		return Scope{Contest: contest, Category: of.Category}, err
	}
	return of, nil
}

// A publicationQuery chooses publications of a contest: of one scope where it
// names a programme or a category, and the one with an id where that is given.
type publicationQuery struct {
	contest uuid.UUID
	of      Scope
	id      *uuid.UUID
}

// readPublications reads the chosen publications, by number.
func readPublications(ctx context.Context, tx pgx.Tx, q publicationQuery) ([]PublicationInfo, error) {
	read, err := rows[publicationRow](ctx, tx, `
		WITH numbered AS (
			SELECT
				publication_id,
				lag(publication_id) OVER (PARTITION BY category_id, programme_id ORDER BY number) AS supersedes
			FROM publication
			WHERE contest_id = @contest
		)
		SELECT
			p.publication_id AS id,
			p.contest_id AS contest,
			p.number,
			p.category_id,
			c.name AS category_name,
			p.programme_id,
			coalesce(o.name, '') AS programme_name,
			p.state,
			p.published_at,
			p.protest_until,
			p.reason,
			p.key_id,
			sha256(convert_to(p.statement, 'UTF8')) AS statement,
			n.supersedes
		FROM publication p
		JOIN numbered n USING (publication_id)
		JOIN category c ON c.contest_id = p.contest_id AND c.category_id = p.category_id
		LEFT JOIN programme o ON o.contest_id = p.contest_id AND o.programme_id = p.programme_id
		WHERE p.contest_id = @contest
			AND (@publication::uuid IS NULL OR p.publication_id = @publication)
			AND (@programme::uuid IS NULL OR p.programme_id = @programme)
			AND (@category::uuid IS NULL OR p.category_id = @category AND p.programme_id IS NULL)
		ORDER BY p.number`,
		pgx.StrictNamedArgs{
			"contest": q.contest, "publication": q.id,
			"programme": orNil(q.of.Programme), "category": q.categoryAlone(),
		})
	list := make([]PublicationInfo, len(read))
	for i := range read {
		list[i] = read[i].info()
	}
	return list, err
}

// categoryAlone is the category where its own standing is asked for.
func (q *publicationQuery) categoryAlone() *uuid.UUID {
	if q.of.Programme != uuid.Nil {
		return nil
	}
	return orNil(q.of.Category)
}

type publicationRow struct {
	ID            uuid.UUID
	Contest       uuid.UUID
	Number        int64
	CategoryID    uuid.UUID
	CategoryName  string
	ProgrammeID   *uuid.UUID
	ProgrammeName string
	State         string
	PublishedAt   time.Time
	ProtestUntil  *time.Time
	Reason        string
	KeyID         string
	Statement     []byte
	Supersedes    *uuid.UUID
}

func (r *publicationRow) info() PublicationInfo {
	info := PublicationInfo{
		ID: r.ID, Contest: r.Contest, Number: r.Number, Category: Named{r.CategoryID, r.CategoryName},
		State: r.State, PublishedAt: r.PublishedAt, ProtestUntil: r.ProtestUntil, Reason: r.Reason, KeyID: r.KeyID,
		Statement: publication.Hash(r.Statement), Supersedes: r.Supersedes,
	}
	if r.ProgrammeID != nil {
		info.Programme = &Named{*r.ProgrammeID, r.ProgrammeName}
	}
	return info
}

// A StoredPublication is a publication with all its bytes.
type StoredPublication struct {
	Info    PublicationInfo
	Contest ContestInfo
	publication.Publication
}

// Publication reads a publication as it was stored.
func (db *DB) Publication(ctx context.Context, id uuid.UUID) (p *StoredPublication, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		p, err = readPublication(ctx, tx, id)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading a publication: %w", err)
	}
	return p, nil
}

func readPublication(ctx context.Context, tx pgx.Tx, id uuid.UUID) (p *StoredPublication, err error) {
	p = &StoredPublication{}
	var contest uuid.UUID
	if contest, p.Publication, err = readPublished(ctx, tx, id); err != nil {
		return nil, err
	}
	if p.Contest, err = readContestInfo(ctx, tx, contest); err != nil {
		return nil, err
	}
	infos, err := readPublications(ctx, tx, publicationQuery{contest: contest, id: &id})
	if err != nil {
		return nil, err
	}
	p.Info = infos[0]
	return p, nil
}

// readPublished reads the bytes of a publication, and of which contest it is.
func readPublished(ctx context.Context, tx pgx.Tx, id uuid.UUID) (contest uuid.UUID, p publication.Publication, err error) {
	read, err := row[struct {
		Contest   uuid.UUID
		Statement []byte
		Signature []byte
		PublicKey []byte
		Reason    string
		Bundle    []byte
		Results   []byte
	}](ctx, tx, `
		SELECT
			contest_id AS contest,
			convert_to(statement, 'UTF8') AS statement,
			signature,
			public_key,
			reason,
			bundle,
			results
		FROM publication
		WHERE publication_id = @publication`,
		pgx.StrictNamedArgs{"publication": id})
	return read.Contest, publication.Publication{
		Statement: read.Statement, Signature: read.Signature, PublicKey: read.PublicKey,
		Reason: read.Reason, Bundle: read.Bundle, Results: read.Results,
	}, err
}

// PublicKeys are the keys that publications were signed with, the latest first.
func (db *DB) PublicKeys(ctx context.Context) (keys [][]byte, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		keys, err = values[[]byte](ctx, tx, `
			SELECT public_key
			FROM publication
			GROUP BY public_key
			ORDER BY max(published_at) DESC`, nil)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("reading the keys of publications: %w", err)
	}
	return keys, nil
}
