package api_test

import (
	"net/http"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/line"
)

// TestTheAnnouncerIsToldNoScoreBeforeTheFlightIsClosed walks everything that can be
// read, as the announcer's device, in a contest opened live in which a flight is
// signed by all and not closed. When it is closed the announcer is told its score.
func TestTheAnnouncerIsToldNoScoreBeforeTheFlightIsClosed(t *testing.T) {
	t.Parallel()
	l, programme, places := flown(t)
	chief, announcer := l.tablet("chief", uuid.Nil), l.tablet("announcer", uuid.Nil)
	latest, covers := l.recorded()
	chief.latest = latest
	chief.deliver(chief.status(line.StatusLanded))

	results := "/api/v1/programmes/" + programme.String() + "/results"
	flight := get[api.ProgrammeResults](l.service, results).Flights[0]
	if flight.ID != l.flight.ID || flight.Score == nil {
		t.Fatalf("%+v, want the score of the flight that is signed", flight)
	}
	score, asked := strconv.FormatFloat(*flight.Score, 'f', -1, 64), 0
	l.eachOperation(func(o operation) {
		if o.method != http.MethodGet || o.id == "streamEvents" { // which tells versions alone
			return
		}
		r := o.request(places)
		r.session = announcer.session
		if a := l.send(r); a.status == http.StatusOK {
			asked++
			if strings.Contains(a.body, ":"+score) {
				t.Errorf("%s tells %s, the score of a flight that is not closed", o.id, score)
			}
		}
	})
	if asked < 10 {
		t.Errorf("%d operations answered, want more", asked)
	}
	told := func() []api.FlightStanding {
		return decoded[api.ProgrammeResults](l.service, request{path: results, session: announcer.session}).Flights
	}
	if f := told(); f[0].Score != nil || f[0].State != api.FlightStateIncomplete || f[1].Score == nil {
		t.Errorf("%+v and %+v, want a flight that waits and one with its score", f[0], f[1])
	}
	closing := chief.status(line.StatusClosed)
	closing.Covers = covers
	chief.deliver(chief.sign(closing))
	if f := told()[0]; f.Score == nil || *f.Score != *flight.Score {
		t.Errorf("%+v when it is closed, want a score of %s", f, score)
	}
	if f := announcer.announcement().Flight; f == nil || f.ID != l.flight.ID {
		t.Errorf("%+v is announced, want the flight that was closed last", f)
	}
}

// flown is a contest opened live whose flights are all closed, and what is in it,
// by the parameters of paths.
func flown(t *testing.T) (l *aLine, programme uuid.UUID, places *strings.Replacer) {
	t.Helper()
	l = &aLine{service: start(t)}
	l.contest = l.imports(bundleOf(t, "108"), db.Live)
	part, err := l.db.ContestBundle(t.Context(), l.contest)
	if err != nil {
		t.Fatal(err)
	}
	category, flown := part.Categories[0], part.Bundle.Categories[0].Programmes[0]
	programme, l.flight.ID = category.Programmes[0].ID, category.Programmes[0].Flights[0].ID
	return l, programme, strings.NewReplacer(
		"{contest}", l.contest.String(), "{category}", category.ID.String(), "{programme}", programme.String(),
		"{flight}", l.flight.ID.String(), "{judge}", part.Judges[flown.Panel[0]].String(), "{pilot}", flown.Flights[0].Pilot)
}

// recorded are the record that says what the flight is doing, and all others.
func (l *aLine) recorded() (status string, others []string) {
	l.t.Helper()
	sheets, err := l.db.Sheets(l.t.Context(), l.flight.ID)
	if err != nil {
		l.t.Fatal(err)
	}
	for id, r := range sheets.Records {
		if r.Kind != line.KindStatus {
			others = append(others, id)
		}
	}
	return sheets.State.StatusHeads[0], others
}

// TestAnAnnouncementTellsNoGradeBeforeTheFlightIsClosed: other grades make no other
// announcement, and how far the panel is is what the seat in its middle has
// entered.
func TestAnAnnouncementTellsNoGradeBeforeTheFlightIsClosed(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	chief, announcer := l.tablet("chief", uuid.Nil), l.tablet("announcer", uuid.Nil)
	if f := announcer.announcement().Flight; f == nil || f.Status != "closed" || f.Takes != nil || f.ID == l.flight.ID {
		t.Errorf("before anything is called %+v is announced, want a flight that was closed", f)
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
