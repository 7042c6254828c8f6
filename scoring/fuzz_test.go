package scoring

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"halfpoint/scoring/document"
)

// addCases gives the worked cases as seeds.
func addCases(f *testing.F, add func(text []byte)) {
	f.Helper()
	for _, path := range caseFiles(f) {
		add(readFile(f, path))
	}
}

// Fuzz with -fuzzminimizetime 10x: the cases are long texts, and it takes a
// minute to make one short.

// FuzzDecodeBundle: a text is either refused with complaints, or it is a bundle
// that is written and read back as the same.
func FuzzDecodeBundle(f *testing.F) {
	addCases(f, func(text []byte) { f.Add(text) })
	f.Add([]byte(smallBundle))
	f.Add([]byte(strings.Replace(smallBundle, `"weights":{"k":0.5,"f":0.5}`, `"weights":{}`, 1)))
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := DecodeBundle(text)
		if err == nil {
			holdsOverEncoding(t, b)
			return
		}
		if complaints := (document.Complaints{}); b != nil || !errors.As(err, &complaints) || len(complaints) == 0 {
			t.Errorf("a bundle is refused by %T (%v), and is %v", err, err, b)
		}
	})
}

// smallBundle is a short text in which much of what a bundle may hold stands.
const smallBundle = `{"format":"halfpoint-bundle/1","contest":{"name":"C","starts":"2026-06-12"},
"judges":[{"id":"a"},{"id":"b"},{"id":"c"},{"id":"d"},{"id":"e"}],
"pilots":[{"id":"p"},{"id":"q"},{"id":"r"},{"id":"s"},{"id":"t"},{"id":"v"}],
"categories":[{"id":"x","combine":{"by":"weighted-percent","weights":{"k":0.5,"f":0.5},"tie_break":["k"],"team_best":2},
"entries":[{"pilot":"p","team":"u"},{"pilot":"q","ranked":false},{"pilot":"r","team":"u"},{"pilot":"s"},{"pilot":"t"}],
"programmes":[{"id":"k","kind":"known","cut":2,"method":{"name":"consensus","style":false},"panel":["a","b","c","d"],
"sequence":{"items":[{"kind":"figure","k":10.5,"elements":["9.9.1"]},{"kind":"overall","k":3}]},"flights":[
{"pilot":"p","status":"flown","sheets":[{"judge":"a","grades":["8","HZ"]},{"judge":"b","grades":["7.5","9"]},{"judge":"c","grades":["6","PZ"]},{"judge":"d","absent":true}],
"rulings":[{"item":2,"ruling":"hard-zero-overruled"}],"penalties":[{"kind":"low","count":2,"points":20}]},
{"pilot":"q","status":"flown","sheets":[{"judge":"a","grades":["8","7"]},{"judge":"b","grades":["7.5","9"]},{"judge":"c","grades":["6","5"]},{"judge":"d","grades":["8","8"]}]},
{"pilot":"r","status":"flown","sheets":[{"judge":"a","grades":["8","7"]},{"judge":"b","grades":["7.5","A"]},{"judge":"c","grades":["6","5"]},{"judge":"d","grades":["8","8"]}]},
{"pilot":"s","status":"flown","sheets":[{"judge":"a","grades":["0","7"]},{"judge":"b","grades":["0","9"]},{"judge":"c","grades":["0","5"]},{"judge":"d","grades":["0","8"]}]},
{"pilot":"t","status":"flown","sheets":[{"judge":"a","grades":["8","7"]},{"judge":"b","by":"e","grades":["7.5","9"]},{"judge":"c","grades":["6","5"]},{"judge":"d","grades":["8","8"],"remarks":["","x"]}]}]},
{"id":"f","kind":"free","flights":[{"pilot":"p","status":"withdrawn"},{"pilot":"q","status":"scheduled"}]}]}]}`

// FuzzScore: whatever bundle is read, with whatever method, grades and options,
// its results are numbers and its ranks are those of the field.
func FuzzScore(f *testing.F) {
	add := func(text []byte) {
		for name := range uint8(4) {
			m := DefaultMethod("")
			f.Add(text, []byte{}, name, m.Discard, m.Outlier, m.Lean, m.Trim, m.GroupMin)
		}
	}
	addCases(f, add)
	add([]byte(smallBundle))
	for _, least := range []float64{leastOption, 1e-160, 5e-324} { // the latter once led to numbers that are none
		f.Add(readFile(f, caseFiles(f)[0]), []byte{}, uint8(3), 1.0, 6.0, least, 1, 11)
		f.Add(readFile(f, caseFiles(f)[4]), []byte{}, uint8(3), 1.0, least, 1e308, 1, 1)
	}
	f.Fuzz(func(t *testing.T, text, grades []byte, name uint8, discard, outlier, lean float64, trim, groupMin int) {
		m := DefaultMethod([]string{Mean, TrimmedMean, Normalised, Consensus}[name%4])
		m.Discard, m.Outlier, m.Lean, m.Trim, m.GroupMin = discard, outlier, lean, trim, groupMin
		if b := bundleWith(text, grades, m); b != nil {
			isSound(t, b, Score(b))
		}
	})
}

// mostFuzzed bounds the flights and the cells of what is scored: the time it
// takes is bounded by them.
const mostFuzzed = 20_000

// bundleWith reads a bundle and puts other grades and another method into it;
// nil where that is none, or too large.
func bundleWith(text, grades []byte, m Method) *Bundle {
	b, err := DecodeBundle(text)
	if err != nil {
		return nil
	}
	size := 0
	for c := range b.Categories {
		size += len(b.Categories[c].Entries)
		for i := range b.Categories[c].Programmes {
			p := &b.Categories[c].Programmes[i]
			p.Method = m
			size += overlay(p, &grades)
		}
	}
	text, err = b.Encode()
	if err != nil || size > mostFuzzed {
		return nil
	}
	b, err = DecodeBundle(text)
	if err != nil {
		return nil // an option that no bundle may have
	}
	return b
}

// overlay puts grades over a programme's, as far as they go, and counts the
// flights and cells.
func overlay(p *Programme, grades *[]byte) (size int) {
	for i := range p.Flights {
		f := &p.Flights[i]
		size += 1 + len(p.Items(f))*len(p.Panel)
		for _, sheet := range f.Sheets {
			for item := range sheet.Grades {
				if len(*grades) > 0 {
					sheet.Grades[item] = NotEntered + Grade((*grades)[0]%uint8(MaxGrade-NotEntered+1))
					*grades = (*grades)[1:]
				}
			}
		}
	}
	return size
}

// isSound checks what holds of all results. That encoding/json writes them says
// that every number is one.
func isSound(t *testing.T, b *Bundle, r *Results) {
	t.Helper()
	text, err := encode(r)
	if err != nil {
		t.Fatalf("results that are no numbers: %v", err)
	}
	if !bytes.Equal(text, r.Encode()) {
		t.Errorf("written\n%s\nwant\n%s", r.Encode(), text)
	}
	for i, c := range r.Categories {
		entries := len(b.Categories[i].Entries)
		for _, p := range c.Programmes {
			for j := range p.Flights {
				isSoundFlight(t, &p.Flights[j], entries)
			}
		}
		for _, o := range c.Overall {
			isSoundRank(t, o.Pilot, o.Rank, o.Certainty, entries)
		}
		for _, team := range c.Teams {
			isSoundRank(t, team.Team, &team.Rank, nil, len(c.Teams))
		}
	}
}

func isSoundFlight(t *testing.T, f *FlightResult, entries int) {
	t.Helper()
	if f.Placing != nil {
		isSoundRank(t, f.Pilot, f.Rank, f.Certainty, entries)
		if f.Score < 0 || f.Percent < 0 {
			t.Errorf("%s: score %v, percent %v", f.Pilot, f.Score, f.Percent)
		}
	}
	if f.Judged == nil {
		return
	}
	if f.StandardError < 0 {
		t.Errorf("%s: standard error %v", f.Pilot, f.StandardError)
	}
	for _, c := range f.Cells {
		if c.Trust != nil && (c.Weight < 0 || c.Weight > 1) {
			t.Errorf("%s: item %d is trusted by %v", f.Pilot, c.Item, c.Weight)
		}
	}
	shares := 0.0
	for _, s := range f.Seats {
		shares += s.Weight
	}
	if len(f.Seats) > 0 && (shares < 1-1e-9 || shares > 1+1e-9) {
		t.Errorf("%s: the seats' shares add up to %v", f.Pilot, shares)
	}
}

// isSoundRank: those who were not flown rank behind all others, so that nobody
// is farther behind than the field is large.
func isSoundRank(t *testing.T, who string, rank *int, c *Certainty, field int) {
	t.Helper()
	if rank != nil && (*rank < 1 || *rank > field) {
		t.Errorf("%s: rank %d in a field of %d", who, *rank, field)
	}
	if c == nil {
		return
	}
	if c.RankLow < 1 || c.RankLow > c.RankHigh || c.RankHigh > field {
		t.Errorf("%s: ranks %d to %d in a field of %d", who, c.RankLow, c.RankHigh, field)
	}
	if c.First < 0 || c.First > c.Podium || c.Podium > 1+1e-9 {
		t.Errorf("%s: first with %v, among the first three with %v", who, c.First, c.Podium)
	}
}
