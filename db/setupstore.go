package db

import (
	"context"
	"encoding/json"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// store writes what a change comes to: what goes is taken out first, so that
// what comes may have its names.
func (m *merged) store(ctx context.Context, tx pgx.Tx) error {
	batch := &pgx.Batch{}
	m.remove(batch)
	if err := m.put(batch); err != nil {
		return err
	}
	if err := tx.SendBatch(ctx, batch).Close(); err != nil {
		return fmt.Errorf("storing a set-up: %w", err)
	}
	return nil
}

// remove takes rows out, each before those that it refers to.
func (m *merged) remove(batch *pgx.Batch) {
	for _, list := range []struct {
		sql string
		ids []uuid.UUID
	}{
		{`DELETE FROM seat WHERE contest_id = @contest AND programme_id = ANY (@ids)`, append(idsOf(m.programmes.put), m.programmes.removed...)},
		{`DELETE FROM programme WHERE contest_id = @contest AND programme_id = ANY (@ids)`, m.programmes.removed},
		{`DELETE FROM entry WHERE contest_id = @contest AND entry_id = ANY (@ids)`, m.entries.removed},
		{`DELETE FROM category WHERE contest_id = @contest AND category_id = ANY (@ids)`, m.categories.removed},
		{`DELETE FROM pilot WHERE contest_id = @contest AND pilot_id = ANY (@ids)`, m.pilots.removed},
		{`DELETE FROM official WHERE contest_id = @contest AND official_id = ANY (@ids)`, m.officials.removed},
		{`DELETE FROM penalty_kind WHERE contest_id = @contest AND penalty_kind_id = ANY (@ids)`, m.penalties.removed},
	} {
		if len(list.ids) > 0 {
			batch.Queue(list.sql, pgx.StrictNamedArgs{"contest": m.contest, "ids": list.ids})
		}
	}
}

func idsOf[R any, P rowOf[R]](list []R) []uuid.UUID {
	found := make([]uuid.UUID, len(list))
	for i := range list {
		found[i] = P(&list[i]).head().ID
	}
	return found
}

// put stores rows, each after those that it refers to.
func (m *merged) put(batch *pgx.Batch) error {
	if m.contestPut != nil {
		m.putContest(batch)
	}
	for _, r := range m.penalties.put {
		m.putPenalty(batch, &r)
	}
	for _, r := range m.officials.put {
		m.putOfficial(batch, &r)
	}
	for _, r := range m.pilots.put {
		m.putPilot(batch, &r)
	}
	for _, r := range m.categories.put {
		if err := m.putCategory(batch, &r); err != nil {
			return err
		}
	}
	for _, r := range m.entries.put {
		m.putEntry(batch, &r)
	}
	for _, r := range m.programmes.put {
		m.putProgramme(batch, &r)
	}
	return nil
}

func (m *merged) putContest(batch *pgx.Batch) {
	c := m.contestPut
	batch.Queue(`
		UPDATE contest
		SET name = @name,
			place = @place,
			starts = nullif(@starts, '')::date,
			ends = nullif(@ends, '')::date,
			opened = @opened,
			revision = revision + 1
		WHERE contest_id = @contest`,
		pgx.StrictNamedArgs{"contest": m.contest, "name": c.Name, "place": c.Place, "starts": c.Starts, "ends": c.Ends, "opened": c.Opened})
}

func (m *merged) putPenalty(batch *pgx.Batch, r *PenaltyRow) {
	batch.Queue(`
		INSERT INTO penalty_kind AS p (contest_id, penalty_kind_id, position, kind, points, repeats, disqualifies)
		VALUES (@contest, @id, @position, @kind, @points, @repeats, @disqualifies)
		ON CONFLICT (contest_id, penalty_kind_id) DO UPDATE
		SET position = excluded.position,
			kind = excluded.kind,
			points = excluded.points,
			repeats = excluded.repeats,
			disqualifies = excluded.disqualifies,
			revision = p.revision + 1`,
		pgx.StrictNamedArgs{
			"contest": m.contest, "id": r.ID, "position": r.Position,
			"kind": r.Kind, "points": r.Points, "repeats": r.Repeats, "disqualifies": r.Disqualifies,
		})
}

func (m *merged) putOfficial(batch *pgx.Batch, r *OfficialRow) {
	batch.Queue(`
		INSERT INTO official AS o (contest_id, official_id, position, code, duty, name, affiliation)
		VALUES (@contest, @id, @position, @code, @duty, @name, @affiliation)
		ON CONFLICT (contest_id, official_id) DO UPDATE
		SET position = excluded.position,
			code = excluded.code,
			duty = excluded.duty,
			name = excluded.name,
			affiliation = excluded.affiliation,
			revision = o.revision + 1`,
		pgx.StrictNamedArgs{
			"contest": m.contest, "id": r.ID, "position": r.Position,
			"code": r.Code, "duty": r.Duty, "name": r.Name, "affiliation": r.Affiliation,
		})
}

func (m *merged) putPilot(batch *pgx.Batch, r *PilotRow) {
	batch.Queue(`
		INSERT INTO pilot AS p (contest_id, pilot_id, position, code, name, affiliation, aircraft, note)
		VALUES (@contest, @id, @position, @code, @name, @affiliation, @aircraft, @note)
		ON CONFLICT (contest_id, pilot_id) DO UPDATE
		SET position = excluded.position,
			code = excluded.code,
			name = excluded.name,
			affiliation = excluded.affiliation,
			aircraft = excluded.aircraft,
			note = excluded.note,
			revision = p.revision + 1`,
		pgx.StrictNamedArgs{
			"contest": m.contest, "id": r.ID, "position": r.Position,
			"code": r.Code, "name": r.Name, "affiliation": r.Affiliation, "aircraft": r.Aircraft, "note": r.Note,
		})
}

func (m *merged) putCategory(batch *pgx.Batch, r *CategoryRow) error {
	var weights json.RawMessage
	if len(r.Combine.Weights) > 0 {
		var err error
		if weights, err = json.Marshal(r.Combine.Weights); err != nil {
			return fmt.Errorf("the weights of category %s: %w", r.Code, err)
		}
	}
	batch.Queue(`
		INSERT INTO category AS c (contest_id, category_id, position, code, name, combine, weights, tie_break, team_best)
		VALUES (@contest, @id, @position, @code, @name, @combine, @weights, @tie_break, @team_best)
		ON CONFLICT (contest_id, category_id) DO UPDATE
		SET position = excluded.position,
			code = excluded.code,
			name = excluded.name,
			combine = excluded.combine,
			weights = excluded.weights,
			tie_break = excluded.tie_break,
			team_best = excluded.team_best,
			revision = c.revision + 1`,
		pgx.StrictNamedArgs{
			"contest": m.contest, "id": r.ID, "position": r.Position, "code": r.Code, "name": r.Name,
			"combine": r.Combine.By, "weights": weights, "tie_break": append([]string{}, r.Combine.TieBreak...), "team_best": r.Combine.TeamBest,
		})
	return nil
}

func (m *merged) putEntry(batch *pgx.Batch, r *EntryRow) {
	batch.Queue(`
		INSERT INTO entry AS e (contest_id, entry_id, position, category_id, pilot_id, ranked, team)
		VALUES (@contest, @id, @position, @category, @pilot, @ranked, @team)
		ON CONFLICT (contest_id, entry_id) DO UPDATE
		SET position = excluded.position,
			category_id = excluded.category_id,
			pilot_id = excluded.pilot_id,
			ranked = excluded.ranked,
			team = excluded.team,
			revision = e.revision + 1`,
		pgx.StrictNamedArgs{
			"contest": m.contest, "id": r.ID, "position": r.Position,
			"category": r.Category, "pilot": r.Pilot, "ranked": r.Ranked, "team": r.Team,
		})
}

func (m *merged) putProgramme(batch *pgx.Batch, r *ProgrammeRow) {
	batch.Queue(`
		INSERT INTO programme AS p (
			contest_id, programme_id, position, category_id, code, name, kind, cut, counts,
			method, trim, discard, style, seat_weights, outlier, lean, group_min, hard_zero_majority, perception_zero
		)
		VALUES (
			@contest, @id, @position, @category, @code, @name, @kind, @cut, true,
			@method, @trim, @discard, @style, @seat_weights, @outlier, @lean, @group_min, @hard_zero_majority, @perception_zero
		)
		ON CONFLICT (contest_id, programme_id) DO UPDATE
		SET position = excluded.position,
			category_id = excluded.category_id,
			code = excluded.code,
			name = excluded.name,
			kind = excluded.kind,
			cut = excluded.cut,
			method = excluded.method,
			trim = excluded.trim,
			discard = excluded.discard,
			style = excluded.style,
			seat_weights = excluded.seat_weights,
			outlier = excluded.outlier,
			lean = excluded.lean,
			group_min = excluded.group_min,
			hard_zero_majority = excluded.hard_zero_majority,
			perception_zero = excluded.perception_zero,
			revision = p.revision + 1`,
		pgx.StrictNamedArgs{
			"contest": m.contest, "id": r.ID, "position": r.Position, "category": r.Category,
			"code": r.Code, "name": r.Name, "kind": r.Kind, "cut": r.Cut,
			"method": r.Method.Name, "trim": r.Method.Trim, "discard": r.Method.Discard, "style": r.Method.Style,
			"seat_weights": r.Method.SeatWeights, "outlier": r.Method.Outlier, "lean": r.Method.Lean, "group_min": r.Method.GroupMin,
			"hard_zero_majority": r.Method.HardZeroMajority, "perception_zero": r.Method.PerceptionZero,
		})
	m.putPanel(batch, r)
}

// putPanel seats the judges; the panel before was taken out first.
func (m *merged) putPanel(batch *pgx.Batch, r *ProgrammeRow) {
	for n, judge := range r.Panel {
		batch.Queue(`
			INSERT INTO seat (contest_id, programme_id, number, judge_id)
			VALUES (@contest, @programme, @number, @judge)`,
			pgx.StrictNamedArgs{"contest": m.contest, "programme": r.ID, "number": n + 1, "judge": judge})
	}
}
