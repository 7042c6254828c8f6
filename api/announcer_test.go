package api_test

import (
	"reflect"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/scoring/line"
)

// TestAnAnnouncementTellsNoGradeBeforeTheFlightIsClosed: other grades make no other
// announcement, and how far the panel is is what the seat in its middle has
// entered.
func TestAnAnnouncementTellsNoGradeBeforeTheFlightIsClosed(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	chief, announcer := l.tablet("chief", uuid.Nil), l.tablet("announcer", uuid.Nil)
	if a := announcer.announcement(); a.Flight != nil {
		t.Errorf("before anything is called flight %d is announced", a.Flight.Number)
	}
	chief.deliver(chief.status(line.StatusCalled))
	called := announcer.announcement().Flight
	if called == nil || called.ID != l.flight.ID || called.Status != "called" || called.Entered != 0 {
		t.Fatalf("%+v, want flight %d as called", called, l.flight.Number)
	}
	first := l.tablet("judge", l.panel[0].Judge.ID)
	for i := range l.panel {
		b := first
		if i > 0 {
			b = l.tablet("judge", l.panel[i].Judge.ID)
		}
		b.deliver(b.grade(1, "7.5"))
	}
	before := announcer.announcement().Flight
	if before.Entered != 1 {
		t.Errorf("the panel has entered %d items, want 1", before.Entered)
	}
	first.deliver(first.grade(1, "2.0"), first.grade(2, "HZ"))
	if after := announcer.announcement().Flight; !reflect.DeepEqual(after, before) {
		t.Errorf("%+v\nwas with other grades\n%+v", after, before)
	}
}

// TestAnAnnouncementSaysWhatItTakes: the flights that are closed are its standing,
// and the target is a hundredth more than the best of them.
func TestAnAnnouncementSaysWhatItTakes(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	chief := l.tablet("chief", uuid.Nil)
	chief.deliver(chief.status(line.StatusCalled), chief.status(line.StatusFlying))
	f := l.tablet("announcer", uuid.Nil).announcement().Flight
	switch {
	case f == nil || f.Takes == nil || len(f.Scored) < 2:
		t.Fatalf("%+v, want what it takes and the flights that are closed", f)
	case f.Began == nil || f.Ended != nil:
		t.Errorf("in the air since %v to %v", f.Began, f.Ended)
	}
	best := f.Scored[0].Score
	if target := f.Takes.Lead.Target; target == nil || *target < best+0.0099 || *target > best+0.0101 {
		t.Errorf("the target is %v where the best has %v", target, best)
	}
	for i := range f.Items {
		if f.Items[i].Number != i+1 {
			t.Errorf("item %d is number %d", i, f.Items[i].Number)
		}
	}
}

func (b *tablet) status(status string) line.Record {
	b.seq++
	r := line.Record{
		Seq: b.seq, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindStatus, Flight: b.flight.ID.String(),
		Status: status, EnteredAt: "2026-06-12T10:00:00Z",
	}
	if b.latest != "" {
		r.Replaces = []string{b.latest}
	}
	b.latest = r.ID
	return b.sign(r)
}

func (b *tablet) announcement() (found api.Announcement) {
	b.t.Helper()
	read(b.t, b.send(request{path: "/api/v1/contests/" + b.contest.String() + "/announcer", session: b.session}), &found)
	return found
}
