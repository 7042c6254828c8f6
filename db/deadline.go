package db

import (
	"time"

	"halfpoint/scoring/document"
	"halfpoint/scoring/publication"
)

// A Pause is when the time for protests stands still, such as a night.
type Pause struct{ From, Until time.Time }

// deadline is the end of the time for protests of what is published at a time.
// What is wrong with the wish comes back as document.Complaints.
func (w *Publishing) deadline(published time.Time) (*time.Time, error) {
	var report document.Report
	ReasonBound.Check(&report, "reason", w.Reason)
	until := w.until(published)
	switch {
	case until == nil:
	case w.State == publication.Official:
		report.Add("protest_until", "official results have no time for protests")
	case w.ProtestUntil != nil && w.ProtestTime > 0:
		report.Add("protest_minutes", "the time for protests is given by its end or by its length")
	case !until.After(published):
		report.Add("protest_until", "is over already")
	}
	if w.Pause != nil && !w.Pause.Until.After(w.Pause.From) {
		report.Add("pause.until", "is not after the pause began")
	}
	return until, report.Err()
}

func (w *Publishing) until(published time.Time) *time.Time {
	if w.ProtestUntil != nil {
		until := w.ProtestUntil.UTC().Truncate(time.Microsecond)
		return &until
	}
	if w.ProtestTime <= 0 {
		return nil
	}
	until := w.Pause.extend(published, published.Add(w.ProtestTime)).UTC().Truncate(time.Microsecond)
	return &until
}

// extend moves the end of a time that begins at from by as much of the pause as
// lies in it.
func (p *Pause) extend(from, end time.Time) time.Time {
	if p == nil || !p.Until.After(from) || !end.After(p.From) {
		return end
	}
	begin := p.From
	if from.After(begin) {
		begin = from
	}
	return end.Add(p.Until.Sub(begin))
}

func sameTime(a, b *time.Time) bool {
	return a == nil && b == nil || a != nil && b != nil && a.Equal(*b)
}
