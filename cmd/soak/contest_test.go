package soak

import (
	"context"
	"fmt"
	"net/http"
	"testing"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/api"
	"halfpoint/db/cluster"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// A contest is one with its tablets, all of whose flights are still to be flown.
type contest struct {
	office    *client
	id        uuid.UUID
	programme uuid.UUID
	flights   []api.LineFlight
	items     int
	chief     *tablet
	judges    []*tablet
}

// holdContest makes a contest and pairs its tablets, each by the client that it
// is given.
func holdContest(ctx context.Context, flights, items, seats int, next func() *client) (*contest, error) {
	c := &contest{office: next(), items: items}
	var made api.Contest
	if _, err := c.office.ask(ctx, http.MethodPost, "/api/v1/bundles?opened=live", bundle(flights, items, seats), &made); err != nil {
		return nil, err
	}
	c.id = made.ID
	var err error
	if c.chief, err = pairTablet(ctx, next(), c.id, line.RoleChief, uuid.Nil); err != nil {
		return nil, err
	}
	plan, err := c.chief.plan(ctx)
	if err != nil {
		return nil, err
	}
	programme := plan.Programmes[0]
	c.programme, c.flights = programme.ID, programme.Flights
	for _, seat := range programme.Panel {
		judge, err := pairTablet(ctx, next(), c.id, line.RoleJudge, seat.Judge.ID)
		if err != nil {
			return nil, err
		}
		c.judges = append(c.judges, judge)
	}
	return c, nil
}

// bundle is an invented contest of one known programme, not begun.
func bundle(flights, items, seats int) *scoring.Bundle {
	sequence := &scoring.Sequence{}
	for i := range items {
		sequence.Items = append(sequence.Items, scoring.Item{Kind: scoring.Figure, K: scoring.K(100 + 10*i), Elements: []string{fmt.Sprint(i)}})
	}
	b := &scoring.Bundle{Format: scoring.BundleFormat, Contest: scoring.Contest{Name: "Soaked"}}
	category := scoring.Category{ID: "c", Name: "All", Combine: scoring.Combine{By: scoring.BySum}}
	programme := scoring.Programme{ID: "p", Kind: scoring.Known, Counts: true, Method: scoring.DefaultMethod(scoring.Consensus), Sequence: sequence}
	for j := range seats {
		b.Judges = append(b.Judges, scoring.Judge{ID: fmt.Sprint("j", j)})
		programme.Panel = append(programme.Panel, fmt.Sprint("j", j))
	}
	for i := range flights {
		pilot := fmt.Sprint("p", i)
		b.Pilots = append(b.Pilots, scoring.Pilot{ID: pilot})
		category.Entries = append(category.Entries, scoring.Entry{Pilot: pilot, Ranked: true})
		programme.Flights = append(programme.Flights, scoring.Flight{Pilot: pilot, Status: scoring.Scheduled})
	}
	category.Programmes = []scoring.Programme{programme}
	b.Categories = []scoring.Category{category}
	return b
}

// tablets are all of the contest's.
func (c *contest) tablets() []*tablet { return append([]*tablet{c.chief}, c.judges...) }

// checkStored holds what the tablets were told against what is there: all of it, and
// all of it once.
func checkStored(t testing.TB, at *cluster.Cluster, c *contest) {
	t.Helper()
	conn := connect(t, at)
	defer conn.Close(context.WithoutCancel(t.Context()))
	found, err := conn.Query(t.Context(), "SELECT record_id::text FROM line_record WHERE contest_id = $1", c.id)
	if err != nil {
		t.Fatal(err)
	}
	ids, err := pgx.CollectRows(found, pgx.RowTo[string])
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]int{}
	for _, id := range ids {
		there[id]++
	}
	told := 0
	for _, one := range c.tablets() {
		for _, id := range one.stored {
			told++
			if there[id] != 1 {
				t.Errorf("record %s was answered as stored, and is there %d times", id, there[id])
			}
		}
	}
	if told != len(ids) {
		t.Errorf("%d records were answered as stored, and %d are there", told, len(ids))
	}
}
