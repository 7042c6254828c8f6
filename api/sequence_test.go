package api_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
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

// plain is an invented contest of two pilots and two judges, without sequences.
func plain() *scoring.Bundle {
	b := &scoring.Bundle{
		Contest: scoring.Contest{Name: "Plain"},
		Judges:  []scoring.Judge{{ID: "j"}, {ID: "k"}}, Pilots: []scoring.Pilot{{ID: "p", Name: "Pilot"}, {ID: "q", Name: "Other"}},
	}
	c := scoring.Category{
		ID: "c", Name: "Category", Combine: scoring.Combine{By: scoring.BySum},
		Entries: []scoring.Entry{{Pilot: "p", Ranked: true}, {Pilot: "q", Ranked: true}},
	}
	for _, kind := range []string{scoring.Known, scoring.Free, scoring.Unknown} {
		c.Programmes = append(c.Programmes, scoring.Programme{
			ID: kind, Name: kind, Kind: kind, Counts: true, Method: scoring.DefaultMethod(scoring.Mean), Panel: []string{"j", "k"},
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
func (s *service) answered(r request) api.RegisteredSequence {
	s.t.Helper()
	r.token, r.contentType = token, json1
	return decoded[api.RegisteredSequence](s, r)
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

// secret is a sequence that nobody but the office may see, secrets what gives it
// away.
const secret = `{"kind": "figure", "k": 31.7, "elements": ["3.777.7.7"], "name": "Quillfeather", "words": {"call": "quill and feather"}, "moves": [{"arc": 45}, {"line": [{"kind": "roll", "turns": 1.75}, {"kind": "roll", "turns": 0.25}]}, {"arc": 45, "push": true}]}`

var secrets = []string{"Quill", "quill", "3.777", "31.7", "svg", "1.75"}

// TestUnreleasedIsSeenNowhere walks every operation that reads, as everybody but
// the office, in a contest open to all: nothing tells of an unknown sequence
// until it is released.
func TestUnreleasedIsSeenNowhere(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	r := s.put(at.unknown, sheet("", secret))
	if r.ReleasedAt != nil || len(r.Checked.Items[0].Errors) > 0 {
		t.Fatalf("released at %v, errors %v", r.ReleasedAt, r.Checked.Items[0].Errors)
	}
	paths := strings.NewReplacer("{contest}", at.contest.String(), "{category}", at.category.String(),
		"{programme}", strings.TrimPrefix(at.unknown, "/api/v1/programmes/"), "{flight}", at.unknownFlight.String(), "{judge}", at.judge.String(),
		"{session}", uuid.NewString(), "{invitation}", uuid.NewString(), "{account}", uuid.NewString(), "{role}", db.RoleJury)
	everyone := castAt(s, at.contest, s.plain(db.Closed).contest)
	s.eachOperation(func(o operation) {
		if o.method != http.MethodGet {
			return
		}
		for _, part := range append([]string{"nobody", "stranger", "pilot", "rival", "jury"}, strings.Fields(deviceParts)...) {
			a := s.glance(everyone.as(part, o.request(paths)))
			for _, text := range append(secrets, r.Digest) {
				if strings.Contains(a.body, text) {
					t.Errorf("%s gives %q away to %s: %s", o.id, text, part, a.body)
				}
			}
			if strings.HasSuffix(o.path, "/sequence") && a.status != http.StatusNotFound {
				t.Errorf("%s is answered %d to %s", o.id, a.status, part)
			}
		}
	})
	release := request{method: http.MethodPost, path: at.unknown + "/sequence/release", body: `{"digest": "` + r.Digest + `", "revision": 1}`}
	first := s.answered(release)
	if again := s.answered(release); first.ReleasedAt == nil || !first.ReleasedAt.Equal(*again.ReleasedAt) {
		t.Errorf("released at %v, and again at %v", first.ReleasedAt, again.ReleasedAt)
	}
	for _, path := range []string{at.unknown, at.unknown + "/sequence", "/api/v1/flights/" + at.unknownFlight.String() + "/result"} {
		if a := s.send(request{path: path}); !strings.Contains(a.body, "Quillfeather") {
			t.Errorf("released, and %s is answered %d without it", path, a.status)
		}
	}
}

// glance reads the beginning of an answer: streams have no end.
func (s *service) glance(r request) answer {
	s.t.Helper()
	response := s.do(r)
	defer response.Body.Close()
	text := make([]byte, 1<<20)
	n, err := response.Body.Read(text)
	if response.Header.Get("Content-Type") != "text/event-stream" {
		var rest int
		rest, err = io.ReadFull(response.Body, text[n:])
		n += rest
	}
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		s.t.Fatal(err)
	}
	return answer{response.StatusCode, response.Header, string(text[:n])}
}

// TestOneOfManyRegisters has many register at once in the same place: one is
// taken, the others are told what is there.
func TestOneOfManyRegisters(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	for _, place := range []string{at.known, at.flight} {
		before := ""
		for round := range 3 {
			answers := make(chan answer, 8)
			for i := range cap(answers) {
				k := fmt.Sprintf(`{"kind": "figure", "k": %d, "elements": ["1.1.%d.%d"]}`, i+1, round+1, i+1)
				go func() {
					answers <- s.send(request{method: http.MethodPut, path: place + "/sequence", token: token, contentType: json1, body: sheet(before, k)})
				}()
			}
			taken := map[int]int{}
			for range cap(answers) {
				a := <-answers
				taken[a.status]++
				if a.status == http.StatusOK {
					before = digestIn(t, a)
				}
			}
			if taken[http.StatusOK] != 1 || taken[http.StatusConflict] != cap(answers)-1 {
				t.Errorf("answers by status: %v", taken)
			}
			if r := get[api.RegisteredSequence](s, place+"/sequence"); r.Digest != before || r.Revision != round+1 {
				t.Errorf("registered is %s, revision %d; want %s, %d", r.Digest, r.Revision, before, round+1)
			}
		}
	}
}

func digestIn(t *testing.T, a answer) string {
	t.Helper()
	var r api.RegisteredSequence
	if err := json.Unmarshal([]byte(a.body), &r); err != nil {
		t.Error(err)
	}
	return r.Digest
}

// TestRevisionTellsOfAChangedK: a K that was changed leaves the digest, which
// grades are for, and takes the sign-off away all the same.
func TestRevisionTellsOfAChangedK(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	first := s.put(at.known, sheet("", loop))
	s.answered(request{method: http.MethodPost, path: at.known + "/sequence/sign-off", body: `{"digest": "` + first.Digest + `"}`})
	second := s.put(at.known, sheet(first.Digest, strings.Replace(loop, "10", "11", 1)))
	if second.Digest != first.Digest || second.Revision != 2 || second.SignedOff != nil {
		t.Errorf("after another K: %+v", second)
	}
	stale := `, "revision": 1}`
	for path, r := range map[string]request{
		"":          {method: http.MethodPut, body: strings.TrimSuffix(sheet(first.Digest, loop), "}") + stale},
		"/sign-off": {method: http.MethodPost, body: `{"digest": "` + first.Digest + `"` + stale},
	} {
		r.path, r.token, r.contentType = at.known+"/sequence"+path, token, json1
		if a := s.send(r); a.status != http.StatusConflict || !strings.Contains(a.body, "revision 2") {
			t.Errorf("%s of revision 1: %d %s", r.method, a.status, a.body)
		}
	}
}

// TestSequenceProblems asks for each thing that cannot be done with a sequence.
func TestSequenceProblems(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	known := s.put(at.known, sheet("", loop))
	inKnown := "/api/v1/flights/" + s.flightOf(at.known)
	for name, c := range map[string]struct {
		method, path, body string
		status             int
		want               string // pointers, or a part of the detail
	}{
		"not JSON":                {"PUT", at.known, `{"items":`, 400, "/items"},
		"a list":                  {"PUT", at.known, `[]`, 422, ""},
		"nothing":                 {"PUT", at.known, `{}`, 422, "/items /replaces"},
		"a field twice":           {"PUT", at.known, `{"items": [], "items": [], "replaces": ""}`, 422, "/items"},
		"limits":                  {"PUT", at.known, `{"items": [], "replaces": "", "limits": {}}`, 422, "/limits"},
		"inside a move":           {"PUT", at.known, sheet("", `{"kind": "figure", "k": 1, "moves": [{"arc": 50}, {"line": [{"kind": "rol", "turns": 1}]}]}`), 422, "/items/0/moves/0/arc /items/0/moves/1/line/0/kind"},
		"an unknown field":        {"PUT", at.known, sheet("", `{"kind": "figure", "k": 1, "colour": 1}`), 422, "/items/0/colour"},
		"no K":                    {"PUT", at.known, sheet("", `{"kind": "figure", "elements": ["1.1.1.1"]}`), 422, "/items/0/k"},
		"an overall with moves":   {"PUT", at.known, sheet("", `{"kind": "overall", "k": 1, "moves": [{"arc": 45}]}`), 422, "/items/0/moves"},
		"41 items":                {"PUT", at.known, sheet("", strings.Repeat(loop+",", 40)+loop), 422, "/items"},
		"U+0000":                  {"PUT", at.known, sheet(known.Digest, `{"kind": "overall", "k": 1, "name": "a\u0000"}`), 422, ""},
		"a revision in words":     {"PUT", at.known, `{"items": [], "replaces": "", "revision": "x"}`, 422, "/revision"},
		"a known one by a flight": {"PUT", inKnown, sheet("", loop), 409, "all flights of a known programme fly the programme's sequence"},
		"of a free programme":     {"PUT", at.free, sheet("", loop), 404, ""},
		"none there":              {"PUT", at.unknown, sheet(known.Digest, loop), 409, "no sequence is registered"},
		"another there":           {"PUT", at.known, sheet("", loop), 409, "the sequence that is registered now is " + known.Digest + ", revision 1"},
		"signed without digest":   {"POST", at.known + "/sign-off", `{}`, 400, "/digest"},
		"signed with U+0000":      {"POST", at.known + "/sign-off", `{"digest": "` + known.Digest + `", "reason": "\u0000x"}`, 422, "/reason"},
		"signed at length":        {"POST", at.known + "/sign-off", `{"digest": "x", "reason": "` + strings.Repeat("x", 501) + `"}`, 400, "/reason"},
		"signed, not there":       {"POST", at.unknown + "/sign-off", `{"digest": ""}`, 409, "no sequence is registered"},
		"known ones are seen":     {"POST", at.known + "/release", `{"digest": "` + known.Digest + `"}`, 409, "only an unknown sequence is released"},
		"released, not there":     {"POST", at.unknown + "/release", `{"digest": ""}`, 409, "no sequence is registered"},
	} {
		path := c.path
		if before, after, ok := strings.Cut(path, "/sign-off"); ok {
			path = before + "/sequence/sign-off" + after
		} else if before, ok := strings.CutSuffix(path, "/release"); ok {
			path = before + "/sequence/release"
		} else {
			path += "/sequence"
		}
		a := s.send(request{method: c.method, path: path, body: c.body, token: token, contentType: json1})
		p := problemOf(t, a)
		got := strings.Join(pointers(&p), " ")
		if p.Detail != nil && a.status != http.StatusBadRequest {
			got += *p.Detail
		}
		if a.status != c.status || !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %d %q, want %d %q: %s", name, a.status, got, c.status, c.want, a.body)
		}
	}
}

// flightOf is the id of the first flight of a programme.
func (s *service) flightOf(programme string) string {
	s.t.Helper()
	return get[api.ProgrammeResults](s, programme+"/results").Flights[0].ID.String()
}

// TestPilotsChangeTheirOwnUntilCalled: a pilot registers the sequence of the own
// flight, but not once the flight has been called.
func TestPilotsChangeTheirOwnUntilCalled(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Live)
	everyone := castAt(s, at.contest, s.plain(db.Closed).contest)
	own := request{method: http.MethodPut, path: at.flight + "/sequence", body: sheet("", loop), contentType: json1}
	a := s.send(everyone.as("pilot", own))
	if a.status != http.StatusOK {
		t.Fatalf("the own sequence: %d %s", a.status, a.body)
	}
	if a := s.send(everyone.as("rival", own)); a.status != http.StatusNotFound {
		t.Errorf("another's: %d %s", a.status, a.body)
	}
	called := line.Record{
		Seq: 1, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindStatus, Status: line.StatusCalled,
		Flight: strings.TrimPrefix(at.flight, "/api/v1/flights/"),
	}
	_, err := s.db.StoreRecords(t.Context(), at.contest, db.Delivery{
		Store: uuid.New(), Author: line.Author{Role: line.RoleChief, Device: "chief"}, Records: []db.Received{{Record: called}},
	})
	if err != nil {
		t.Fatal(err)
	}
	own.body = sheet(digestIn(t, a), halfCuban)
	if a := s.send(everyone.as("pilot", own)); a.status != http.StatusConflict || !strings.Contains(a.body, "has been called") {
		t.Errorf("once it was called: %d %s", a.status, a.body)
	}
	s.put(at.flight, own.body)
}

// TestListOfSequences tells of each flight what became of its sequence.
func TestListOfSequences(t *testing.T) {
	t.Parallel()
	s := start(t)
	at := s.plain(db.Closed)
	first := s.put(at.flight, sheet("", loop, broken, `{"kind": "figure", "k": 5}`, halfCuban))
	s.answered(request{method: http.MethodPost, path: at.flight + "/sequence/sign-off", body: `{"digest": "` + first.Digest + `", "reason": "seen"}`})
	s.answered(request{method: http.MethodPut, path: at.flight + "/description", body: `{"text": "One loop, then smoke.", "replaces": ""}`})
	list := get[api.SequenceList](s, at.free+"/sequences").Sequences
	if len(list) != 2 || list[0].Flight == nil || list[0].Flight.Pilot.Name != "Pilot" || list[1].Digest != "" || list[1].SignedOff != nil {
		t.Fatalf("%+v", list)
	}
	// The broken figure's own error, and that the one after it is not traced.
	if one := list[0]; one.Errors != 1 || one.Remarks != 1 || one.TotalK != 37 || one.Figures != 4 || one.SignedOff == nil || one.SignedOff.Reason != "seen" {
		t.Errorf("%+v", one)
	}
	if !*list[0].Described || *list[1].Described {
		t.Errorf("described: %v, %v", *list[0].Described, *list[1].Described)
	}
	if common := get[api.SequenceList](s, at.known+"/sequences").Sequences; len(common) != 1 || common[0].Flight != nil || common[0].Digest != "" || common[0].Described != nil {
		t.Errorf("%+v", common)
	}
}
