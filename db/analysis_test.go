package db_test

import (
	"errors"
	"testing"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

// What an analysis is made of has nothing of a flight that is open again.
func TestClosedProgrammeLeavesOpenFlightsOut(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	programme := s.part.Categories[0].Programmes[0]
	open := programme.Flights[0]
	before, err := s.db.ClosedProgramme(t.Context(), programme.ID)
	if err != nil || len(before.Bundle.Categories[0].Programmes[0].Flights[0].Sheets) == 0 {
		t.Fatalf("a closed flight has no sheet, %v", err)
	}
	s.record(line.Record{Kind: line.KindStatus, Flight: open.ID.String(), Status: line.StatusLanded, Replaces: open.State.StatusHeads})
	after, err := s.db.ClosedProgramme(t.Context(), programme.ID)
	if err != nil {
		t.Fatal(err)
	}
	flights := after.Bundle.Categories[0].Programmes[0].Flights
	if len(flights[0].Sheets) > 0 || len(flights[1].Sheets) == 0 {
		t.Errorf("of the open flight %d sheets, of the next %d", len(flights[0].Sheets), len(flights[1].Sheets))
	}
}

func TestOpenAnalysisOnceAndForAll(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	programme := s.programme(0)
	refusals, ok := errors.AsType[db.Refusals](s.db.OpenAnalysis(t.Context(), programme.Programme, "director"))
	if !ok || len(refusals) != 1 {
		t.Errorf("opened before results were published: %v", refusals)
	}
	s.publish(programme, db.Publishing{State: provisional})
	for range 2 {
		if err := s.db.OpenAnalysis(t.Context(), programme.Programme, "director"); err != nil {
			t.Fatal(err)
		}
	}
	journalSays(t, s.db, s.contest, "published", "analysis") // the second time is no act
	states, err := s.db.AnalysisStates(t.Context(), s.contest)
	if state := states[programme.Programme]; err != nil || !state.Published || state.OpenedAt == nil {
		t.Errorf("%+v, %v", state, err)
	}
}

func TestJudgesAccount(t *testing.T) {
	t.Parallel()
	s := newStage(t, "108", nil)
	judge := s.part.Judges[s.part.Bundle.Categories[0].Programmes[0].Panel[0]]
	link := aHash()
	if _, err := s.db.Invite(t.Context(), s.contest, db.NewInvitation{Hash: link, Role: db.RoleJudge}); !errors.Is(err, db.ErrJudge) {
		t.Errorf("a judge's role without a judge: %v", err)
	}
	made, err := s.db.Invite(t.Context(), s.contest, db.NewInvitation{Hash: link, Role: db.RoleJudge, Judge: judge, Lasts: 1e12})
	if err != nil || made.Judge == nil || made.Judge.ID != judge {
		t.Fatalf("%+v, %v", made, err)
	}
	account, err := s.db.AcceptAsNew(t.Context(), link, db.NewAccount{Email: "vera@example.org", Name: "Vera Lind", Password: "hash"})
	if err != nil {
		t.Fatal(err)
	}
	members, err := s.db.Members(t.Context(), s.contest)
	if err != nil || len(members) != 1 || members[0].Account != account.ID || members[0].Judge.ID != judge {
		t.Errorf("%+v, %v", members, err)
	}
	panels, err := s.db.PanelsOf(t.Context(), s.contest, judge)
	if err != nil || len(panels) == 0 {
		t.Errorf("the panels of a judge: %v, %v", panels, err)
	}
}
