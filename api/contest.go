package api

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"strings"
	"time"

	"github.com/google/uuid"
	openapi_types "github.com/oapi-codegen/runtime/types"

	"halfpoint/db"
	"halfpoint/scoring"
)

// defaultPage is how many contests a page lists where nothing is asked.
const defaultPage = 50

// ListContests lists what may be seen, page by page.
func (s *server) ListContests(ctx context.Context, request ListContestsRequestObject) (ListContestsResponseObject, error) {
	limit, query := defaultPage, db.ContestQuery{}
	if request.Params.Limit != nil {
		limit = *request.Params.Limit
	}
	if request.Params.After != nil {
		query.After = *request.Params.After
	}
	if w := whoOf(ctx); !w.isOwner() {
		query.Opened, query.Beside = []string{db.Published, db.Live}, w.contests()
	}
	query.Limit = limit + 1 // one more tells whether there is another page
	contests, err := s.db.Contests(ctx, query)
	if err != nil {
		return nil, err
	}
	return ListContests200JSONResponse(pageOf(contests, limit)), nil
}

func pageOf(contests []db.ContestInfo, limit int) ContestPage {
	page := ContestPage{Contests: []ContestSummary{}}
	if len(contests) > limit {
		contests = contests[:limit]
		page.Next = &contests[limit-1].ID
	}
	for _, c := range contests {
		page.Contests = append(page.Contests, summaryOf(c))
	}
	return page
}

// GetContest reads a contest.
func (s *server) GetContest(ctx context.Context, request GetContestRequestObject) (GetContestResponseObject, error) {
	c, err := s.contests.get(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	if err := mayRead(reachOf(ctx), Opened(c.Opened)); err != nil {
		return nil, err
	}
	return GetContest200JSONResponse(contestOf(c)), nil
}

// see checks that a contest may be read at a version that was heard of, and
// returns its present head. A nil head asks for the present one.
func (s *server) see(ctx context.Context, far reach, contest uuid.UUID, heard *db.Head) (db.Head, error) {
	if heard != nil && far >= inside {
		return *heard, nil // however the contest is opened
	}
	var c *db.Contest
	var err error
	if heard == nil {
		c, err = s.contests.get(ctx, contest)
	} else {
		c, err = s.contests.at(ctx, contest, *heard)
	}
	if err != nil {
		return db.Head{}, err
	}
	return c.Head, mayRead(far, Opened(c.Opened))
}

// CreateContest makes an empty contest.
func (s *server) CreateContest(ctx context.Context, request CreateContestRequestObject) (CreateContestResponseObject, error) {
	b := request.Body
	id, err := s.db.MakeContest(ctx, newContest(b.Name, b.Place, b.Starts, b.Ends), whoOf(ctx).name())
	if err != nil {
		return nil, err
	}
	made, at, err := s.contestMade(ctx, id)
	return CreateContest201JSONResponse{Body: made, Headers: CreateContest201ResponseHeaders{Location: &at}}, err
}

// CopyContest makes a contest that is set up as another one is.
func (s *server) CopyContest(ctx context.Context, request CopyContestRequestObject) (CopyContestResponseObject, error) {
	b := request.Body
	id, err := s.db.CopyContest(ctx, request.ContestID, db.ContestCopy{
		NewContest: newContest(b.Name, b.Place, b.Starts, b.Ends), Pilots: b.Pilots, Officials: b.Officials,
	}, whoOf(ctx).name())
	if err != nil {
		return nil, err
	}
	made, at, err := s.contestMade(ctx, id)
	return CopyContest201JSONResponse{Body: made, Headers: CopyContest201ResponseHeaders{Location: &at}}, err
}

func newContest(name, place string, starts, ends *openapi_types.Date) db.NewContest {
	return db.NewContest{Name: strings.TrimSpace(name), Place: strings.TrimSpace(place), Starts: dayOf(starts), Ends: dayOf(ends)}
}

// dayOf writes a day as YYYY-MM-DD; empty for none.
func dayOf(day *openapi_types.Date) string {
	if day == nil {
		return ""
	}
	return day.Format(time.DateOnly)
}

// ImportBundle makes a contest of a bundle, all of it or nothing.
func (s *server) ImportBundle(ctx context.Context, request ImportBundleRequestObject) (ImportBundleResponseObject, error) {
	bundle, err := scoring.DecodeBundle(*request.Body)
	if err != nil {
		return nil, err
	}
	opened := Closed
	if request.Params.Opened != nil {
		opened = *request.Params.Opened
	}
	id, err := s.db.Import(ctx, bundle, db.ImportOptions{Opened: string(opened), By: whoOf(ctx).name()})
	if err != nil {
		return nil, err
	}
	made, at, err := s.contestMade(ctx, id)
	return ImportBundle201JSONResponse{Body: made, Headers: ImportBundle201ResponseHeaders{Location: &at}}, err
}

// contestMade reads a contest that was just made, and says where it is.
func (s *server) contestMade(ctx context.Context, id uuid.UUID) (made Contest, at string, err error) {
	c, err := s.contests.get(ctx, id)
	if err != nil {
		return Contest{}, "", err
	}
	return contestOf(c), "/api/v1/contests/" + id.String(), nil
}

// ExportBundle writes a contest as it stands.
func (s *server) ExportBundle(ctx context.Context, request ExportBundleRequestObject) (ExportBundleResponseObject, error) {
	bundle, err := s.db.Export(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	text, err := bundle.Encode()
	if err != nil {
		return nil, fmt.Errorf("writing a bundle: %w", err)
	}
	return bundleText(text), nil
}

// A bundleText is the answer with a bundle, as it is written everywhere.
type bundleText []byte

// VisitExportBundleResponse writes it.
func (text bundleText) VisitExportBundleResponse(w http.ResponseWriter) error {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Content-Disposition", `attachment; filename="bundle.json"`)
	w.WriteHeader(http.StatusOK)
	_, err := bytes.NewReader(text).WriteTo(w)
	return err
}
