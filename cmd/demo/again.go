package demo

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

// signAgainEvery is how often the simulated judges look for sheets of theirs
// that were opened again.
const signAgainEvery = 2 * time.Second

// signAgain has the simulated judges sign what was opened again, as it stands.
func (l *Line) signAgain(ctx context.Context) error {
	if time.Since(l.looked) < signAgainEvery {
		return nil
	}
	l.looked = time.Now()
	plan, err := l.DB.Plan(ctx, l.Contest, l.chief.device, l.chief.store)
	if err != nil {
		return err
	}
	for p := range plan.Programmes {
		for f := range plan.Programmes[p].Flights {
			if err := l.signFlight(ctx, plan, &plan.Programmes[p], &plan.Programmes[p].Flights[f]); err != nil {
				return err
			}
		}
	}
	return nil
}

// signFlight signs the sheets of a flight that were opened again.
func (l *Line) signFlight(ctx context.Context, plan *db.Plan, p *db.PlannedProgramme, f *db.PlannedFlight) error {
	if f.Sequence == nil || !slices.ContainsFunc(plan.Records, isReopening(f.ID.String())) {
		return nil
	}
	setup := line.FlightSetup{Flight: f.ID.String(), Sequence: f.Sequence.Digest, Items: f.Sequence.Items}
	for _, seat := range p.Panel {
		setup.Panel = append(setup.Panel, seat.Judge.String())
	}
	all := line.Setup{Contest: l.Contest.String(), Flights: []line.FlightSetup{setup}}
	for _, attempt := range line.Resolve(all, plan.Records).Flights[0].Attempts {
		for i := range attempt.Sheets {
			own := l.seatOf(plan, attempt.Sheets[i].Judge)
			if own == nil || !isToSign(&attempt.Sheets[i]) {
				continue
			}
			if err := l.signSheet(ctx, own, &setup, attempt.Attempt, &attempt.Sheets[i]); err != nil {
				return err
			}
		}
	}
	return nil
}

func isReopening(flight string) func(line.Stored) bool {
	return func(r line.Stored) bool { return r.Kind == line.KindReopen && r.Flight == flight }
}

// seatOf is a judge's simulated tablet, nil where somebody's own is there.
func (l *Line) seatOf(plan *db.Plan, judge string) *tablet {
	id, err := uuid.Parse(judge)
	if err != nil {
		return nil
	}
	if own := l.seats[id]; own != nil && !l.taken(plan, own) {
		return own
	}
	return nil
}

// isToSign tells whether a sheet was opened again and can be signed as it is.
func isToSign(s *line.Sheet) bool {
	return s.Signature.State == line.Reopened && !s.OffPanel && !s.Absent &&
		!slices.ContainsFunc(s.Cells, func(c line.Cell) bool { return c.Conflict || c.Grade == "" })
}

func (l *Line) signSheet(ctx context.Context, from *tablet, f *line.FlightSetup, attempt int, s *line.Sheet) error {
	record := line.Record{
		Kind: line.KindSign, Flight: f.Flight, Attempt: attempt, Sequence: f.Sequence, Judge: s.Judge, After: s.Reopens,
		EnteredAt: time.Now().Format(time.RFC3339Nano),
	}
	entries := make([]line.Entry, len(s.Cells))
	for i, c := range s.Cells {
		entries[i] = line.Entry{Grade: c.Grade, Remark: c.Remark}
		record.Covers = append(record.Covers, c.Heads...)
	}
	record.Digest = line.SheetDigest(l.Contest.String(), f.Flight, s.Judge, f.Sequence, entries)
	_, err := l.store(ctx, from, record)
	return err
}
