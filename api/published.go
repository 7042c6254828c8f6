package api

import (
	"cmp"
	"context"
	"crypto/ed25519"
	"encoding/base64"
	"slices"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/publication"
)

// publicationOf tells of a publication what its bytes say, and what they changed
// of the one before.
func (s *server) publicationOf(ctx context.Context, stored *db.StoredPublication) (*Publication, error) {
	now, err := stored.Parse()
	if err != nil {
		return nil, err
	}
	about, contest := asPublished(stored, now)
	p := &Publication{
		About: about, Contest: contest,
		Statement: string(stored.Statement), Signature: base64.StdEncoding.EncodeToString(stored.Signature),
		Key: keyOf(stored.PublicKey), Standing: standingOf(stored.Info.Kind(), now),
		Programmes: []PublishedProgramme{}, Teams: []PublishedTeam{},
	}
	if stored.Info.Programme == nil {
		category, _ := now.Category()
		combine := PublicationCombine(category.Combine.By)
		p.Combine, p.Programmes, p.Teams = &combine, programmesOf(now), publishedTeams(now)
	} else {
		method := methodOf(now)
		p.Method = &method
	}
	_, p.Changes, err = s.changesSince(ctx, stored.Info.Supersedes, &stored.Info, now)
	return p, err
}

// asPublished tells what a publication is, with the names that stand in its bundle:
// however contest, category and programme are called later, it never changes.
func asPublished(stored *db.StoredPublication, parsed *publication.Parsed) (PublicationSummary, Named) {
	info := stored.Info
	category, _ := parsed.Category()
	info.Category.Name = category.Name
	if info.Programme != nil {
		programme, _ := parsed.Programme()
		info.Programme = &db.Named{ID: info.Programme.ID, Name: programme.Name}
	}
	return publicationSummary(&info), named(stored.Contest.ID, parsed.Bundle.Contest.Name)
}

// changesSince lists what a publication says otherwise than another one of the
// same, nothing where there is no other.
func (s *server) changesSince(ctx context.Context, since *uuid.UUID, info *db.PublicationInfo, now *publication.Parsed) (*PublicationSummary, []PublishedChange, error) {
	if since == nil {
		return nil, []PublishedChange{}, nil
	}
	before, err := s.db.Publication(ctx, *since)
	if err != nil {
		return nil, nil, err
	}
	if !info.SameScope(&before.Info) {
		return nil, nil, db.ErrNotFound
	}
	old, err := before.Parse()
	if err != nil {
		return nil, nil, err
	}
	about, _ := asPublished(before, old)
	return &about, changesOf(publication.Differences(info.Kind(), old, now), now), nil
}

// GetPublicationChanges tells what a publication says otherwise than another.
func (s *server) GetPublicationChanges(ctx context.Context, request GetPublicationChangesRequestObject) (GetPublicationChangesResponseObject, error) {
	s = s.reading(ctx)
	stored, err := s.stored(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	now, err := stored.Parse()
	if err != nil {
		return nil, err
	}
	since := cmp.Or(request.Params.Since, stored.Info.Supersedes)
	before, changes, err := s.changesSince(ctx, since, &stored.Info, now)
	if err != nil {
		return nil, err
	}
	about, contest := asPublished(stored, now)
	ginOf(ctx).Header("Cache-Control", cacheOf(&stored.Contest))
	return GetPublicationChanges200JSONResponse{About: about, Since: before, Contest: contest, Changes: changes}, nil
}

func keyOf(key ed25519.PublicKey) SigningKey {
	return SigningKey{ID: publication.Fingerprint(key), Pem: string(publication.WriteKey(key))}
}

// changesOf names the pilots and seats that changes speak of.
func changesOf(list []publication.Change, now *publication.Parsed) []PublishedChange {
	pilots, changes := publishedPilots(now), make([]PublishedChange, len(list))
	for i, c := range list {
		changes[i] = PublishedChange{What: c.What, From: c.From, To: c.To}
		if c.Pilot != "" {
			name := c.Pilot
			if !c.Team {
				name = pilots[c.Pilot].Name
			}
			changes[i].Pilot, changes[i].Name = &list[i].Pilot, &name
		}
		if c.Item != 0 {
			changes[i].Item = &list[i].Item
		}
		if c.Judge != "" {
			changes[i].Judge, changes[i].Seat = &list[i].Judge, seatOf(now, c.Judge)
		}
	}
	return changes
}

// seatOf is the number of a judge's seat on the panel, nil where it is on none.
func seatOf(p *publication.Parsed, judge string) *int {
	programme, _ := p.Programme()
	at := slices.Index(programme.Panel, judge) + 1
	if at == 0 {
		return nil
	}
	return &at
}

func methodOf(p *publication.Parsed) MethodUsed {
	programme, result := p.Programme()
	return MethodUsed{Name: result.Method, Fallback: result.Fallback, Seats: len(programme.Panel)}
}

func programmesOf(p *publication.Parsed) []PublishedProgramme {
	category, _ := p.Category()
	list := make([]PublishedProgramme, len(category.Programmes))
	for i := range list {
		one := &category.Programmes[i]
		list[i] = PublishedProgramme{Programme: one.ID, Name: one.Name, Counts: one.Counts}
	}
	return list
}

func publishedTeams(p *publication.Parsed) []PublishedTeam {
	_, result := p.Category()
	pilots, list := publishedPilots(p), make([]PublishedTeam, len(result.Teams))
	for i, t := range result.Teams {
		list[i] = PublishedTeam{Team: t.Team, Total: t.Total, Rank: t.Rank, Pilots: []string{}}
		for _, code := range t.Pilots {
			list[i].Pilots = append(list[i].Pilots, pilots[code].Name)
		}
	}
	return list
}

func publishedPilots(p *publication.Parsed) map[string]scoring.Pilot {
	pilots := map[string]scoring.Pilot{}
	for _, pilot := range p.Bundle.Pilots {
		pilots[pilot.ID] = pilot
	}
	return pilots
}

// standingOf is the standing of a programme, or of a category over its
// programmes.
func standingOf(kind string, p *publication.Parsed) []PublishedPlace {
	if kind == publication.OfCategory {
		return overallOf(p)
	}
	pilots := publishedPilots(p)
	_, result := p.Programme()
	places := make([]PublishedPlace, len(result.Flights))
	for i := range places {
		places[i] = placeOfFlight(&result.Flights[i], pilots)
	}
	return places
}

func placeOfFlight(f *scoring.FlightResult, pilots map[string]scoring.Pilot) PublishedPlace {
	place := placeOfPilot(pilots[f.Pilot], f.Certainty)
	place.Status = &f.Status
	if f.Placing != nil {
		place.Score, place.Percent, place.Rank = &f.Score, &f.Percent, f.Rank
	}
	return place
}

func overallOf(p *publication.Parsed) []PublishedPlace {
	pilots := publishedPilots(p)
	category, result := p.Category()
	places := make([]PublishedPlace, len(result.Overall))
	for i := range places {
		o, entry := &result.Overall[i], &category.Entries[i]
		place := placeOfPilot(pilots[o.Pilot], o.Certainty)
		place.Score, place.Rank, place.Ranked = &o.Total, o.Rank, &entry.Ranked
		place.Scores = scoresOf(o, result)
		if entry.Team != "" {
			place.Team = &entry.Team
		}
		places[i] = place
	}
	return places
}

// scoresOf are a pilot's in the programmes behind a total.
func scoresOf(o *scoring.OverallResult, of *scoring.CategoryResult) []PublishedScore {
	list := []PublishedScore{}
	for _, one := range o.ByProgramme {
		for i := range of.Programmes {
			if programme := &of.Programmes[i]; programme.ID == one.Programme {
				list = append(list, PublishedScore{Programme: one.Programme, Score: one.Score, Percent: percentOf(programme, o.Pilot)})
			}
		}
	}
	return list
}

// percentOf is a pilot's in a programme, 0 where there is none.
func percentOf(of *scoring.ProgrammeResult, pilot string) float64 {
	for i := range of.Flights {
		if f := &of.Flights[i]; f.Pilot == pilot && f.Placing != nil {
			return f.Percent
		}
	}
	return 0
}

func placeOfPilot(p scoring.Pilot, c *scoring.Certainty) PublishedPlace {
	return PublishedPlace{
		Pilot: p.ID, Name: p.Name, Affiliation: p.Affiliation, Aircraft: p.Aircraft,
		Certainty: certaintyOf(c), Scores: []PublishedScore{},
	}
}
