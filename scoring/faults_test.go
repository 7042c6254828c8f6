package scoring

import (
	"bytes"
	"encoding/json"
	"errors"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"halfpoint/scoring/document"
)

const (
	atKnown  = "categories[0].programmes[0]"
	atFlight = atKnown + ".flights[0]"
	atFree   = "categories[0].programmes[1]"
)

// A fault is something wrong put at a place of a bundle that is right.
type fault struct {
	what  string
	at    string // where it is put; behind the end of a list adds to it
	value string // JSON; nothing takes away what stands there
	place string // of the complaint, where it is another
	says  string // what is wrong and what would be right
}

// faults names each kind of bad input.
var faults = []fault{
	{what: "a grade off the half-point scale", at: atFlight + ".sheets[0].grades[0]", value: `"7.3"`, says: `"7.3" is not a grade: 0 to 10 in steps of 0.5 as in "7.5"`},
	{what: "a grade above ten", at: atFlight + ".sheets[0].grades[1]", value: `"10.5"`, says: `"10.5" is not a grade: 0 to 10`},
	{what: "a grade below 0", at: atFlight + ".sheets[2].grades[1]", value: `"-1"`, says: `"-1" is not a grade: 0 to 10`},
	{what: "a grade as a number", at: atFlight + ".sheets[0].grades[1]", value: `7.5`, says: "the number 7.5 where a text in quotes was expected"},
	{what: "a code that does not exist", at: atFlight + ".sheets[1].grades[1]", value: `"hz"`, says: `"hz" is not a grade: 0 to 10 in steps of 0.5 as in "7.5", or HZ, PZ, A, or empty`},
	{what: "too many grades", at: atFlight + ".sheets[0].grades[2]", value: `"7"`, place: atFlight + ".sheets[0].grades", says: "3 grades for 2 items; each item has one"},
	{what: "too few grades", at: atFlight + ".sheets[0].grades", value: `["7"]`, says: "1 grades for 2 items; each item has one"},
	{what: "no grades", at: atFlight + ".sheets[0].grades", says: "missing"},
	{what: "too few remarks", at: atFlight + ".sheets[0].remarks", value: `["low"]`, says: "1 remarks for 2 items; each item has one"},
	{what: "a judge that is not declared", at: atKnown + ".panel[4]", value: `"z"`, says: `no judge "z" is declared`},
	{what: "a sheet of a judge that is not declared", at: atFlight + ".sheets[4]", value: `{"judge":"z","absent":true}`, place: atFlight + ".sheets[4].judge", says: `no judge "z" is declared`},
	{what: "somebody else in the seat, not declared", at: atFlight + ".sheets[0].by", value: `"z"`, says: `no judge "z" is declared`},
	{what: "a pilot that is not declared", at: "categories[0].entries[5].pilot", value: `"z"`, says: `no pilot "z" is declared`},
	{what: "a flight of a pilot that is not entered", at: atFlight + ".pilot", value: `"v"`, says: `no entered pilot "v" is declared`},
	{what: "two judges of one id", at: "judges[5]", value: `{"id":"a"}`, place: "judges[5].id", says: `judge "a" is given twice`},
	{what: "two pilots of one id", at: "pilots[6]", value: `{"id":"p"}`, place: "pilots[6].id", says: `pilot "p" is given twice`},
	{what: "two categories of one id", at: "categories[1]", value: `{"id":"x"}`, place: "categories[1].id", says: `category "x" is given twice`},
	{what: "two programmes of one id", at: atFree + ".id", value: `"k"`, says: `programme "k" is given twice`},
	{what: "two entries of one pilot", at: "categories[0].entries[5].pilot", value: `"p"`, says: `entered pilot "p" is given twice`},
	{what: "two flights of one pilot", at: atFree + ".flights[1].pilot", value: `"p"`, says: `flight of pilot "p" is given twice`},
	{what: "a judge twice on a panel", at: atKnown + ".panel[4]", value: `"a"`, says: `seat of judge "a" is given twice`},
	{what: "an empty id", at: "judges[5]", value: `{"id":""}`, place: "judges[5].id", says: "empty where the id of a judge was expected"},
	{what: "a K of 0", at: atKnown + ".sequence.items[0].k", value: `0`, says: "0 is not a positive number"},
	{what: "a K below 0", at: atKnown + ".sequence.items[1].k", value: `-3`, says: "-3 is not a positive number"},
	{what: "a K of two decimals", at: atKnown + ".sequence.items[1].k", value: `3.25`, says: "3.25 is not a number with at most one decimal"},
	{what: "a K as a text", at: atKnown + ".sequence.items[1].k", value: `"3"`, says: `the text "3" where a number was expected`},
	{what: "a ruling on an item that does not exist", at: atFlight + ".rulings[0].item", value: `3`, says: "there is no item 3; the sequence has items 1 to 2"},
	{what: "a ruling on an item before the first", at: atFlight + ".rulings[0].item", value: `0`, says: "there is no item 0; the sequence has items 1 to 2"},
	{what: "a ruling that does not exist", at: atFlight + ".rulings[0].ruling", value: `"zero"`, says: `"zero" is not known; known here: hard-zero-confirmed, hard-zero-overruled`},
	{what: "two rulings of one kind", at: atFlight + ".rulings[1]", value: `{"item":2,"ruling":"hard-zero-confirmed"}`, says: "item 2 has another hard-zero ruling; it can have one"},
	{what: "a grade set without a grade", at: atFlight + ".rulings[1]", value: `{"item":2,"ruling":"grade-set"}`, place: atFlight + ".rulings[1].grade", says: "missing"},
	{what: "a grade set to a code", at: atFlight + ".rulings[1]", value: `{"item":2,"ruling":"grade-set","grade":"A"}`, place: atFlight + ".rulings[1].grade", says: `"A" where a grade from 0 to 10 in steps of 0.5 was expected`},
	{what: "a grade with another ruling", at: atFlight + ".rulings[0].grade", value: `"7"`, says: "only a grade-set ruling has a grade"},
	{what: "a sheet of a judge who is not on the panel", at: atFlight + ".sheets[4]", value: `{"judge":"e","absent":true}`, place: atFlight + ".sheets[4].judge", says: `judge "e" is not on the panel of the programme`},
	{what: "two sheets of one judge", at: atFlight + ".sheets[4]", value: `{"judge":"a","absent":true}`, place: atFlight + ".sheets[4].judge", says: `sheet of judge "a" is given twice`},
	{what: "a free flight without a sequence", at: atFree + ".flights[0].status", value: `"flown"`, place: atFree + ".flights[0].sequence", says: "missing"},
	{what: "a free flight whose sequence is null", at: atFree + ".flights[0]", value: `{"pilot":"p","status":"flown","sequence":null}`, place: atFree + ".flights[0].sequence", says: "each flight of a free or freestyle programme has a sequence of its own"},
	{what: "a free programme with a sequence", at: atFree + ".sequence", value: `{"items":[{"kind":"figure","k":1}]}`, says: "each flight of a free programme has its own sequence"},
	{what: "a known programme without a sequence", at: atKnown + ".sequence", says: "missing"},
	{what: "a known flight that its pilot describes", at: atFlight + ".description", value: `"Loops."`, says: "only flights of a free or freestyle programme are described by their pilots"},
	{what: "a known flight with a sequence", at: atFlight + ".sequence", value: `{"items":[]}`, says: "only flights of a free or freestyle programme have a sequence of their own"},
	{what: "weights that do not add up to 1", at: "categories[0].combine.weights.k", value: `0.6`, place: "categories[0].combine.weights", says: "the weights add up to 1.1; they must add up to 1"},
	{what: "weights that are none", at: "categories[0].combine.weights", value: `{}`, says: "the weights add up to 0; they must add up to 1"},
	{what: "no weights", at: "categories[0].combine.weights", says: "missing"},
	{what: "a weight below 0", at: "categories[0].combine.weights.k", value: `-0.5`, says: "-0.5 is below 0"},
	{what: "a way to combine that does not exist", at: "categories[0].combine.by", value: `"product"`, says: `"product" is not known; known here: sum, sum-percent, weighted-percent`},
	{what: "a tie broken twice by one programme", at: "categories[0].combine.tie_break[1]", value: `"k"`, says: `programme "k" is given twice`},
	{what: "a method that does not exist", at: atKnown + ".method.name", value: `"median"`, says: `"median" is not known; known here: mean, trimmed-mean, normalised, consensus`},
	{what: "an option of 0", at: atKnown + ".method.discard", value: `0`, says: "0 is not above 0"},
	{what: "an option of next to nothing", at: atKnown + ".method.lean", value: `1e-9`, says: "1e-09 is below 0.01"},
	{what: "an option beyond a number", at: atKnown + ".method.outlier", value: `1e999`, says: "1e999 is too large for a number"},
	{what: "an option that is not whole", at: atKnown + ".method.trim", value: `1.5`, says: "1.5 is not a whole number from 0 to 100"},
	{what: "a kind of programme that does not exist", at: atKnown + ".kind", value: `"compulsory"`, says: `"compulsory" is not known; known here: known, free, unknown, freestyle`},
	{what: "a status that does not exist", at: atFlight + ".status", value: `"landed"`, says: `"landed" is not known; known here: scheduled, flown, not-flown, withdrawn, disqualified`},
	{what: "a class that does not exist", at: atKnown + ".sequence.items[0].class", value: `"loop"`, says: `"loop" is no class; known: general, spin, flick, tailslide, rolling-turn`},
	{what: "a penalty below 0", at: atFlight + ".penalties[0].points", value: `-20`, says: "-20 is below 0"},
	{what: "a penalty beyond all scores", at: atFlight + ".penalties[0].points", value: `2e9`, says: "2e+09 is above 1e+09"},
	{what: "a penalty half a time", at: atFlight + ".penalties[0].count", value: `0.5`, says: "0.5 is not a whole number from 0 to 1000"},
	{what: "a day that is none", at: "contest.starts", value: `"2026-02-30"`, says: `"2026-02-30" is not a date as in 2026-06-12`},
	{what: "another format", at: "format", value: `"halfpoint-bundle/2"`, says: `"halfpoint-bundle/2" where "halfpoint-bundle/1" was expected`},
	{what: "an unknown field", at: atFlight + ".colour", value: `1`, says: "unknown field; known here: pilot, status, sequence, description, sheets, rulings, penalties"},
	{what: "something else than a list", at: atFlight + ".sheets", value: `{}`, says: "an object where a list in [ ] was expected"},
	{what: "something else than an object", at: atFlight, value: `null`, says: "null where an object in { } was expected"},
}

func TestEachFaultHasItsPlace(t *testing.T) {
	if _, err := DecodeBundle([]byte(smallBundle)); err != nil {
		t.Fatalf("what is right is refused: %v", err)
	}
	for _, f := range faults {
		t.Run(f.what, func(t *testing.T) {
			complaints := complaintsAbout(t, put(t, smallBundle, f.at, f.value))
			if f.place == "" {
				f.place = f.at
			}
			for _, c := range complaints {
				if c.Place == f.place && strings.Contains(c.Text, f.says) {
					return
				}
			}
			t.Errorf("complaints\n%v\nwant\n%s: %s", complaints, f.place, f.says)
		})
	}
}

// complaintsAbout reads a bundle that must be refused.
func complaintsAbout(t *testing.T, text string) document.Complaints {
	t.Helper()
	b, err := DecodeBundle([]byte(text))
	complaints := document.Complaints{}
	if b != nil || !errors.As(err, &complaints) {
		t.Fatalf("taken, or refused without complaints: %v", err)
	}
	return complaints
}

// put puts JSON at a place of a document.
func put(t *testing.T, text, at, value string) string {
	t.Helper()
	var root any
	if err := json.Unmarshal([]byte(text), &root); err != nil {
		t.Fatal(err)
	}
	steps := regexp.MustCompile(`\w+`).FindAllString(at, -1)
	changed, err := encode(putAt(root, steps, value))
	if err != nil {
		t.Fatalf("%s: %v", at, err)
	}
	return string(changed)
}

func putAt(v any, steps []string, value string) any {
	if len(steps) == 0 {
		return json.RawMessage(value)
	}
	switch v := v.(type) {
	case map[string]any:
		v[steps[0]] = putAt(v[steps[0]], steps[1:], value)
		if value == "" && len(steps) == 1 {
			delete(v, steps[0])
		}
		return v
	case []any:
		i, _ := strconv.Atoi(steps[0])
		if i == len(v) {
			v = append(v, nil)
		}
		v[i] = putAt(v[i], steps[1:], value)
		return v
	}
	return putAt(map[string]any{}, steps, value)
}

// TestAllFaultsAreReportedTogether: whoever typed a bundle can mend all of it
// at once.
func TestAllFaultsAreReportedTogether(t *testing.T) {
	text := smallBundle
	for _, f := range []fault{
		{at: "format", value: `"x"`},
		{at: "contest.ends", value: `"soon"`},
		{at: "judges[4].colour", value: `"red"`},
		{at: "pilots[5].id", value: `"p"`},
		{at: "categories[0].combine.weights.f", value: `0.25`},
		{at: atKnown + ".sequence.items[0].k", value: `-1`},
		{at: atFlight + ".sheets[0].grades[0]", value: `"8.2"`},
		{at: atFlight + ".sheets[2].grades[1]", value: `"XX"`},
		{at: atFlight + ".rulings[0].item", value: `9`},
		{at: atKnown + ".flights[4].sheets[3].grades", value: `[]`},
		{at: atFree + ".flights[1].status", value: `"flown"`},
	} {
		text = put(t, text, f.at, f.value)
	}
	var places []string
	for _, c := range complaintsAbout(t, text) {
		places = append(places, c.Place)
	}
	want := []string{
		"format", "contest.ends", "judges[4].colour", "pilots[5].id", "categories[0].combine.weights",
		atKnown + ".sequence.items[0].k", atFlight + ".sheets[0].grades[0]", atFlight + ".sheets[2].grades[1]",
		atFlight + ".rulings[0].item", atKnown + ".flights[4].sheets[3].grades", atFree + ".flights[1].sequence",
	}
	if got := strings.Join(places, "\n"); got != strings.Join(want, "\n") {
		t.Errorf("complaints at\n%s\nwant\n%s", got, strings.Join(want, "\n"))
	}
}

// TestFaultsBehindWhatIsNotJSON: a word like NaN and a field given twice hide
// nothing that stands behind them, and are complained about once.
func TestFaultsBehindWhatIsNotJSON(t *testing.T) {
	text := put(t, smallBundle, atFlight+".sheets[0].grades[0]", `"8.2"`)
	text = strings.Replace(text, `"k":10.5`, `"k":NaN`, 1)
	text = strings.Replace(text, `"id":"a"`, `"id":"a","id":"b"`, 1)
	var places []string
	for _, c := range complaintsAbout(t, text) {
		places = append(places, c.Place)
	}
	want := atKnown + ".sequence.items[0].k, judges[0].id, " + atFlight + ".sheets[0].grades[0]"
	if got := strings.Join(places, ", "); got != want {
		t.Errorf("complaints at %s, want %s", got, want)
	}
}

// TestWhatIsNotJSON has nothing to point at but a line and a column.
func TestWhatIsNotJSON(t *testing.T) {
	for what, one := range map[string]struct{ text, place, says string }{
		"nothing":       {"", "", "it is empty; one JSON value was expected"},
		"an editor's":   {"\ufeff" + smallBundle, "", "it begins with a byte order mark; UTF-8 without one was expected"},
		"prose":         {"Known, 12 June", "", "line 1, column 1: not JSON: Known where a value was expected"},
		"cut off":       {smallBundle[:200], "pilots[4]", "not JSON: the text ends in the middle"},
		"not a number":  {strings.Replace(smallBundle, `"k":10.5`, `"k":NaN`, 1), atKnown + ".sequence.items[0].k", "not JSON: NaN where a value was expected"},
		"infinite":      {strings.Replace(smallBundle, `"k":10.5`, `"k":-Infinity`, 1), atKnown + ".sequence.items[0].k", "not JSON: -Infinity where a value was expected"},
		"two documents": {smallBundle + smallBundle, "", "more text after the end of the document; one JSON value was expected"},
		"given twice":   {strings.Replace(smallBundle, `"id":"a"`, `"id":"a","id":"b"`, 1), "judges[0].id", "given twice"},
		"a list":        {"[]", "", "a list where an object in { } was expected"},
	} {
		t.Run(what, func(t *testing.T) {
			complaints := complaintsAbout(t, one.text)
			if complaints[0].Place != one.place || !strings.Contains(complaints[0].Text, one.says) {
				t.Errorf("%+v, want %q at %q", complaints, one.says, one.place)
			}
		})
	}
}

func TestTooLargeADocument(t *testing.T) {
	text := append([]byte(smallBundle), bytes.Repeat([]byte(" "), MaxBundleBytes+1-len(smallBundle))...)
	if _, err := DecodeBundle(text); err == nil || err.Error() != "the document is larger than 64 MiB" {
		t.Errorf("64 MiB and a byte: %v", err)
	}
	if _, err := DecodeBundle(text[:MaxBundleBytes]); err != nil {
		t.Errorf("64 MiB are refused: %v", err)
	}
}
