package api

import (
	"cmp"
	"context"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/publication"
)

// PreviewProgrammePublication tells what would be published of a programme.
func (s *server) PreviewProgrammePublication(ctx context.Context, request PreviewProgrammePublicationRequestObject) (PreviewProgrammePublicationResponseObject, error) {
	preview, err := s.preview(ctx, db.Scope{Programme: request.ProgrammeID}, request.Params.State)
	return PreviewProgrammePublication200JSONResponse(preview), err
}

// PreviewCategoryPublication tells what would be published of a category.
func (s *server) PreviewCategoryPublication(ctx context.Context, request PreviewCategoryPublicationRequestObject) (PreviewCategoryPublicationResponseObject, error) {
	preview, err := s.preview(ctx, db.Scope{Category: request.CategoryID}, request.Params.State)
	return PreviewCategoryPublication200JSONResponse(preview), err
}

func (s *server) preview(ctx context.Context, of db.Scope, state *PublicationState) (PublicationPreview, error) {
	p, err := s.db.Preview(ctx, of, string(cmp.Or(or(state), Provisional)))
	if err != nil {
		return PublicationPreview{}, err
	}
	preview := PublicationPreview{
		Head: headOf(p.Head), Contest: named(p.Contest.ID, p.Contest.Name), Opened: Opened(p.Contest.Opened), Category: named(p.Category.ID, p.Category.Name),
		Programme: namedUnlessNil(p.Programme), Same: p.Same, Refusals: refusalsOf(p.Refusals),
		Programmes: []PublishedProgramme{}, Standing: []PublishedPlace{}, Teams: []PublishedTeam{}, Changes: []PublishedChange{},
	}
	if c := p.Counting; c != nil {
		preview.Counting = &CountingDecided{Counts: c.Counts, Abandoned: c.Abandoned, Reason: c.Reason}
	}
	if p.Parsed != nil {
		preview.show(p)
	}
	if p.Latest == nil {
		return preview, nil
	}
	summary := publicationSummary(&p.Latest.Info)
	preview.Latest = &summary
	return preview, preview.compare(p)
}

// show tells the standing that would be published.
func (to *PublicationPreview) show(p *db.Preview) {
	if p.Programme != nil {
		to.Standing = standingOf(publication.OfProgramme, p.Parsed)
		return
	}
	category, _ := p.Parsed.Category()
	combine := PublicationPreviewCombine(category.Combine.By)
	to.Combine, to.Programmes, to.Teams = &combine, programmesOf(p.Parsed), publishedTeams(p.Parsed)
	to.Standing = standingOf(publication.OfCategory, p.Parsed)
}

// compare tells what the latest publication does not say.
func (to *PublicationPreview) compare(p *db.Preview) error {
	if p.Parsed == nil {
		return nil
	}
	old, err := p.Latest.Parse()
	if err == nil {
		to.Changes = changesOf(publication.Differences(p.Latest.Info.Kind(), old, p.Parsed), p.Parsed)
	}
	return err
}

func refusalsOf(refusals db.Refusals) []Refusal {
	list := make([]Refusal, len(refusals))
	for i, r := range refusals {
		list[i] = Refusal{Text: r.Text, Final: r.Final}
		if r.Flight != uuid.Nil {
			list[i].Flight = &refusals[i].Flight
		}
	}
	return list
}

// AuditContest tells whether everything that is kept of a contest agrees.
func (s *server) AuditContest(ctx context.Context, request AuditContestRequestObject) (AuditContestResponseObject, error) {
	audit, err := s.db.Audit(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	answer := Audit{Contest: named(audit.Contest.ID, audit.Contest.Name), Agrees: true, Findings: make([]AuditFinding, len(audit.Findings))}
	for i, f := range audit.Findings {
		answer.Findings[i] = AuditFinding{Agrees: f.Agrees, Text: f.Text}
		answer.Agrees = answer.Agrees && f.Agrees
	}
	return AuditContest200JSONResponse(answer), nil
}
