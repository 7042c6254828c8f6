package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring"
)

// loop is a figure that is followed, halfCuban one with numbers, broken one that
// ends on a line down.
const (
	loop      = `{"kind": "figure", "k": 10, "elements": ["7.41.1.2"], "moves": [{"arc": 360}]}`
	halfCuban = `{"kind": "figure", "k": 13, "elements": ["8.31.2.1", "9.1.62.2"], "moves": [{"arc": 225}, {"line": [{"kind": "roll", "turns": 0.5}]}, {"arc": 45}]}`
	broken    = `{"kind": "figure", "k": 9, "elements": ["8.9.9.9"], "moves": [{"arc": 225}]}`
	overall   = `{"kind": "overall", "k": 10, "name": "Positioning"}`
)

// sheet is a sequence to be registered in place of another.
func sheet(replaces string, items ...string) string {
	return `{"items": [` + strings.Join(items, ",") + `], "replaces": "` + replaces + `"}`
}

// places are those of a contest with a known, a free and an unknown programme.
type places struct {
	contest, category uuid.UUID
	known, free       string // paths of the sequences' places
	unknown           string
	flight            string // of a free flight
	unknownFlight     uuid.UUID
	judge             uuid.UUID
}

// plain is an invented contest without sequences: one pilot, one judge.
func plain() *scoring.Bundle {
	b := &scoring.Bundle{
		Contest: scoring.Contest{Name: "Plain"},
		Judges:  []scoring.Judge{{ID: "j"}}, Pilots: []scoring.Pilot{{ID: "p", Name: "Pilot"}, {ID: "q", Name: "Other"}},
	}
	c := scoring.Category{
		ID: "c", Name: "Category", Combine: scoring.Combine{By: scoring.BySum},
		Entries: []scoring.Entry{{Pilot: "p", Ranked: true}, {Pilot: "q", Ranked: true}},
	}
	for _, kind := range []string{scoring.Known, scoring.Free, scoring.Unknown} {
		c.Programmes = append(c.Programmes, scoring.Programme{
			ID: kind, Name: kind, Kind: kind, Counts: true, Method: scoring.DefaultMethod(scoring.Mean), Panel: []string{"j"},
			Flights: []scoring.Flight{{Pilot: "p", Status: scoring.Scheduled}, {Pilot: "q", Status: scoring.Scheduled}},
		})
	}
	b.Categories = []scoring.Category{c}
	return b
}

func (s *service) plain(opened string) places {
	s.t.Helper()
	contest := s.imports(plain(), opened)
	part, err := s.db.ContestBundle(s.t.Context(), contest)
	if err != nil {
		s.t.Fatal(err)
	}
	category := part.Categories[0]
	path := func(i int) string { return "/api/v1/programmes/" + category.Programmes[i].ID.String() }
	return places{
		contest: contest, category: category.ID, known: path(0), free: path(1), unknown: path(2),
		flight:        "/api/v1/flights/" + category.Programmes[1].Flights[0].ID.String(),
		unknownFlight: category.Programmes[2].Flights[0].ID, judge: part.Judges["j"],
	}
}

// put sends a sequence as the office and gives what is registered then.
func (s *service) put(place, body string) (r api.RegisteredSequence) {
	s.t.Helper()
	return s.answered(request{method: http.MethodPut, path: place + "/sequence", body: body})
}

// answered is what the office is told of a sequence when it has sent JSON.
func (s *service) answered(r request) (registered api.RegisteredSequence) {
	s.t.Helper()
	r.token, r.contentType = token, json1
	a := s.send(r)
	if a.status != http.StatusOK {
		s.t.Fatalf("%s %s: %d %s", r.method, r.path, a.status, a.body)
	}
	if err := json.Unmarshal([]byte(a.body), &registered); err != nil {
		s.t.Fatal(err)
	}
	return registered
}

// TestSequenceIsRegisteredSignedOffAndChanged goes the way of a free sequence.
func TestSequenceIsRegisteredSignedOffAndChanged(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	if r := get[api.RegisteredSequence](s, at.flight+"/sequence"); r.Digest != "" || r.Revision != 0 || len(r.Items) != 0 {
		t.Errorf("before anything is registered: %+v", r)
	}
	first := s.put(at.flight, sheet("", loop, broken, overall))
	if first.Digest == "" || first.Revision != 1 || first.ReleasedAt == nil || first.Checked.Clean || first.Flight.Number != 1 {
		t.Errorf("registered: %+v", first)
	}
	signOff := request{method: http.MethodPost, path: at.flight + "/sequence/sign-off", body: `{"digest": "` + first.Digest + `"}`, token: token, contentType: json1}
	a := s.send(signOff)
	if p := problemOf(t, a); a.status != http.StatusUnprocessableEntity || strings.Join(pointers(&p), "") != "/reason" {
		t.Errorf("signed off over an error without a reason: %d %s", a.status, a.body)
	}
	signOff.body = `{"digest": "` + first.Digest + `", "reason": " flown so in the show "}`
	signed := s.answered(signOff)
	if signed.SignedOff == nil || signed.SignedOff.Reason != "flown so in the show" || signed.SignedOff.Digest != first.Digest {
		t.Errorf("signed off: %+v", signed.SignedOff)
	}
	if again := s.put(at.flight, sheet(first.Digest, loop, broken, overall)); again.SignedOff == nil || again.Revision != 1 {
		t.Errorf("the same registered again: revision %d, signed off %v", again.Revision, again.SignedOff)
	}
	second := s.put(at.flight, sheet(first.Digest, loop, halfCuban, overall))
	if second.SignedOff != nil || second.Revision != 2 || second.Digest == first.Digest || !second.Checked.Clean {
		t.Errorf("changed: %+v", second)
	}
	a = s.send(request{method: http.MethodPut, path: at.flight + "/sequence", body: sheet(first.Digest, loop), token: token, contentType: json1})
	if p := problemOf(t, a); a.status != http.StatusConflict || p.Detail == nil || !strings.Contains(*p.Detail, second.Digest) {
		t.Errorf("in place of one that is no more: %d %s", a.status, a.body)
	}
}
