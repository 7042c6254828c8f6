package api_test

import (
	"encoding/json"
	"net/http"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring/line"
)

// startFree is a contest in which the first flight of the free is still to be flown,
// with an account of its pilot's and one of another pilot's.
func startFree(t *testing.T) (l *aLine, pilot uuid.UUID, own, rival string) {
	t.Helper()
	bundle := bundleOf(t, "108")
	first := &bundle.Categories[0].Programmes[1].Flights[0]
	first.Status, first.Sheets, first.Rulings, first.Penalties = "scheduled", nil, nil, nil
	l = &aLine{service: start(t)}
	l.contest = l.imports(bundle, db.Live)
	part, err := l.db.ContestBundle(t.Context(), l.contest)
	if err != nil {
		t.Fatal(err)
	}
	l.flight.ID, pilot = part.Categories[0].Programmes[1].Flights[0].ID, part.Pilots[first.Pilot]
	other := part.Pilots[bundle.Categories[0].Programmes[1].Flights[1].Pilot]
	sessions := map[uuid.UUID]string{}
	for _, id := range []uuid.UUID{pilot, other} {
		account := l.account("pilot", false)
		l.give(l.contest, account, db.RolePilot, id)
		sessions[id] = l.signIn(account)
	}
	return l, pilot, sessions[pilot], sessions[other]
}

// tell sends a text in place of another.
func (l *aLine) tell(path, session, text, replaces string) answer {
	l.t.Helper()
	body, err := json.Marshal(api.Telling{Text: text, Replaces: replaces})
	if err != nil {
		l.t.Fatal(err)
	}
	return l.send(request{method: http.MethodPut, path: path, session: session, body: string(body), contentType: json1})
}

// TestAPilotTellsTheAnnouncer: a pilot writes the own line and describes the own
// free style, which the announcer is given when the flight is called; nobody else
// reads or writes them but the office.
func TestAPilotTellsTheAnnouncer(t *testing.T) {
	t.Parallel()
	l, pilot, own, rival := startFree(t)
	of := "/api/v1/contests/" + l.contest.String() + "/pilots/" + pilot.String()
	note, description := of+"/note", "/api/v1/flights/"+l.flight.ID.String()+"/description"
	for path, text := range map[string]string{note: " Flew gliders first. ", description: "One loop.\nThen smoke.\n"} {
		if a := l.tell(path, rival, text, ""); a.status != http.StatusNotFound {
			t.Errorf("%s by another pilot: %d", path, a.status)
		}
		if a := l.tell(path, own, text, ""); a.status != http.StatusOK {
			t.Errorf("%s: %d %s", path, a.status, a.body)
		}
		if a := l.tell(path, own, "Otherwise.", ""); a.status != http.StatusConflict {
			t.Errorf("%s in place of what is there no more: %d", path, a.status)
		}
	}
	want(t, "two lines", l.tell(note, own, "One.\nTwo.", "Flew gliders first."), 422, "invalid", "/text")
	told := decoded[api.ToldOfPilot](l.service, request{path: of + "/told", session: own})
	if told.Note != "Flew gliders first." || len(told.Flights) != 1 || told.Flights[0].Description != "One loop.\nThen smoke." {
		t.Errorf("%+v", told)
	}
	if a := l.send(request{path: of + "/told", session: rival}); a.status != http.StatusNotFound {
		t.Errorf("another pilot reads it: %d", a.status)
	}
	chief := l.tablet("chief", uuid.Nil)
	chief.deliver(chief.status(line.StatusCalled))
	f := l.tablet("announcer", uuid.Nil).announcement().Flight
	if f == nil || f.Note == nil || *f.Note != told.Note || f.Description == nil || *f.Description != told.Flights[0].Description {
		t.Errorf("%+v", f)
	}
}
