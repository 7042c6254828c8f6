package db_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
)

// The time for protests stands still over night.
func TestTimeForProtestsPauses(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	now := time.Now()
	p := s.publish(s.programme(0), db.Publishing{
		State: provisional, ProtestTime: 2 * time.Hour,
		Pause: &db.Pause{From: now.Add(30 * time.Minute), Until: now.Add(12*time.Hour + 30*time.Minute)},
	})
	if got, want := p.Info.ProtestUntil.Sub(p.Info.PublishedAt), 14*time.Hour; got != want {
		t.Errorf("the time for protests ends after %v, want %v", got, want)
	}
	for name, wish := range map[string]db.Publishing{
		"over already":      {State: provisional, ProtestUntil: in(-time.Minute)},
		"of official":       {State: official, ProtestUntil: in(time.Hour)},
		"end and length":    {State: provisional, ProtestUntil: in(time.Hour), ProtestTime: time.Hour},
		"a pause backwards": {State: provisional, ProtestTime: time.Hour, Pause: &db.Pause{From: now, Until: now}},
		"a long reason":     {State: provisional, Reason: strings.Repeat("x", 2001)},
		"a reason with NUL": {State: provisional, Reason: "x\x00"},
	} {
		_, _, err := s.db.Publish(t.Context(), s.programme(0), wish, signer)
		if _, ok := errors.AsType[document.Complaints](err); !ok {
			t.Errorf("%s: %v, want a complaint", name, err)
		}
	}
}

func TestProtest(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	of := s.programme(0)
	pilot := s.part.Pilots[s.part.Bundle.Categories[0].Programmes[0].Flights[0].Pilot]
	protest := db.NewProtest{Pilot: pilot, Text: "Figure 3 was flown the other way.", By: "office"}
	if _, _, err := s.db.File(t.Context(), of.Programme, protest); !isNotInTime(err) {
		t.Errorf("before anything is published: %v", err)
	}
	s.publish(of, db.Publishing{State: provisional, ProtestTime: time.Hour})
	id, fresh, err := s.db.File(t.Context(), of.Programme, protest)
	if again, freshAgain, againErr := s.db.File(t.Context(), of.Programme, protest); err != nil || againErr != nil || again != id || !fresh || freshAgain {
		t.Errorf("filed as %v and %v, %v, %v", id, again, err, againErr)
	}
	if said := s.refused(of, db.Publishing{State: official}); !strings.Contains(said, "the protest of") {
		t.Error(said)
	}
	closed := s.flight(0, 0).ID
	for name, bad := range map[string]db.NewDecision{
		"without a word":      {Upheld: true},
		"refused and reopens": {Text: "No.", Reopen: &closed},
		"reopens another's":   {Upheld: true, Text: "Yes.", Reopen: &pilot},
	} {
		if _, err := s.db.Decide(t.Context(), id, bad); err == nil {
			t.Errorf("decided %s", name)
		}
	}
	decision := db.NewDecision{Upheld: true, Text: "The video shows it.", Reopen: &closed, By: "director"}
	decided, err := s.db.Decide(t.Context(), id, decision)
	if err != nil || !decided.Decision.Upheld || *decided.Decision.Reopened != closed {
		t.Fatalf("%+v, %v", decided, err)
	}
	if _, err := s.db.Decide(t.Context(), id, decision); err != nil {
		t.Errorf("the same again: %v", err)
	}
	if _, err := s.db.Decide(t.Context(), id, db.NewDecision{Text: "No."}); !errors.Is(err, db.ErrConflict) {
		t.Errorf("another decision: %v", err)
	}
	s.read()
	if status := s.flight(0, 0).State.Status; status != line.StatusLanded {
		t.Errorf("the flight is %s, want it open again", status)
	}
	if _, _, err := s.db.File(t.Context(), of.Programme, db.NewProtest{Pilot: uuid.New(), Text: "I flew too."}); err == nil {
		t.Error("a pilot who does not fly protests")
	}
	list, err := s.db.Protests(t.Context(), of.Programme)
	if err != nil || len(list.Protests) != 1 || list.Protests[0].Text != protest.Text || list.Protests[0].Decision == nil {
		t.Errorf("%+v, %v", list, err)
	}
}

func isNotInTime(err error) bool {
	_, ok := errors.AsType[*db.NotInTimeError](err)
	return ok
}
