package api

import (
	"cmp"
	"context"
	"slices"
	"time"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// podium is the last place on it.
const podium = 3

// GetAnnouncement tells what an announcer tells a crowd.
func (s *server) GetAnnouncement(ctx context.Context, request GetAnnouncementRequestObject) (GetAnnouncementResponseObject, error) {
	now, err := s.db.Announced(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	answer := Announcement{Head: headOf(now.Head), Contest: named(now.Contest.ID, now.Contest.Name)}
	if now.Flight == nil {
		return GetAnnouncement200JSONResponse(answer), nil
	}
	flight, err := s.announced(ctx, now)
	if err != nil {
		return nil, err
	}
	answer.Flight = flight
	return GetAnnouncement200JSONResponse(answer), nil
}

// announced is the flight with its programme as far as it is closed: nothing of
// it is made of a grade that is still being given.
func (s *server) announced(ctx context.Context, now *db.Announced) (*AnnouncedFlight, error) {
	closed, err := s.closed.programmes.get(ctx, now.Flight.Programme)
	if err != nil {
		return nil, err
	}
	turns, err := s.db.Order(ctx, now.Flight.Programme)
	if err != nil {
		return nil, err
	}
	p := closed.programmeParts
	at := slices.IndexFunc(p.behind.Flights, func(f db.FlightPart) bool { return f.ID == now.Flight.ID })
	if at < 0 {
		return nil, fail(kindNotFound, "")
	}
	flown := &p.programme.Flights[at]
	flight := &AnnouncedFlight{
		ID: now.Flight.ID, Number: now.Flight.Number, Status: now.Status, Began: now.Began, Ended: now.Ended, Wind: now.Wind,
		Programme: named(p.behind.ID, p.programme.Name), Kind: ProgrammeKind(p.programme.Kind), Category: p.categoryName(),
		Pilot: pilotOf(&now.Flight.Pilot), Ranked: p.ranked[flown.Pilot],
		Items: announcedItems(p.programme.SequenceOf(flown)), Entered: enteredBy(&p.behind.Flights[at].State),
		Scored: closed.announcedRanks(), Next: announcedNext(turns, now.Flight),
	}
	if now.Note != "" {
		flight.Note = &now.Note
	}
	if now.Flight.Description != "" {
		flight.Description = &now.Flight.Description
	}
	if flight.Ranked && now.Status != line.StatusClosed {
		flight.Takes = closed.takes(at)
	}
	return flight, nil
}

// announcedItems are the items of a sequence with words for a crowd.
func announcedItems(q *scoring.Sequence) []AnnouncedItem {
	q = cmp.Or(q, &scoring.Sequence{})
	items, said := make([]AnnouncedItem, len(q.Items)), describe(q)
	for i := range q.Items {
		item := said.itemOf(i+1, &q.Items[i])
		items[i] = AnnouncedItem{
			Number: item.Number, Kind: AnnouncedItemKind(item.Kind), K: item.K, Name: item.Name, Drawings: item.Drawings,
		}
		if d := said[i+1]; d != nil {
			items[i].Crowd = d.crowd
		}
	}
	return items
}

// enteredBy is how many items the seat in the middle of the panel has entered in
// the attempt that counts; absent seats count nothing.
func enteredBy(f *line.Flight) int {
	var entered []int
	for _, a := range f.Attempts {
		if a.Attempt != max(f.Counting, 1) {
			continue
		}
		for i := range a.Sheets {
			if s := &a.Sheets[i]; !s.OffPanel && !s.Absent {
				entered = append(entered, enteredOn(s))
			}
		}
	}
	if len(entered) == 0 {
		return 0
	}
	slices.Sort(entered)
	return entered[(len(entered)-1)/2]
}

// enteredOn is how many items of a sheet have been entered, a contradiction
// included.
func enteredOn(s *line.Sheet) (n int) {
	for _, c := range s.Cells {
		if c.Grade != "" || c.Conflict {
			n++
		}
	}
	return n
}

// isClosed tells whether a flight's score is told to everybody.
func isClosed(f *db.FlightPart) bool { return f.State.Status == line.StatusClosed }

// announcedRanks are the closed flights, the best first.
func (s *scoredProgramme) announcedRanks() []AnnouncedRank {
	list := []AnnouncedRank{}
	for i := range s.result.Flights {
		f := &s.result.Flights[i]
		if f.Placing == nil || !isClosed(&s.behind.Flights[i]) {
			continue
		}
		list = append(list, AnnouncedRank{Rank: f.Rank, Pilot: s.pilots[f.Pilot], Score: f.Score, Ranked: s.ranked[f.Pilot]})
	}
	slices.SortStableFunc(list, func(a, b AnnouncedRank) int { return cmp.Compare(b.Score, a.Score) })
	return list
}

// takes says what a flight takes for the lead and for the podium, nil where
// nothing of its sequence is known.
func (s *scoredProgramme) takes(at int) *WhatItTakes {
	q := s.programme.SequenceOf(&s.programme.Flights[at])
	if q == nil || len(q.Items) == 0 {
		return nil
	}
	k := scoring.LeftOf(q.Items, 1)
	scores, waiting := s.others(at)
	return &WhatItTakes{
		Method: s.programme.Method.Name, Exact: s.used == scoring.Mean, K: float64(k) / 10,
		Lead: needOf(scoring.NeedFor(1, scores, waiting, 0, k)), Podium: needOf(scoring.NeedFor(podium, scores, waiting, 0, k)),
	}
}

// others are the scores of all other ranked pilots whose flight is closed, and how
// many of them are still to fly.
func (s *scoredProgramme) others(at int) (scores []float64, waiting int) {
	for i := range s.result.Flights {
		f := &s.result.Flights[i]
		switch {
		case i == at || !s.ranked[f.Pilot]:
		case f.Placing != nil && isClosed(&s.behind.Flights[i]):
			scores = append(scores, f.Score)
		case !line.IsOver(s.behind.Flights[i].State.Status):
			waiting++
		}
	}
	return scores, waiting
}

func needOf(n scoring.Need) PlaceNeed {
	need := PlaceNeed{Place: n.Place, State: PlaceNeedState(n.State)}
	if n.Target > 0 {
		need.Target = &n.Target
	}
	if n.State == scoring.NeedAverage {
		need.Average = &n.Average
	}
	return need
}

// announcedNext are the flights that are still to be flown behind one, with the
// times that they can be expected at.
func announcedNext(o *db.Order, now *db.Flight) []AnnouncedNext {
	list := []AnnouncedNext{}
	for _, turn := range orderOf(o, time.Now()).Turns {
		if turn.State == TurnStateWaiting && turn.Flight != now.ID {
			list = append(list, AnnouncedNext{Number: turn.Number, Pilot: turn.Pilot, Expected: turn.Expected})
		}
	}
	return list
}
