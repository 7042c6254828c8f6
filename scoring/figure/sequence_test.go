package figure

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"halfpoint/scoring/document"
)

// Moves of figures used below, with how they end from upright on heading 0.
const (
	loop       = `[{"arc":360}]`                                                                    // upright, 0
	halfLoop   = `[{"arc":180}]`                                                                    // inverted, 180
	quarterOut = `[{"arc":90},{"line":[{"kind":"roll","turns":0.25}]},{"arc":90,"push":true}]`      // upright, across
	broken     = `[{"arc":90}]`                                                                     // does not end level
	unreadable = `[{"arc":90},{"arc":100}]`                                                         // an error of input
	spinDouble = `[{"spin":2.25},{"arc":90}]`                                                       // upright, across
	rolls      = `[{"line":[{"kind":"roll","turns":1.5},{"kind":"roll","turns":0.5,"left":true}]}]` // upright, 0
)

func figureItem(k, rest string) string {
	text := `{"kind":"figure","k":` + k
	if rest != "" {
		text += "," + rest
	}
	return text + "}"
}

func moves(text string) string { return `"moves":` + text }

func sequenceOf(rest string, items ...string) string {
	return `{"items":[` + strings.Join(items, ",") + `]` + rest + `}`
}

func check(t *testing.T, text string, table Table) Checked {
	t.Helper()
	s, err := ReadSequence([]byte(text), table)
	if err != nil {
		t.Fatalf("%s\nis refused: %v", text, err)
	}
	return Check(s, table)
}

// findings writes what was found as "item rule level", one a line.
func findings(c Checked) string {
	var lines []string
	for _, f := range c.Findings {
		lines = append(lines, fmt.Sprintf("%d %s %s", f.Item, f.Rule, f.Level))
	}
	return strings.Join(lines, "\n")
}

func TestCheckedDocument(t *testing.T) {
	text := sequenceOf("",
		figureItem("14", moves(`[{"arc":225},{"line":[{"kind":"flick","turns":1.5}]},{"arc":45}]`)),
		figureItem("12.0", moves(`[{"arc":90},{"line":[]},{"turn":90}]`)),
		`{"kind":"overall","k":20,"name":"Positioning"}`)
	got, err := json.MarshalIndent(check(t, text, nil), "", " ")
	if err != nil {
		t.Fatal(err)
	}
	want := `{
 "items": [
  {
   "item": 1,
   "k": 14,
   "name": "half Cuban eight",
   "call": "Half Cuban eight: five eighths of a loop, on the forty-five down one and a half flick, out upright.",
   "crowd": "Most of a loop, then a slope down: half of an eight that lies on its side, with one and a half flick on the slope down. Look for a round loop and a straight slope, with the rotation in the very middle of it.",
   "entry": {
    "inverted": false,
    "heading": 0
   },
   "exit": {
    "inverted": false,
    "heading": 180
   },
   "across": false,
   "errors": []
  },
  {
   "item": 2,
   "k": 12,
   "name": "",
   "call": "Pull to the vertical, ninety degree turn.",
   "crowd": "Straight up, then a turn through a quarter of a circle. Look for curves of one size and lines that run true.",
   "entry": {
    "inverted": false,
    "heading": 180
   },
   "across": false,
   "errors": [
    {
     "place": "items[1].moves[2]",
     "text": "a turn begins level with the wings level, not straight up"
    }
   ]
  },
  {
   "item": 3,
   "k": 20,
   "errors": []
  }
 ],
 "findings": [],
 "total_k": 26,
 "figures": 2
}`
	if string(got) != want {
		t.Errorf("printed\n%s\nwant\n%s", got, want)
	}
}

func TestTracingThroughASequence(t *testing.T) {
	type state struct{ entry, exit string }
	for _, c := range []struct {
		why, text string
		states    []state
		findings  string
	}{
		{
			"each begins as the last ended", sequenceOf("", figureItem("1", moves(halfLoop)), figureItem("1", moves(halfLoop))),
			[]state{{"up 0", "inv 180"}, {"inv 180", "up 0"}},
			"",
		},
		{
			"the sequence's own beginning", sequenceOf(`,"entry":{"inverted":true}`, figureItem("1", moves(loop))),
			[]state{{"inv 0", "inv 0"}},
			"",
		},
		{
			"an overall mark is not flown", sequenceOf("", figureItem("1", moves(halfLoop)), `{"kind":"overall","k":1}`),
			[]state{{"up 0", "inv 180"}, {"", ""}},
			"",
		},
		{
			"a break is told once", sequenceOf("", figureItem("1", moves(halfLoop)), figureItem("1", `"entry":{"inverted":false},`+moves(loop)), figureItem("1", moves(loop))),
			[]state{{"up 0", "inv 180"}, {"up 180", "up 180"}, {"up 180", "up 180"}},
			"2 attitude error",
		},
		{
			"against the sequence's beginning", sequenceOf("", figureItem("1", `"entry":{"inverted":true},`+moves(loop))),
			[]state{{"inv 0", "inv 0"}},
			"1 attitude error",
		},
		{
			"in agreement", sequenceOf("", figureItem("1", moves(halfLoop)), figureItem("1", `"entry":{"inverted":true},`+moves(loop))),
			[]state{{"up 0", "inv 180"}, {"inv 180", "inv 180"}},
			"",
		},
		{
			"after a figure without moves", sequenceOf("", figureItem("1", moves(halfLoop)), figureItem("1", ""), figureItem("1", moves(loop))),
			[]state{{"up 0", "inv 180"}, {"", ""}, {"inv 180", "inv 180"}},
			"3 attitude remark",
		},
		{
			"at the beginning", sequenceOf(`,"entry":{"inverted":true}`, figureItem("1", `"moves":[]`), figureItem("1", moves(loop))),
			[]state{{"", ""}, {"inv 0", "inv 0"}},
			"2 attitude remark",
		},
		{
			"after a figure with errors", sequenceOf("", figureItem("1", moves(halfLoop)), figureItem("1", moves(broken)), figureItem("1", moves(loop)), figureItem("1", moves(loop))),
			[]state{{"up 0", "inv 180"}, {"inv 180", ""}, {"inv 180", "inv 180"}, {"inv 180", "inv 180"}},
			"3 attitude remark",
		},
		{
			"after errors of input, and as it says itself", sequenceOf("", figureItem("1", moves(halfLoop)), figureItem("1", moves(unreadable)), figureItem("1", `"entry":{"inverted":false},`+moves(loop))),
			[]state{{"up 0", "inv 180"}, {"inv 180", ""}, {"up 180", "up 180"}},
			"3 attitude remark",
		},
		{
			"errors, then numbers, then moves", sequenceOf("", figureItem("1", `"entry":{"inverted":true},`+moves(broken)), figureItem("1", ""), figureItem("1", moves(loop))),
			[]state{{"inv 0", ""}, {"", ""}, {"inv 0", "inv 0"}},
			"1 attitude error\n3 attitude remark",
		},
		{
			"numbers only", sequenceOf("", figureItem("1", ""), figureItem("1", "")),
			[]state{{"", ""}, {"", ""}},
			"",
		},
	} {
		got := check(t, c.text, nil)
		for i, want := range c.states {
			item := got.Items[i]
			if entry, exit := write(item.Entry), write(item.Exit); entry != want.entry || exit != want.exit {
				t.Errorf("%s: item %d goes from %q to %q, want from %q to %q", c.why, i+1, entry, exit, want.entry, want.exit)
			}
		}
		if found := findings(got); found != c.findings {
			t.Errorf("%s: found %q, want %q", c.why, found, c.findings)
		}
	}
}

func write(a *Attitude) string {
	switch {
	case a == nil:
		return ""
	case a.Inverted:
		return fmt.Sprint("inv ", a.Heading)
	}
	return fmt.Sprint("up ", a.Heading)
}

func TestAcrossTheBox(t *testing.T) {
	got := check(t, sequenceOf("", figureItem("1", moves(quarterOut)), figureItem("1", moves(loop))), nil)
	if *got.Items[0].Across || !*got.Items[1].Across {
		t.Errorf("across is %v and %v, want the second only", *got.Items[0].Across, *got.Items[1].Across)
	}
}

func TestRules(t *testing.T) {
	e := func(numbers string) string { return `"elements":[` + numbers + `]` }
	overall := `{"kind":"overall","k":50.5}`
	for _, c := range []struct{ why, text, want string }{
		{"no limits, nothing to keep", sequenceOf("", figureItem("99", e(`"5.2.1.1","5.2.1.1"`)), overall), ""},
		{
			"empty limits check repeats", sequenceOf(`,"limits":{}`, figureItem("1", e(`"5.2.1.1"`)), figureItem("1", e(`"5.2.1.1"`)), figureItem("1", e(`"5.2.1.1"`))),
			"2 repeat error\n3 repeat error",
		},
		{"inside a figure, one finding", sequenceOf(`,"limits":{}`, figureItem("1", e(`"9.1.1.1","9.1.1.1","5.2.1.1","5.2.1.1"`))), "1 repeat error"},
		{"repeats allowed", sequenceOf(`,"limits":{"repeat_allowed":true}`, figureItem("1", e(`"5.2.1.1","5.2.1.1"`))), ""},
		{
			"some repeats allowed", sequenceOf(`,"limits":{"repeat_allowed":["9.1"]}`, figureItem("1", e(`"9.1.1.1","9.1.1.1","9.11.1.1"`)), figureItem("1", e(`"9.11.1.1"`))),
			"2 repeat error",
		},
		{"totals at their limits", sequenceOf(`,"limits":{"max_k":10.5,"min_k":10.5,"max_figures":2,"min_figures":2,"max_figure_k":10}`,
			figureItem("10", e(`"1.1.1.1"`)), figureItem("0.5", e(`"1.1.1.2"`)), overall), ""},
		{
			"totals past their limits", sequenceOf(`,"limits":{"max_k":10.4,"min_k":10.6,"max_figures":1,"min_figures":3,"max_figure_k":9.9}`,
				figureItem("10", e(`"1.1.1.1"`)), figureItem("0.5", e(`"1.1.1.2"`)), overall),
			"0 max_figures error\n0 max_k error\n0 min_figures error\n0 min_k error\n1 max_figure_k error",
		},
		{"within the tolerance", sequenceOf(`,"limits":{"max_k":10,"k_tolerance":0.5}`, figureItem("10.5", e(`"1.1.1.1"`))), "0 max_k remark"},
		{"past the tolerance", sequenceOf(`,"limits":{"max_k":10,"k_tolerance":0.4}`, figureItem("10.5", e(`"1.1.1.1"`))), "0 max_k error"},
		{"limits of 0 are none", sequenceOf(`,"limits":{"max_k":0,"max_figures":0,"max_figure_k":0,"max_turns":0}`, figureItem("10.5", e(`"1.1.1.1"`)+","+moves(rolls))), ""},
		{
			"turns of one rotation", sequenceOf(`,"limits":{"max_turns":1.25}`, figureItem("1", e(`"1.1.1.1"`)+","+moves(rolls)), figureItem("1", e(`"1.1.1.2"`)+","+moves(spinDouble))),
			"1 max_turns error\n2 max_turns error",
		},
		{"turns at the limit", sequenceOf(`,"limits":{"max_turns":2.25}`, figureItem("1", e(`"1.1.1.1"`)+","+moves(rolls)), figureItem("1", e(`"1.1.1.2"`)+","+moves(spinDouble))), ""},
		{
			"required", sequenceOf(`,"limits":{"require":[{"any":["5.","6."],"least":1,"most":2},{"any":["2"]},{"any":["9.1"],"least":2},{"any":["1"],"least":0,"most":1}]}`,
				figureItem("1", e(`"5.1.1.1"`)), figureItem("1", e(`"6.1.1.1"`)), figureItem("1", e(`"6.1.1.2","9.1.1.1","9.1.1.2","9.11.1.1"`))),
			"0 require error\n0 require error\n0 require error",
		},
		{
			"forbidden", sequenceOf(`,"limits":{"forbid":["9.1","7.2.3.4"]}`, figureItem("1", e(`"9.10.1.1","9.11.1.1"`)), figureItem("1", e(`"9.1.1.1","9.1.1.2"`)), figureItem("1", e(`"7.2.3.4"`)), figureItem("1", e(`"7.2.3.40"`))),
			"2 forbid error\n3 forbid error",
		},
		{"order", sequenceOf("", figureItem("1", ""), overall, figureItem("1", ""), overall, figureItem("1", "")), "3 order error\n5 order error"},
		{"K of the numbers", sequenceOf("", figureItem("3.5", e(`"1.1.1.1","9.1.1.1"`)+`,"element_k":[3,0.5]`)), ""},
		{"K of the numbers, another sum", sequenceOf("", figureItem("3", e(`"1.1.1.1","9.1.1.1"`)+`,"element_k":[3,0.5]`)), "1 sum_of_k error"},
		{"K of the numbers, another length", sequenceOf("", figureItem("3", e(`"1.1.1.1","9.1.1.1"`)+`,"element_k":[3]`), figureItem("3", `"element_k":[3]`)), "1 sum_of_k error\n2 sum_of_k error"},
		{
			"numbers in other forms", sequenceOf("", figureItem("1", e(`"5.2.1"`)), figureItem("1", e(`"5.2.1.01"`)), figureItem("1", e(`"10.2.1.1"`)), figureItem("1", e(`"5.2.1.1000"`)),
				figureItem("1", e(`" 5.2.1.1"`)), figureItem("1", e(`"5.2.1.1."`)), figureItem("1", e(`"0.2.1.1"`)), figureItem("1", e(`"5.2.1.1.1"`)), figureItem("1", e(`"5.2.+1.1"`)), figureItem("1", e(`""`)), figureItem("1", e(`"9.999.999.999"`))),
			"1 number error\n2 number error\n3 number error\n4 number error\n5 number error\n6 number error\n7 number error\n8 number error\n9 number error\n10 number error",
		},
		{
			"which count for no other rule", sequenceOf(`,"limits":{"forbid":["5"],"require":[{"any":["5"]}]}`, figureItem("1", e(`"5.2.1"`)), figureItem("1", e(`"5.2.1"`))),
			"0 require error\n1 number error\n2 number error",
		},
		{"no numbers, under limits", sequenceOf(`,"limits":{}`, figureItem("1", ""), overall, figureItem("1", `"elements":[]`)), "1 number remark\n3 number remark\n3 order error"},
	} {
		if found := findings(check(t, c.text, nil)); found != c.want {
			t.Errorf("%s: found\n%s\nwant\n%s", c.why, found, c.want)
		}
	}
}

func TestOrganisersTable(t *testing.T) {
	table, err := ReadTable([]byte("\ufeffnumber,k\r\n5.2.1.1,17\r\n9.1.1.1, 6.5\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ why, item, k, want string }{
		{"agrees", `{"kind":"figure","k":23.5,"elements":["5.2.1.1","9.1.1.1"]}`, "23.5", ""},
		{"filled in", `{"kind":"figure","elements":["5.2.1.1","9.1.1.1"]}`, "23.5", ""},
		{"differs", `{"kind":"figure","k":23,"elements":["5.2.1.1","9.1.1.1"]}`, "23", "1 sum_of_k error"},
		{"one of them differs", `{"kind":"figure","k":23.5,"elements":["5.2.1.1","9.1.1.1"],"element_k":[16.5,7]}`, "23.5", "1 sum_of_k error"},
		{"lacks a number", `{"kind":"figure","k":23,"elements":["5.2.1.1","9.1.1.2"]}`, "23", "1 number remark"},
		{"lacks one, another is malformed", `{"kind":"figure","k":23,"elements":["5.2.1","9.1.1.2"]}`, "23", "1 number error"},
		{"lacks one, the other differs", `{"kind":"figure","k":23,"elements":["5.2.1.1","9.1.1.2"],"element_k":[16,7]}`, "23", "1 number remark\n1 sum_of_k error"},
	} {
		got := check(t, sequenceOf("", c.item), table)
		if found := findings(got); found != c.want || got.Items[0].K.String() != c.k {
			t.Errorf("%s: K %s and found %q, want K %s and %q", c.why, got.Items[0].K, found, c.k, c.want)
		}
	}
	_, err = ReadSequence([]byte(sequenceOf("", `{"kind":"figure","elements":["9.1.1.2"]}`)), table)
	if err == nil || !strings.Contains(err.Error(), "items[0].k: missing") {
		t.Errorf("a K that the table cannot fill in: %v", err)
	}
	for text, want := range map[string]string{
		"5.2.1.1,17,x\n":            "row 1, column 3: 3 columns",
		"5.2.1.1\n":                 "row 1, column 2: missing",
		"5.2.1.1,1\n5.2.1.2,\xff\n": "row 2, column 2: not UTF-8",
		"number,k\n5.2.1,17\n":      "row 2, column 1",
		"5.2.1.1,0\n":               "row 1, column 2",
		"5.2.1.1,1\n5.2.1.1,1\n":    "row 2, column 1",
		"5.2.1.1,1\n5.2.1.2,1\"\n":  "row 2, column 2: bare \"",
		"5.2.1.1,1\n5.2.1.2,\"1\n":  "row 2, column 2: extraneous",
		"5.2.1.1,1.25\n5.2.1.2,x\n": "row 2, column 2",
	} {
		if _, err := ReadTable([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("the table %q: error %v, want one with %q", text, err, want)
		}
	}
}

func TestRefusedDocuments(t *testing.T) {
	ok := figureItem("1", "")
	for text, want := range map[string]string{
		`{"items":[}`:           "items",
		`[]`:                    "",
		`{}`:                    "items",
		`{"items":{}}`:          "items",
		`{"items":[],"wind":1}`: "wind",
		`{"items":[` + strings.Repeat(ok+",", 40) + ok + `]}`:                                         "items",
		`{"items":[{"kind":"mark","k":1}]}`:                                                           "items[0].kind",
		`{"items":[{"k":1}]}`:                                                                         "items[0].kind",
		`{"items":[{"kind":"figure"}]}`:                                                               "items[0].k",
		`{"items":[{"kind":"figure","k":0},{"kind":"figure","k":1.25}]}`:                              "items[0].k items[1].k",
		`{"items":[{"kind":"figure","k":-1},{"kind":"figure","k":"1"}]}`:                              "items[0].k items[1].k",
		`{"items":[{"kind":"figure","k":1e300}]}`:                                                     "items[0].k",
		`{"items":[{"kind":"figure","k":1,"colour":1}]}`:                                              "items[0].colour",
		`{"items":[{"kind":"figure","k":1,"elements":[5.2]}]}`:                                        "items[0].elements[0]",
		`{"items":[{"kind":"figure","k":1,"element_k":[0]}]}`:                                         "items[0].element_k[0]",
		`{"items":[{"kind":"figure","k":1,"class":"odd","words":{"song":"x","call":1}}]}`:             "items[0].class items[0].words.song items[0].words.call",
		`{"items":[{"kind":"figure","k":1,"entry":{"heading":0}}]}`:                                   "items[0].entry.heading",
		`{"items":[{"kind":"overall","k":1,"moves":[{"arc":360}],"elements":["1.1.1.1"]}]}`:           "items[0].elements items[0].moves",
		`{"items":[],"limits":{"max":1,"max_k":-1,"max_figures":1.5,"max_turns":0.3}}`:                "limits.max limits.max_figures limits.max_k limits.max_turns",
		`{"items":[],"limits":{"require":[{}, {"any":[]}],"forbid":["9..1"],"repeat_allowed":"yes"}}`: "limits.repeat_allowed limits.require[0].any limits.require[1].any limits.forbid[0]",
		`{"items":[],"limits":null}`:                                                                  "limits",
		`{"items":[],"entry":{"inverted":"no"}}`:                                                      "entry.inverted",
		`{"items":[{"kind":"figure","k":0,"moves":` + unreadable + `}]}`:                              "items[0].k items[0].moves[1].arc",
	} {
		_, err := ReadSequence([]byte(text), nil)
		var places []string
		complaints, _ := errors.AsType[document.Complaints](err)
		for _, c := range complaints {
			places = append(places, c.Place)
		}
		if err == nil || strings.Join(places, " ") != want {
			t.Errorf("%.100s: complaints at %q, want %q", text, places, want)
		}
	}
}

func TestErrorsOfInputStayInTheItem(t *testing.T) {
	many := `[` + strings.Repeat(`{"line":[]},`, 64) + `{"line":[]}]`
	got := check(t, sequenceOf("", figureItem("3", moves(many)), figureItem("4", moves(unreadable)), figureItem("4", moves("5"))), nil)
	for i, want := range []string{"items[0].moves", "items[1].moves[1].arc", "items[2].moves"} {
		item := got.Items[i]
		if len(item.Errors) != 1 || item.Errors[0].Place != want || item.Exit != nil || item.Entry == nil || *item.Name != "" {
			t.Errorf("item %d is %+v, want one error at %s", i+1, item, want)
		}
	}
	if got.Clean() || got.TotalK != 110 {
		t.Errorf("total K %s, clean %v", got.TotalK, got.Clean())
	}
}

func TestOwnWordsComeFirst(t *testing.T) {
	got := check(t, sequenceOf("",
		figureItem("1", `"words":{"name":"the corkscrew","crowd":"Hold your hats."},`+moves(loop)),
		figureItem("1", `"words":{"call":"Torque roll."}`)), nil)
	first, second := got.Items[0], got.Items[1]
	if *first.Name != "the corkscrew" || *first.Call != "Loop." || *first.Crowd != "Hold your hats." {
		t.Errorf("words are %q, %q and %q", *first.Name, *first.Call, *first.Crowd)
	}
	if second.Name != nil || *second.Call != "Torque roll." || second.Crowd != nil {
		t.Errorf("without moves only the words given stand, got %+v", second)
	}
}

func TestRemarksAreClean(t *testing.T) {
	remarks := check(t, sequenceOf(`,"limits":{}`, figureItem("1", "")), nil)
	errorsToo := check(t, sequenceOf(`,"limits":{"min_k":2}`, figureItem("1", "")), nil)
	if !remarks.Clean() || errorsToo.Clean() {
		t.Errorf("with remarks only clean is %v, with an error %v", remarks.Clean(), errorsToo.Clean())
	}
}

func TestLimitsAlone(t *testing.T) {
	l, err := ParseLimits([]byte(`{"max_k": 250, "max_turns": 1.5, "repeat_allowed": ["9.1."], "require": [{"any": ["5."], "most": 2}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if l.MaxK != 2500 || l.MaxQuarters != 6 || len(l.Repeat) != 1 || l.Require[0].Least != 1 || l.Require[0].Most != 2 {
		t.Errorf("read %+v", l)
	}
	if _, err := ParseLimits([]byte(`{"max": 1}`)); err == nil {
		t.Error("an unknown limit is not refused")
	}
}
