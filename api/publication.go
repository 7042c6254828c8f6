package api

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"fmt"
	"net/http"
	"time"

	"github.com/google/uuid"
	"github.com/klauspost/compress/gzhttp"

	"halfpoint/db"
	"halfpoint/scoring/publication"
)

// A Shelf keeps publications beside the database: each is on another disk before
// it is answered.
type Shelf interface {
	Keep(p *db.StoredPublication) error
}

// ListContestPublications lists all that a contest has published.
func (s *server) ListContestPublications(ctx context.Context, request ListContestPublicationsRequestObject) (ListContestPublicationsResponseObject, error) {
	list, err := s.publications(ctx, db.Scope{Contest: request.ContestID})
	return ListContestPublications200JSONResponse{list}, err
}

// ListProgrammePublications lists what was published of a programme.
func (s *server) ListProgrammePublications(ctx context.Context, request ListProgrammePublicationsRequestObject) (ListProgrammePublicationsResponseObject, error) {
	list, err := s.publications(ctx, db.Scope{Programme: request.ProgrammeID})
	return ListProgrammePublications200JSONResponse{list}, err
}

// ListCategoryPublications lists what was published of a category's standing.
func (s *server) ListCategoryPublications(ctx context.Context, request ListCategoryPublicationsRequestObject) (ListCategoryPublicationsResponseObject, error) {
	list, err := s.publications(ctx, db.Scope{Category: request.CategoryID})
	return ListCategoryPublications200JSONResponse{list}, err
}

func (s *server) publications(ctx context.Context, of db.Scope) ([]PublicationSummary, error) {
	list, err := s.db.Publications(ctx, of)
	if err == nil {
		err = mayRead(reachOf(ctx), Opened(list.Contest.Opened))
	}
	if err != nil {
		return nil, err
	}
	summaries := make([]PublicationSummary, len(list.Publications))
	for i := range list.Publications {
		summaries[i] = publicationSummary(&list.Publications[i])
	}
	return summaries, nil
}

func publicationSummary(p *db.PublicationInfo) PublicationSummary {
	s := PublicationSummary{
		ID: p.ID, Number: p.Number, Category: named(p.Category.ID, p.Category.Name), State: PublicationState(p.State),
		PublishedAt: p.PublishedAt, ProtestUntil: p.ProtestUntil, Reason: p.Reason, Supersedes: p.Supersedes,
	}
	if p.Programme != nil {
		programme := named(p.Programme.ID, p.Programme.Name)
		s.Programme = &programme
	}
	return s
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
	wish := db.Publishing{State: string(body.State), ProtestUntil: body.ProtestUntil, By: by}
	if body.ProtestMinutes != nil {
		wish.ProtestTime = time.Duration(*body.ProtestMinutes) * time.Minute
	}
	if body.Pause != nil {
		wish.Pause = &db.Pause{From: body.Pause.From, Until: body.Pause.Until}
	}
	if body.Reason != nil {
		wish.Reason = *body.Reason
	}
	return wish
}

// GetLatestProgrammePublication reads the publication of a programme that stands.
func (s *server) GetLatestProgrammePublication(ctx context.Context, request GetLatestProgrammePublicationRequestObject) (GetLatestProgrammePublicationResponseObject, error) {
	p, err := s.latest(ctx, db.Scope{Programme: request.ProgrammeID})
	if err != nil {
		return nil, err
	}
	return GetLatestProgrammePublication200JSONResponse(*p), nil
}

// GetLatestCategoryPublication reads the publication of a category that stands.
func (s *server) GetLatestCategoryPublication(ctx context.Context, request GetLatestCategoryPublicationRequestObject) (GetLatestCategoryPublicationResponseObject, error) {
	p, err := s.latest(ctx, db.Scope{Category: request.CategoryID})
	if err != nil {
		return nil, err
	}
	return GetLatestCategoryPublication200JSONResponse(*p), nil
}

func (s *server) latest(ctx context.Context, of db.Scope) (*Publication, error) {
	list, err := s.publications(ctx, of)
	if err != nil {
		return nil, err
	}
	if len(list) == 0 {
		return nil, db.ErrNotFound
	}
	stored, err := s.db.Publication(ctx, list[len(list)-1].ID)
	if err != nil {
		return nil, err
	}
	ginOf(ctx).Header("Cache-Control", "no-cache")
	return s.publicationOf(ctx, stored)
}

// GetPublication reads a publication.
func (s *server) GetPublication(ctx context.Context, request GetPublicationRequestObject) (GetPublicationResponseObject, error) {
	stored, err := s.stored(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	p, err := s.publicationOf(ctx, stored)
	if err != nil {
		return nil, err
	}
	ginOf(ctx).Header("Cache-Control", cacheOf(stored))
	return GetPublication200JSONResponse(*p), nil
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
func cacheOf(p *db.StoredPublication) string {
	if p.Contest.Opened == db.Closed {
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

// storedBytes are an answer of bytes as they are stored.
type storedBytes struct {
	request     *http.Request
	text        []byte
	contentType string
	name        string // of a file to save it as
	cache       string
}

func (b storedBytes) write(w http.ResponseWriter) error {
	header := w.Header()
	header.Set("Content-Type", b.contentType)
	header.Set("Cache-Control", b.cache)
	header.Set("ETag", `"`+publication.HashOf(b.text).String()+`"`)
	header.Set("Content-Disposition", `attachment; filename="`+b.name+`"`)
	header.Set(gzhttp.HeaderNoCompression, "the tag is that of these bytes")
	http.ServeContent(w, b.request, "", time.Time{}, bytes.NewReader(b.text))
	return nil
}

// VisitGetPublicationBundleResponse writes it.
func (b storedBytes) VisitGetPublicationBundleResponse(w http.ResponseWriter) error {
	return b.write(w)
}

// VisitGetPublicationResultsResponse writes it.
func (b storedBytes) VisitGetPublicationResultsResponse(w http.ResponseWriter) error {
	return b.write(w)
}

// VisitGetPublicationArchiveResponse writes it.
func (b storedBytes) VisitGetPublicationArchiveResponse(w http.ResponseWriter) error {
	return b.write(w)
}

// GetPublicationBundle gives what was scored.
func (s *server) GetPublicationBundle(ctx context.Context, request GetPublicationBundleRequestObject) (GetPublicationBundleResponseObject, error) {
	stored, err := s.stored(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	return storedBytes{ginOf(ctx).Request, stored.Bundle, "application/json", "bundle.json", cacheOf(stored)}, nil
}

// GetPublicationResults gives what came out.
func (s *server) GetPublicationResults(ctx context.Context, request GetPublicationResultsRequestObject) (GetPublicationResultsResponseObject, error) {
	stored, err := s.stored(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	return storedBytes{ginOf(ctx).Request, stored.Results, "application/json", "results.json", cacheOf(stored)}, nil
}

// GetPublicationArchive gives all of a publication.
func (s *server) GetPublicationArchive(ctx context.Context, request GetPublicationArchiveRequestObject) (GetPublicationArchiveResponseObject, error) {
	stored, err := s.stored(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	text, err := stored.Archive()
	if err != nil {
		return nil, err
	}
	name := fmt.Sprintf("publication-%d.zip", stored.Info.Number)
	return storedBytes{ginOf(ctx).Request, text, "application/zip", name, cacheOf(stored)}, nil
}
