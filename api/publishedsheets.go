package api

import (
	"context"

	"halfpoint/scoring"
)

// GetPublicationSheets tells the sheets behind a programme's publication.
func (s *server) GetPublicationSheets(ctx context.Context, request GetPublicationSheetsRequestObject) (GetPublicationSheetsResponseObject, error) {
	s = s.reading(ctx)
	stored, err := s.stored(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	read, err := s.published.get(ctx, request.PublicationID)
	if err != nil {
		return nil, err
	}
	about, contest := asPublished(stored, read.Parsed)
	answer := PublishedSheets{
		About: about, Contest: contest,
		Key: stored.Info.KeyID, Method: methodOf(read.Parsed), Sequences: [][]Item{}, Sheets: []PublishedSheet{},
	}
	if stored.Info.Programme != nil {
		sheets := sheetsOf(read)
		answer.Ranks, answer.Sequences, answer.Sheets = sheets.scored.ranks, sheets.sequences, sheets.list
	}
	ginOf(ctx).Header("Cache-Control", cacheOf(&stored.Contest))
	return GetPublicationSheets200JSONResponse(answer), nil
}

// publishedSheets are made of what was published. A sequence that many fly is
// told once.
type publishedSheets struct {
	scored    *scoredProgramme
	pilots    map[string]scoring.Pilot
	known     map[*scoring.Sequence]int
	sequences [][]Item
	list      []PublishedSheet
}

func sheetsOf(p *readPublication) *publishedSheets {
	_, result := p.Programme()
	s := &publishedSheets{
		scored: p.scored, pilots: publishedPilots(p.Parsed),
		known:     map[*scoring.Sequence]int{},
		sequences: [][]Item{}, list: []PublishedSheet{},
	}
	for i := range result.Flights {
		if f := &result.Flights[i]; f.Judged != nil && f.Placing != nil {
			s.add(i, f)
		}
	}
	return s
}

func (s *publishedSheets) add(i int, f *scoring.FlightResult) {
	flight := &s.scored.programme.Flights[i]
	s.list = append(s.list, PublishedSheet{
		Flight: placeOfFlight(f, s.pilots), PanelScore: f.PanelScore, StandardError: f.StandardError,
		Penalties: penaltiesOf(flight.Penalties), Seats: s.scored.seatTotals(f),
		Sequence: s.sequence(flight), Rows: s.rows(i),
	})
}

// sequence is the place of what a flight flew among the sequences.
func (s *publishedSheets) sequence(flight *scoring.Flight) int {
	flown := s.scored.programme.SequenceOf(flight)
	at, ok := s.known[flown]
	if !ok {
		at = len(s.sequences)
		s.known[flown] = at
		s.sequences = append(s.sequences, itemsOf(flown))
	}
	return at
}

func (s *publishedSheets) rows(flight int) []PublishedRow {
	items := s.scored.sheetItems(flight, nil)
	rows := make([]PublishedRow, len(items))
	for i, item := range items {
		rows[i] = PublishedRow{
			Value: *item.Value, Points: *item.Points, Field: item.Field, Against: item.Against,
			Cells: item.Cells, Remarks: item.Remarks,
		}
	}
	return rows
}
