package db

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/publication"
)

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
		publicationArgs(id, category, p, s))
	return err
}

// publicationArgs are what the table has of a publication.
func publicationArgs(id, category uuid.UUID, p *publication.Publication, s *publication.Statement) pgx.StrictNamedArgs {
	args := pgx.StrictNamedArgs{
		"contest": s.Contest, "publication": id, "number": s.Number, "category": category, "programme": nil,
		"state": s.State, "published_at": s.Published, "protest_until": nil, "reason": p.Reason,
		"statement": string(p.Statement), "signature": p.Signature, "key_id": s.Key, "public_key": []byte(p.PublicKey),
		"bundle": p.Bundle, "results": p.Results,
	}
	if s.Scope.Kind == publication.OfProgramme {
		args["programme"] = s.Scope.ID
	}
	if !s.ProtestUntil.IsZero() {
		args["protest_until"] = s.ProtestUntil
	}
	return args
}
