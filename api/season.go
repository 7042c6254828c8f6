package api

import (
	"context"

	"github.com/google/uuid"

	"halfpoint/db"
)

// ListSeasons lists the seasons that may be seen.
func (s *server) ListSeasons(ctx context.Context, _ ListSeasonsRequestObject) (ListSeasonsResponseObject, error) {
	found, err := s.db.Seasons(ctx)
	if err != nil {
		return nil, err
	}
	list := SeasonList{Seasons: []SeasonSummary{}, MayMake: whoOf(ctx).couldGo(access["makeSeason"])}
	for i := range found {
		if seesSeason(ctx, &found[i]) != nil {
			continue
		}
		summary := SeasonSummary{ID: found[i].ID, Name: found[i].Name, Contests: []Named{}}
		for _, c := range found[i].Contests() {
			summary.Contests = append(summary.Contests, named(c.ID, c.Name))
		}
		list.Seasons = append(list.Seasons, summary)
	}
	return ListSeasons200JSONResponse(list), nil
}

// seesSeason refuses whoever may not see some contest of a season. One without
// contests is there for whoever made it.
func seesSeason(ctx context.Context, season *db.Season) error {
	contests := season.Contests()
	if len(contests) == 0 {
		return mayDo(ctx, season, "changeSeason")
	}
	for _, c := range contests {
		if mayRead(reachBy(ctx, c.ID, "getSeason"), Opened(c.Opened)) != nil {
			return db.ErrNotFound
		}
	}
	return nil
}

// mayDo refuses whoever may not do something in every contest of a season.
func mayDo(ctx context.Context, season *db.Season, operation string) error {
	contests := season.Contests()
	if w := whoOf(ctx); len(contests) == 0 && !w.isOwner() && (!w.isSigned() || w.name() != season.MadeBy) {
		return db.ErrNotFound
	}
	for _, c := range contests {
		if reachBy(ctx, c.ID, operation) < everywhere {
			return db.ErrNotFound
		}
	}
	return nil
}

// reachBy is how far whoever asks may go in a contest, by an operation's line of
// the table.
func reachBy(ctx context.Context, contest uuid.UUID, operation string) reach {
	return whoOf(ctx).farthest(contest, access[operation])
}

// MakeSeason makes a season without contests.
func (s *server) MakeSeason(ctx context.Context, request MakeSeasonRequestObject) (MakeSeasonResponseObject, error) {
	id, err := s.db.MakeSeason(ctx, clean(request.Body.Name), whoOf(ctx).name())
	if err != nil {
		return nil, err
	}
	shown, err := s.season(ctx, id)
	return MakeSeason201JSONResponse(shown), err
}

// GetSeason tells how a season stands.
func (s *server) GetSeason(ctx context.Context, request GetSeasonRequestObject) (GetSeasonResponseObject, error) {
	shown, err := s.season(ctx, request.SeasonID)
	if err != nil {
		return nil, err
	}
	return GetSeason200JSONResponse(shown), nil
}

// ChangeSeason changes what a season is made of. Whoever does it directs every
// contest that is in it and that is to be.
func (s *server) ChangeSeason(ctx context.Context, request ChangeSeasonRequestObject) (ChangeSeasonResponseObject, error) {
	season, err := s.db.Season(ctx, request.SeasonID)
	if err != nil {
		return nil, err
	}
	if err := mayDo(ctx, season, "changeSeason"); err != nil {
		return nil, err
	}
	for _, p := range request.Body.Parts {
		contest, err := s.contestBehind(ctx, "category", p.Category)
		if err != nil {
			return nil, err
		}
		if reachBy(ctx, contest, "changeSeason") < everywhere {
			return nil, db.ErrNotFound
		}
	}
	if err := s.db.ChangeSeason(ctx, request.SeasonID, seasonChange(request.Body)); err != nil {
		return nil, err
	}
	shown, err := s.season(ctx, request.SeasonID)
	return ChangeSeason200JSONResponse(shown), err
}

// DeleteSeason deletes a season. Whoever does it directs every contest in it.
func (s *server) DeleteSeason(ctx context.Context, request DeleteSeasonRequestObject) (DeleteSeasonResponseObject, error) {
	season, err := s.db.Season(ctx, request.SeasonID)
	if err == nil {
		err = mayDo(ctx, season, "deleteSeason")
	}
	if err == nil {
		err = s.db.DeleteSeason(ctx, request.SeasonID, request.Params.Revision)
	}
	return DeleteSeason204Response{}, err
}

// season reads and reckons a season that may be seen.
func (s *server) season(ctx context.Context, id uuid.UUID) (Season, error) {
	read, err := s.db.Season(ctx, id)
	if err == nil {
		err = seesSeason(ctx, read)
	}
	if err != nil {
		return Season{}, err
	}
	reckoned, err := s.reckon(ctx, read)
	if err != nil {
		return Season{}, err
	}
	reckoned.MayChange = mayDo(ctx, read, "changeSeason") == nil
	reckoned.MayConfirm = mayDo(ctx, read, "confirmSeasonPeople") == nil
	return reckoned, nil
}
