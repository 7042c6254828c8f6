package demo

import (
	"context"
	"fmt"
	"slices"
	"time"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// flying is one flight on the line while it is flown.
type flying struct {
	line    *Line
	id      string // the flight's
	attempt int
	digest  string // of its sequence
	graded  *scoring.Flight
	panel   []*tablet
	cells   [][]string // ids of the grades entered, by seat and item
	free    []bool     // by seat: nobody's own tablet grades for it
	led     bool       // somebody's own tablet is the chief judge's
}

func (f *flying) run(ctx context.Context) error {
	if err := f.look(ctx); err != nil {
		return err
	}
	if err := f.say(ctx, line.StatusCalled, line.StatusFlying); err != nil {
		return err
	}
	if err := f.gradeAll(ctx); err != nil || f.led {
		return err
	}
	if err := f.awaitOthers(ctx); err != nil {
		return err
	}
	if err := f.penalise(ctx); err != nil {
		return err
	}
	return f.say(ctx, line.StatusLanded, line.StatusClosed)
}

// gradeAll has every seat grade every figure, and sign.
func (f *flying) gradeAll(ctx context.Context) error {
	for item := range f.graded.Sheets[0].Grades {
		if err := f.gradeItem(ctx, item); err != nil {
			return err
		}
	}
	for seat := range f.panel {
		if err := wait(ctx, f.line.Figure/time.Duration(len(f.panel))); err != nil {
			return err
		}
		if err := f.sign(ctx, seat); err != nil {
			return err
		}
	}
	return nil
}

// look finds which seats are to be graded for, and whether anybody leads.
func (f *flying) look(ctx context.Context) error {
	plan, err := f.line.plan(ctx)
	if err != nil {
		return err
	}
	f.led, f.free = f.line.taken(plan, f.line.chief), nil
	for _, t := range f.panel {
		f.free = append(f.free, !f.line.taken(plan, t))
	}
	return nil
}

// patience is how long a sheet of somebody's own tablet is waited for; the seat
// is absent then.
const patience = 4 * time.Minute

// awaitOthers waits until those who grade on tablets of their own have signed.
func (f *flying) awaitOthers(ctx context.Context) error {
	for until := time.Now().Add(patience); slices.Contains(f.free, false); {
		state, _, err := f.state(ctx)
		if err != nil {
			return err
		}
		missing := f.unsigned(state)
		if len(missing) == 0 {
			return nil
		}
		if time.Now().After(until) {
			return f.leaveOut(ctx, missing)
		}
		if err := wait(ctx, lookEvery); err != nil {
			return err
		}
	}
	return nil
}

// unsigned are the seats whose sheets are still to be signed.
func (f *flying) unsigned(state *line.Flight) (judges []string) {
	for _, a := range state.Attempts {
		for _, s := range a.Sheets {
			if a.Attempt == f.attempt && !s.OffPanel && !s.Absent && s.Signature.State != line.Signed {
				judges = append(judges, s.Judge)
			}
		}
	}
	return judges
}

func (f *flying) leaveOut(ctx context.Context, judges []string) error {
	absent := true
	for _, judge := range judges {
		record := f.record(line.KindAbsent)
		record.Judge, record.Absent, record.Sequence = judge, &absent, ""
		if _, err := f.store(ctx, f.line.chief, record); err != nil {
			return err
		}
	}
	return nil
}

// state is what the records say of the flight now, and the records.
func (f *flying) state(ctx context.Context) (*line.Flight, []line.Stored, error) {
	plan, err := f.line.plan(ctx)
	if err != nil {
		return nil, nil, err
	}
	setup := line.FlightSetup{Flight: f.id, Sequence: f.digest, Items: len(f.graded.Sheets[0].Grades)}
	for _, t := range f.panel {
		setup.Panel = append(setup.Panel, t.author.Seat)
	}
	all := line.Setup{Contest: f.line.Contest.String(), Flights: []line.FlightSetup{setup}}
	return &line.Resolve(all, plan.Records).Flights[0], plan.Records, nil
}

// gradeItem has every seat enter its grade, one after the other, in the time
// that a figure takes. Which seat is first changes from figure to figure.
func (f *flying) gradeItem(ctx context.Context, item int) error {
	for _, seat := range draw(fmt.Sprint("entry ", f.id, item)).Perm(len(f.panel)) {
		if err := wait(ctx, f.line.Figure/time.Duration(len(f.panel))); err != nil {
			return err
		}
		if !f.free[seat] {
			continue
		}
		sheet := &f.graded.Sheets[seat]
		record := f.record(line.KindGrade)
		record.Judge, record.Item, record.Grade = f.panel[seat].author.Seat, item+1, sheet.Grades[item].String()
		record.Remark = remarkOf(sheet, item)
		id, err := f.store(ctx, f.panel[seat], record)
		if err != nil {
			return err
		}
		f.cells[seat] = append(f.cells[seat], id)
	}
	return nil
}

func remarkOf(s *scoring.Sheet, item int) string {
	if s.Remarks == nil {
		return ""
	}
	return s.Remarks[item]
}

func (f *flying) sign(ctx context.Context, seat int) error {
	if !f.free[seat] {
		return nil
	}
	sheet := &f.graded.Sheets[seat]
	entries := make([]line.Entry, len(sheet.Grades))
	for i, g := range sheet.Grades {
		entries[i] = line.Entry{Grade: g.String(), Remark: remarkOf(sheet, i)}
	}
	judge := f.panel[seat].author.Seat
	record := f.record(line.KindSign)
	record.Judge, record.Covers = judge, f.cells[seat]
	record.Digest = line.SheetDigest(f.line.Contest.String(), f.id, judge, f.digest, entries)
	_, err := f.store(ctx, f.panel[seat], record)
	return err
}

func (f *flying) penalise(ctx context.Context) error {
	for _, p := range f.graded.Penalties {
		record := f.record(line.KindPenalty)
		record.Penalty = &line.Penalty{Kind: p.Kind, Count: p.Count, Points: p.Points}
		if _, err := f.store(ctx, f.line.chief, record); err != nil {
			return err
		}
	}
	return nil
}

// say has the simulated chief judge give the flight one status after the other,
// unless somebody else leads. A closing names all that was seen of the flight.
func (f *flying) say(ctx context.Context, statuses ...string) error {
	for _, status := range statuses {
		if f.led {
			return nil
		}
		state, records, err := f.state(ctx)
		if err != nil {
			return err
		}
		record := f.record(line.KindStatus)
		record.Status, record.Replaces = status, state.StatusHeads
		if status == line.StatusClosed {
			record.Covers = line.Seen(records, f.id, f.attempt)
		}
		if _, err := f.store(ctx, f.line.chief, record); err != nil {
			return err
		}
	}
	return nil
}

func (f *flying) record(kind line.Kind) line.Record {
	return line.Record{Kind: kind, Flight: f.id, Attempt: f.attempt, Sequence: f.digest, EnteredAt: time.Now().Format(time.RFC3339Nano)}
}

func (f *flying) store(ctx context.Context, from *tablet, record line.Record) (string, error) {
	return f.line.store(ctx, from, record)
}

// store sends a record from a tablet and returns the record's id.
func (l *Line) store(ctx context.Context, from *tablet, record line.Record) (string, error) {
	if err := from.sign(l.Contest.String(), &record); err != nil {
		return "", err
	}
	receipt, err := l.DB.StoreRecords(ctx, l.Contest, db.Delivery{
		Store: from.store, Author: from.author, Records: []db.Received{{Record: record}},
	})
	if err != nil {
		return "", err
	}
	if answer := receipt.Answers[0]; answer.Result != db.ResultStored {
		return "", fmt.Errorf("a %s of the demo was %s: %v", record.Kind, answer.Result, answer.Faults)
	}
	return record.ID, l.stayAlive(ctx)
}
