package db

import (
	"context"
	"encoding/json"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
)

// partReader puts a part together.
type partReader struct {
	part      *Part
	scope     scope
	sequences sequences
	line      *resolved
	judges    map[string]string    // codes by ids as records write them
	pilots    map[uuid.UUID]string // codes
}

func readPart(ctx context.Context, tx pgx.Tx, s scope) (*Part, error) {
	r := &partReader{part: &Part{Bundle: &scoring.Bundle{Format: scoring.BundleFormat}, Index: s.index}, scope: s}
	for _, step := range []func(ctx context.Context, tx pgx.Tx) error{r.contest, r.readJudges, r.readPilots, r.categories} {
		if err := step(ctx, tx); err != nil {
			return nil, err
		}
	}
	return r.part, nil
}

func (r *partReader) contest(ctx context.Context, tx pgx.Tx) (err error) {
	if r.part.Head, err = readHead(ctx, tx, r.scope.contest); err != nil {
		return err
	}
	if r.part.Contest, err = readContestInfo(ctx, tx, r.scope.contest); err != nil {
		return err
	}
	c := r.part.Contest
	r.part.Bundle.Contest = scoring.Contest{Name: c.Name, Place: c.Place, Starts: c.Starts, Ends: c.Ends}
	return nil
}

func (r *partReader) readJudges(ctx context.Context, tx pgx.Tx) error {
	judges, err := rows[struct {
		OfficialID  uuid.UUID
		Code        string
		Name        string
		Affiliation string
	}](ctx, tx, `
		SELECT
			official_id,
			code,
			name,
			affiliation
		FROM official
		WHERE contest_id = @contest
			AND duty = 'judge'
		ORDER BY position`,
		pgx.StrictNamedArgs{"contest": r.scope.contest})
	if err != nil {
		return err
	}
	r.part.Judges, r.judges = map[string]uuid.UUID{}, map[string]string{}
	r.part.Bundle.Judges = []scoring.Judge{}
	for _, j := range judges {
		r.part.Judges[j.Code], r.judges[j.OfficialID.String()] = j.OfficialID, j.Code
		r.part.Bundle.Judges = append(r.part.Bundle.Judges, scoring.Judge{ID: j.Code, Name: j.Name, Affiliation: j.Affiliation})
	}
	return nil
}

func (r *partReader) readPilots(ctx context.Context, tx pgx.Tx) error {
	pilots, err := rows[struct {
		Pilot
		Note string
	}](ctx, tx, `
		SELECT
			p.pilot_id AS id,
			p.code,
			p.name,
			p.affiliation,
			p.aircraft,
			CASE WHEN @told THEN p.note ELSE '' END AS note
		FROM pilot p
		WHERE p.contest_id = @contest
			AND (@category::uuid IS NULL OR EXISTS (
				SELECT
				FROM entry e
				WHERE e.contest_id = p.contest_id
					AND e.category_id = @category
					AND e.pilot_id = p.pilot_id
			))
		ORDER BY p.position`,
		pgx.StrictNamedArgs{"contest": r.scope.contest, "category": r.scope.category, "told": r.scope.told})
	if err != nil {
		return err
	}
	r.part.Pilots, r.pilots = map[string]uuid.UUID{}, map[uuid.UUID]string{}
	r.part.Bundle.Pilots = []scoring.Pilot{}
	for _, p := range pilots {
		r.part.Pilots[p.Code], r.pilots[p.ID] = p.ID, p.Code
		r.part.Bundle.Pilots = append(r.part.Bundle.Pilots, scoring.Pilot{
			ID: p.Code, Name: p.Name, Affiliation: p.Affiliation, Aircraft: p.Aircraft, Note: p.Note,
		})
	}
	return nil
}

func (r *partReader) categories(ctx context.Context, tx pgx.Tx) error {
	read, err := r.readCategories(ctx, tx)
	if err != nil {
		return err
	}
	r.part.Bundle.Categories = []scoring.Category{}
	at := map[uuid.UUID]int{}
	for i, c := range read {
		whole, err := c.category()
		if err != nil {
			return err
		}
		at[c.ID] = i
		r.part.Bundle.Categories = append(r.part.Bundle.Categories, whole)
		r.part.Categories = append(r.part.Categories, CategoryPart{ID: c.ID, Programmes: []ProgrammePart{}})
	}
	if err := r.entries(ctx, tx, at); err != nil {
		return err
	}
	return r.programmes(ctx, tx, at)
}

func (r *partReader) readCategories(ctx context.Context, tx pgx.Tx) ([]categoryRow, error) {
	return rows[categoryRow](ctx, tx, `
		SELECT
			category_id AS id,
			code,
			name,
			combine,
			weights,
			tie_break,
			team_best
		FROM category
		WHERE contest_id = @contest
			AND (@category::uuid IS NULL OR category_id = @category)
		ORDER BY position`,
		pgx.StrictNamedArgs{"contest": r.scope.contest, "category": r.scope.category})
}

type categoryRow struct {
	ID   uuid.UUID
	Code string
	Name string
	combineRow
}

func (r *categoryRow) category() (scoring.Category, error) {
	combine, err := r.combine()
	if err != nil {
		return scoring.Category{}, fmt.Errorf("category %s: %w", r.Code, err)
	}
	return scoring.Category{ID: r.Code, Name: r.Name, Combine: combine, Entries: []scoring.Entry{}, Programmes: []scoring.Programme{}}, nil
}

// combineRow is how the programmes of a category add up, as the database has it.
type combineRow struct {
	Combine  string
	Weights  json.RawMessage
	TieBreak []string
	TeamBest int
}

func (r *combineRow) combine() (scoring.Combine, error) {
	combine := scoring.Combine{By: r.Combine, TieBreak: r.TieBreak, TeamBest: r.TeamBest}
	if r.Weights != nil {
		if err := json.Unmarshal(r.Weights, &combine.Weights); err != nil {
			return scoring.Combine{}, fmt.Errorf("its weights: %w", err)
		}
	}
	return combine, nil
}

func (r *partReader) entries(ctx context.Context, tx pgx.Tx, at map[uuid.UUID]int) error {
	read, err := rows[struct {
		Category uuid.UUID
		Pilot    uuid.UUID
		Ranked   bool
		Team     string
	}](ctx, tx, `
		SELECT
			category_id AS category,
			pilot_id AS pilot,
			ranked,
			team
		FROM entry
		WHERE contest_id = @contest
			AND (@category::uuid IS NULL OR category_id = @category)
		ORDER BY category_id, position`,
		pgx.StrictNamedArgs{"contest": r.scope.contest, "category": r.scope.category})
	for _, e := range read {
		c := &r.part.Bundle.Categories[at[e.Category]]
		c.Entries = append(c.Entries, scoring.Entry{Pilot: r.pilots[e.Pilot], Ranked: e.Ranked, Team: e.Team})
	}
	return err
}

func (r *partReader) programmes(ctx context.Context, tx pgx.Tx, at map[uuid.UUID]int) error {
	contest := r.scope.contest
	programmes, err := readProgrammeRows(ctx, tx, contest, r.scope.category, r.scope.programmes)
	if err != nil {
		return err
	}
	ids := make([]uuid.UUID, len(programmes))
	for i := range programmes {
		ids[i] = programmes[i].ID
	}
	panels, err := readPanels(ctx, tx, contest, ids)
	if err != nil {
		return err
	}
	flights, err := r.flown(ctx, tx, ids)
	if err != nil {
		return err
	}
	for i := range programmes {
		p := &programmes[i]
		r.programme(at[p.Category], p, panels[p.ID], flights[p.ID])
	}
	return nil
}

// flown reads the flights of programmes with all that flying them left.
func (r *partReader) flown(ctx context.Context, tx pgx.Tx, programmes []uuid.UUID) (map[uuid.UUID][]Flight, error) {
	flights, err := readFlights(ctx, tx, r.scope.contest, programmes)
	if err != nil {
		return nil, err
	}
	if r.sequences, err = readSequences(ctx, tx, r.scope.contest, programmes); err != nil {
		return nil, err
	}
	ids, of := make([]uuid.UUID, len(flights)), map[uuid.UUID][]Flight{}
	for i, f := range flights {
		ids[i], of[f.Programme] = f.ID, append(of[f.Programme], f)
	}
	r.line, err = readLine(ctx, tx, r.scope.contest, ids)
	return of, err
}

// sequence is one that may be seen, nil where there is none.
func (r *partReader) sequence(key sequenceKey) *scoring.Sequence {
	s := r.sequences[key]
	if s == nil || r.scope.public && s.Released == nil {
		return nil
	}
	return &s.Sequence
}

func (r *partReader) programme(category int, row *programmeRow, panel []Seat, flights []Flight) {
	p := scoring.Programme{
		ID: row.Code, Name: row.Name, Kind: row.Kind, Cut: row.Cut, Counts: row.Counts, Method: row.method(),
		Panel: make([]string, len(panel)), Flights: make([]scoring.Flight, len(flights)),
	}
	for i, seat := range panel {
		p.Panel[i] = seat.Code
	}
	p.Sequence = r.sequence(sequenceKey{programme: row.ID})
	part := ProgrammePart{ID: row.ID, Flights: make([]FlightPart, len(flights))}
	if common := r.sequences[sequenceKey{programme: row.ID}]; common != nil {
		part.Withheld = common.Released == nil
	}
	for i := range flights {
		state := r.line.flights[flights[i].ID.String()]
		p.Flights[i] = r.flight(&flights[i], state)
		part.Flights[i] = FlightPart{ID: flights[i].ID, Number: flights[i].Number, Position: flights[i].Position, State: *state}
	}
	c, cp := &r.part.Bundle.Categories[category], &r.part.Categories[category]
	c.Programmes, cp.Programmes = append(c.Programmes, p), append(cp.Programmes, part)
}
