package demo

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// flying is one flight on the line while it is flown.
type flying struct {
	line    *Line
	contest uuid.UUID
	id      string // the flight's
	digest  string // of its sequence
	graded  *scoring.Flight
	panel   []*tablet
	cells   [][]string // ids of the grades entered, by seat and item
	status  []string   // id of the status in force
	stored  []line.Stored
}

func (f *flying) run(ctx context.Context) error {
	if err := f.say(ctx, line.StatusCalled, line.StatusFlying); err != nil {
		return err
	}
	for item := range f.graded.Sheets[0].Grades {
		if err := f.gradeItem(ctx, item); err != nil {
			return err
		}
	}
	for seat := range f.panel {
		if err := f.wait(ctx, f.line.Figure/time.Duration(len(f.panel))); err != nil {
			return err
		}
		if err := f.sign(ctx, seat); err != nil {
			return err
		}
	}
	if err := f.penalise(ctx); err != nil {
		return err
	}
	return f.say(ctx, line.StatusLanded, line.StatusClosed)
}

// gradeItem has every seat enter its grade, one after the other, in the time
// that a figure takes. Which seat is first changes from figure to figure.
func (f *flying) gradeItem(ctx context.Context, item int) error {
	for _, seat := range draw(fmt.Sprint("entry ", f.id, item)).Perm(len(f.panel)) {
		if err := f.wait(ctx, f.line.Figure/time.Duration(len(f.panel))); err != nil {
			return err
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
	sheet := &f.graded.Sheets[seat]
	entries := make([]line.Entry, len(sheet.Grades))
	for i, g := range sheet.Grades {
		entries[i] = line.Entry{Grade: g.String(), Remark: remarkOf(sheet, i)}
	}
	judge := f.panel[seat].author.Seat
	record := f.record(line.KindSign)
	record.Judge, record.Covers = judge, f.cells[seat]
	record.Digest = line.SheetDigest(f.contest.String(), f.id, judge, f.digest, entries)
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

// say has the chief judge give the flight one status after the other. A
// closing names all that was seen of the flight.
func (f *flying) say(ctx context.Context, statuses ...string) error {
	for _, status := range statuses {
		record := f.record(line.KindStatus)
		record.Status, record.Replaces = status, f.status
		if status == line.StatusClosed {
			record.Covers = line.Seen(f.stored, f.id, 1)
		}
		id, err := f.store(ctx, f.line.chief, record)
		if err != nil {
			return err
		}
		f.status = []string{id}
	}
	return nil
}

func (f *flying) record(kind line.Kind) line.Record {
	return line.Record{Kind: kind, Flight: f.id, Sequence: f.digest, EnteredAt: time.Now().Format(time.RFC3339Nano)}
}

// store sends a record from a tablet and returns the record's id.
func (f *flying) store(ctx context.Context, from *tablet, record line.Record) (string, error) {
	id, err := uuid.NewV7()
	if err != nil {
		return "", err
	}
	from.seq++
	record.ID, record.Seq = id.String(), from.seq
	receipt, err := f.line.DB.StoreRecords(ctx, f.contest, db.Delivery{
		Store: from.store, Author: from.author, Records: []db.Received{{Record: record}},
	})
	if err != nil {
		return "", err
	}
	if answer := receipt.Answers[0]; answer.Result != db.ResultStored {
		return "", fmt.Errorf("a %s of the demo was %s: %v", record.Kind, answer.Result, answer.Faults)
	}
	f.stored = append(f.stored, line.Stored{Record: record, Author: from.author})
	return record.ID, nil
}

// wait lets some time pass.
func (f *flying) wait(ctx context.Context, some time.Duration) error {
	if some <= 0 {
		return ctx.Err()
	}
	timer := time.NewTimer(some)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-timer.C:
		return nil
	}
}
