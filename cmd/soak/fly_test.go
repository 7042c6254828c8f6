package soak

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/http"
	"sync"

	"halfpoint/api"
	"halfpoint/scoring/line"
)

// fly is a flight from its call to its closing, and its results published.
func (c *contest) fly(ctx context.Context, random *rand.Rand, flight api.LineFlight) error {
	called, err := c.say(flight, line.StatusCalled, nil, nil)
	if err != nil {
		return err
	}
	flying, err := c.say(flight, line.StatusFlying, []string{called}, nil)
	if err == nil {
		err = c.chief.send(ctx)
	}
	if err != nil {
		return err
	}
	failed, all := make([]error, len(c.judges)), sync.WaitGroup{}
	for i, judge := range c.judges {
		seed := random.Uint64()
		all.Go(func() { failed[i] = c.judge(ctx, rand.New(rand.NewPCG(seed, 0)), judge, flight) })
	}
	all.Wait()
	if err := errors.Join(failed...); err != nil {
		return err
	}
	return c.close(ctx, flight, flying)
}

// say has the chief judge give a flight a status.
func (c *contest) say(flight api.LineFlight, status string, replaces, covers []string) (string, error) {
	return c.chief.enter(line.Record{
		Kind: line.KindStatus, Flight: flight.ID.String(), Sequence: flight.Sequence.Digest, Status: status, Replaces: replaces, Covers: covers,
	})
}

// judge grades every item, changes a grade here and there, sends now and then, and
// signs.
func (c *contest) judge(ctx context.Context, random *rand.Rand, t *tablet, flight api.LineFlight) error {
	grade := line.Record{Kind: line.KindGrade, Flight: flight.ID.String(), Judge: t.judge.String(), Sequence: flight.Sequence.Digest}
	sign := line.Record{Kind: line.KindSign, Flight: grade.Flight, Judge: grade.Judge, Sequence: grade.Sequence}
	var entries []line.Entry
	for item := range c.items {
		grade.Item, grade.Replaces = item+1, nil
		for again := true; again; again = random.IntN(5) == 0 {
			grade.Grade = fmt.Sprintf("%.1f", float64(random.IntN(21))/2)
			id, err := t.enter(grade)
			if err != nil {
				return err
			}
			grade.Replaces = []string{id}
		}
		entries = append(entries, line.Entry{Grade: grade.Grade})
		sign.Covers = append(sign.Covers, grade.Replaces...)
		if random.IntN(2) == 0 {
			if err := t.send(ctx); err != nil {
				return err
			}
		}
	}
	sign.Digest = line.SheetDigest(c.id.String(), sign.Flight, sign.Judge, sign.Sequence, entries)
	if _, err := t.enter(sign); err != nil {
		return err
	}
	return t.send(ctx)
}

// close closes a flight of which all has come, and publishes.
func (c *contest) close(ctx context.Context, flight api.LineFlight, status string) error {
	plan, err := c.chief.plan(ctx)
	if err != nil {
		return err
	}
	landed, err := c.say(flight, line.StatusLanded, []string{status}, nil)
	if err != nil {
		return err
	}
	_, err = c.say(flight, line.StatusClosed, []string{landed}, line.Seen(plan.Records, flight.ID.String(), 1))
	if err == nil {
		err = c.chief.send(ctx)
	}
	if err == nil {
		_, err = c.office.ask(ctx, http.MethodPost, "/api/v1/programmes/"+c.programme.String()+"/publications",
			map[string]any{"state": "provisional"}, nil)
	}
	return err
}
