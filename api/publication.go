package api

import (
	"context"
	"crypto/ed25519"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
)

// A Shelf keeps publications beside the database: each is on another disk before
// it is answered.
type Shelf interface {
	Keep(p *db.StoredPublication) error
}

// ListContestPublications lists all that a contest has published.
func (s *server) ListContestPublications(ctx context.Context, request ListContestPublicationsRequestObject) (ListContestPublicationsResponseObject, error) {
	list, err := s.publications(ctx, "contest", request.ContestID)
	return ListContestPublications200JSONResponse{list}, err
}

// ListProgrammePublications lists what was published of a programme.
func (s *server) ListProgrammePublications(ctx context.Context, request ListProgrammePublicationsRequestObject) (ListProgrammePublicationsResponseObject, error) {
	list, err := s.publications(ctx, "programme", request.ProgrammeID)
	return ListProgrammePublications200JSONResponse{list}, err
}

// ListCategoryPublications lists what was published of a category's standing.
func (s *server) ListCategoryPublications(ctx context.Context, request ListCategoryPublicationsRequestObject) (ListCategoryPublicationsResponseObject, error) {
	list, err := s.publications(ctx, "category", request.CategoryID)
	return ListCategoryPublications200JSONResponse{list}, err
}

func (s *server) publications(ctx context.Context, kind string, id uuid.UUID) ([]PublicationSummary, error) {
	list, err := s.reading(ctx).listOf(ctx, kind, id)
	if err != nil {
		return nil, err
	}
	summaries := []PublicationSummary{}
	for i := range list.Publications {
		if p := &list.Publications[i]; isOf(p, kind, id) {
			summaries = append(summaries, publicationSummary(p))
		}
	}
	return summaries, nil
}

// listOf is what was published in the contest of a thing, where that may be read.
func (s *server) listOf(ctx context.Context, kind string, id uuid.UUID) (*db.PublicationList, error) {
	contest, err := s.contestBehind(ctx, kind, id)
	if err != nil {
		return nil, err
	}
	list, err := s.lists.get(ctx, contest)
	if err != nil {
		return nil, err
	}
	return list, mayRead(reachOf(ctx), Opened(list.Contest.Opened))
}

// isOf tells whether a publication is one of a programme, of a category's own
// standing, or of the contest that the list is of.
func isOf(p *db.PublicationInfo, kind string, id uuid.UUID) bool {
	switch kind {
	case "programme":
		return p.Programme != nil && p.Programme.ID == id
	case "category":
		return p.Programme == nil && p.Category.ID == id
	}
	return true
}

// lastOf is the last publication of a kind of thing in a list by number; nil where
// there is none.
func lastOf(list []db.PublicationInfo, kind string, id uuid.UUID) *db.PublicationInfo {
	for i := range slices.Backward(list) {
		if isOf(&list[i], kind, id) {
			return &list[i]
		}
	}
	return nil
}

func publicationSummary(p *db.PublicationInfo) PublicationSummary {
	return PublicationSummary{
		ID: p.ID, Number: p.Number, Category: named(p.Category.ID, p.Category.Name), Programme: namedUnlessNil(p.Programme), State: PublicationState(p.State),
		PublishedAt: p.PublishedAt, ProtestUntil: p.ProtestUntil, Reason: p.Reason, Supersedes: p.Supersedes,
	}
}

// PublishProgramme publishes the results of a programme.
func (s *server) PublishProgramme(ctx context.Context, request PublishProgrammeRequestObject) (PublishProgrammeResponseObject, error) {
	p, err := s.publish(ctx, db.Scope{Programme: request.ProgrammeID}, request.Body)
	if err != nil {
		return nil, err
	}
	return PublishProgramme200JSONResponse(*p), nil
}

// PublishCategory publishes the standing of a category.
func (s *server) PublishCategory(ctx context.Context, request PublishCategoryRequestObject) (PublishCategoryResponseObject, error) {
	p, err := s.publish(ctx, db.Scope{Category: request.CategoryID}, request.Body)
	if err != nil {
		return nil, err
	}
	return PublishCategory200JSONResponse(*p), nil
}

// publish answers when the shelf has the publication too. Whoever asks for
// official results gives the password again.
func (s *server) publish(ctx context.Context, of db.Scope, body *Publishing) (*Publication, error) {
	if body.State == Official {
		if err := needPassword(ctx); err != nil {
			return nil, err
		}
	}
	id, _, err := s.db.Publish(ctx, of, wishOf(body, whoOf(ctx).name()), s.signer)
	if err != nil {
		return nil, err
	}
	stored, err := s.db.Publication(ctx, id)
	if err != nil {
		return nil, err
	}
	if s.shelf != nil {
		if err := s.shelf.Keep(stored); err != nil {
			return nil, fmt.Errorf("publication %d is stored, and could not be kept in the second folder: %w", stored.Info.Number, err)
		}
	}
	return s.publicationOf(ctx, stored)
}

func wishOf(body *Publishing, by string) db.Publishing {
	wish := db.Publishing{State: string(body.State), ProtestUntil: body.ProtestUntil, Reason: or(body.Reason), By: by}
	wish.ProtestTime = time.Duration(or(body.ProtestMinutes)) * time.Minute
	if body.Pause != nil {
		wish.Pause = &db.Pause{From: body.Pause.From, Until: body.Pause.Until}
	}
	return wish
}

// stored reads a publication that may be read.
func (s *server) stored(ctx context.Context, id uuid.UUID) (*db.StoredPublication, error) {
	stored, err := s.db.Publication(ctx, id)
	if err == nil {
		err = mayRead(reachOf(ctx), Opened(stored.Contest.Opened))
	}
	return stored, err
}

// cacheOf lets every cache keep what anyone may see, and no other anything.
func cacheOf(c *db.ContestInfo) string {
	if c.Opened == db.Closed {
		return "no-store"
	}
	return "public, max-age=31536000, immutable"
}

// ListKeys lists the keys that publications are signed with.
func (s *server) ListKeys(ctx context.Context, _ ListKeysRequestObject) (ListKeysResponseObject, error) {
	used, err := s.db.PublicKeys(ctx)
	if err != nil {
		return nil, err
	}
	keys := []SigningKey{}
	if len(s.signer.Key) > 0 {
		keys = append(keys, keyOf(s.signer.Key.Public().(ed25519.PublicKey)))
	}
	for _, key := range used {
		if one := keyOf(key); len(keys) == 0 || one.ID != keys[0].ID {
			keys = append(keys, one)
		}
	}
	return ListKeys200JSONResponse{keys}, nil
}
