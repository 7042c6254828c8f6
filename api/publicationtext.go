package api

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/ready"
	"halfpoint/scoring/publication"
)

// maxTexts is how many bytes of publications are kept in memory, plain and
// compressed: a large programme's are about one million.
const maxTexts = 64 << 20

// A textKey names an answer about a publication, which never changes.
type textKey struct {
	publication uuid.UUID
	part        string
}

// The parts of a publication that are answered as they are.
const (
	partPage    = "publication.json"
	partBundle  = "bundle.json"
	partResults = "results.json"
	partArchive = "publication.zip"
)

// A publicationText is an answer from memory.
type publicationText struct {
	*ready.Text
	request *http.Request
	cache   string
	file    string // to save it as; empty for what is not a file
}

func (t publicationText) write(w http.ResponseWriter) error {
	w.Header().Set("Cache-Control", t.cache)
	if t.file != "" {
		w.Header().Set("Content-Disposition", `attachment; filename="`+t.file+`"`)
	}
	t.Serve(w, t.request)
	return nil
}

// VisitGetPublicationResponse writes it.
func (t publicationText) VisitGetPublicationResponse(w http.ResponseWriter) error { return t.write(w) }

// VisitGetLatestProgrammePublicationResponse writes it.
func (t publicationText) VisitGetLatestProgrammePublicationResponse(w http.ResponseWriter) error {
	return t.write(w)
}

// VisitGetLatestCategoryPublicationResponse writes it.
func (t publicationText) VisitGetLatestCategoryPublicationResponse(w http.ResponseWriter) error {
	return t.write(w)
}

// VisitGetPublicationBundleResponse writes it.
func (t publicationText) VisitGetPublicationBundleResponse(w http.ResponseWriter) error {
	return t.write(w)
}

// VisitGetPublicationResultsResponse writes it.
func (t publicationText) VisitGetPublicationResultsResponse(w http.ResponseWriter) error {
	return t.write(w)
}

// VisitGetPublicationArchiveResponse writes it.
func (t publicationText) VisitGetPublicationArchiveResponse(w http.ResponseWriter) error {
	return t.write(w)
}

// GetPublication reads a publication.
func (s *server) GetPublication(ctx context.Context, request GetPublicationRequestObject) (GetPublicationResponseObject, error) {
	return s.part(ctx, request.PublicationID, partPage)
}

// GetPublicationBundle gives what was scored.
func (s *server) GetPublicationBundle(ctx context.Context, request GetPublicationBundleRequestObject) (GetPublicationBundleResponseObject, error) {
	return s.part(ctx, request.PublicationID, partBundle)
}

// GetPublicationResults gives what came out.
func (s *server) GetPublicationResults(ctx context.Context, request GetPublicationResultsRequestObject) (GetPublicationResultsResponseObject, error) {
	return s.part(ctx, request.PublicationID, partResults)
}

// GetPublicationArchive gives all of a publication.
func (s *server) GetPublicationArchive(ctx context.Context, request GetPublicationArchiveRequestObject) (GetPublicationArchiveResponseObject, error) {
	return s.part(ctx, request.PublicationID, partArchive)
}

// GetLatestProgrammePublication reads the publication of a programme that stands.
func (s *server) GetLatestProgrammePublication(ctx context.Context, request GetLatestProgrammePublicationRequestObject) (GetLatestProgrammePublicationResponseObject, error) {
	return s.latest(ctx, "programme", request.ProgrammeID)
}

// GetLatestCategoryPublication reads the publication of a category that stands.
func (s *server) GetLatestCategoryPublication(ctx context.Context, request GetLatestCategoryPublicationRequestObject) (GetLatestCategoryPublicationResponseObject, error) {
	return s.latest(ctx, "category", request.CategoryID)
}

// part is an answer about a publication that may be read.
func (s *server) part(ctx context.Context, id uuid.UUID, part string) (*publicationText, error) {
	s = s.reading(ctx)
	list, err := s.listOf(ctx, "publication", id)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(list.Publications, func(p db.PublicationInfo) bool { return p.ID == id })
	if at < 0 {
		return nil, db.ErrNotFound
	}
	return s.textOf(ctx, list, &list.Publications[at], part)
}

// latest is the publication that stands of a programme or a category.
func (s *server) latest(ctx context.Context, kind string, id uuid.UUID) (*publicationText, error) {
	s = s.reading(ctx)
	list, err := s.listOf(ctx, kind, id)
	if err != nil {
		return nil, err
	}
	last := lastOf(list.Publications, kind, id)
	if last == nil {
		return nil, db.ErrNotFound
	}
	text, err := s.textOf(ctx, list, last, partPage)
	if err != nil {
		return nil, err
	}
	text.cache = "no-cache"
	return text, nil
}

func (s *server) textOf(ctx context.Context, in *db.PublicationList, p *db.PublicationInfo, part string) (*publicationText, error) {
	text, err := s.texts.Get(ctx, textKey{p.ID, part}, func(ctx context.Context) (*ready.Text, error) {
		return s.readPart(ctx, p.ID, part)
	})
	if err != nil {
		return nil, err
	}
	answer := &publicationText{Text: text, request: ginOf(ctx).Request, cache: cacheOf(&in.Contest), file: part}
	switch part {
	case partPage:
		answer.file = ""
	case partArchive:
		answer.file = fmt.Sprintf("publication-%d.zip", p.Number)
	}
	return answer, nil
}

// readPart reads a publication as it was stored, and makes an answer of it.
func (s *server) readPart(ctx context.Context, id uuid.UUID, part string) (*ready.Text, error) {
	ctx, cancel := context.WithTimeout(ctx, requestTime)
	defer cancel()
	stored, err := s.db.Publication(ctx, id)
	if err != nil {
		return nil, err
	}
	kind := "application/json"
	var text []byte
	switch part {
	case partBundle:
		text = stored.Bundle
	case partResults:
		text = stored.Results
	case partArchive:
		kind = "application/zip"
		text, err = stored.Archive()
	default:
		text, err = s.pageOf(ctx, stored)
	}
	if err != nil {
		return nil, err
	}
	return ready.New(kind, publication.HashOf(text).String(), text), nil
}

// pageOf tells of a publication in JSON.
func (s *server) pageOf(ctx context.Context, stored *db.StoredPublication) ([]byte, error) {
	told, err := s.publicationOf(ctx, stored)
	if err != nil {
		return nil, err
	}
	return json.Marshal(told)
}
