package document

import (
	"encoding/json"
	"strings"
	"testing"
)

// FuzzParseAsEncodingJSON takes what encoding/json takes and nothing else, but
// for its own bounds and fields given twice, and writes it back as it was.
func FuzzParseAsEncodingJSON(f *testing.F) {
	for _, text := range []string{
		`{"a": [1, -2.5e+3, null, true, false, {"b": "cA\n\ud834\udd1e\"\\"}]}`, `[01]`, `[1.]`, `[-]`, `[1e]`,
		`"\x"`, "\"\x01\"", `[1,]`, `{,}`, `{"a"}`, `{"a":}`, `nul`, `[truefalse]`, `[NaN, -Infinity]`, "\x00", `"a`, `"\`, `"\u12`, ` [ ] `, `-0.0E-0`, `{"a":1,"a":2}`,
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var report Report
		v, _ := Parse(text, &report)
		if report.Err() != nil {
			return
		}
		if !json.Valid(text) {
			t.Fatalf("%q is no JSON and has no complaint", text)
		}
		var want, got any
		if json.Unmarshal(text, &want) != nil {
			return // a number beyond a double
		}
		if err := json.Unmarshal(v.JSON(), &got); err != nil {
			t.Fatalf("%q was written as %q: %v", text, v.JSON(), err)
		}
		a, _ := json.Marshal(want)
		b, _ := json.Marshal(got)
		if string(a) != string(b) {
			t.Errorf("%q was read as %s, want %s", text, b, a)
		}
	})
}

func TestWhatIsJSONIsTaken(t *testing.T) {
	for text, valid := range map[string]bool{
		`[0, -0, 10, 1.5, 1e5, 1E-5, 0.0]`: true, `[01]`: false, `[1.]`: false, `[.5]`: false, `[-]`: false, `[+1]`: false,
		`["é", "\u00e9", "\/", ""]`: true, `["\x"]`: false, `['a']`: false, `[1,]`: false, `[1 2]`: false,
		`{"a": {}, "b": []}`: true, `{"a" 1}`: false, `{a: 1}`: false, `{"a": 1,}`: false, "\ufeff[]": false,
		"\t\r\n true ": true, "true false": false, "tru": false, "\x00": false,
	} {
		var report Report
		Parse([]byte(text), &report)
		if taken := report.Err() == nil; taken != valid || json.Valid([]byte(text)) != valid {
			t.Errorf("%q: taken %v, want %v: %v", text, taken, valid, report.Complaints())
		}
	}
}

// TestLargeTextsAreReadCheaply: what is wrong in every place is said of the first
// ones, and what would take gigabytes is not read.
func TestLargeTextsAreReadCheaply(t *testing.T) {
	for last, text := range map[string]string{
		"more is wrong than the 1000 complaints listed":   "[" + strings.Repeat("NaN,\n", 3_000_000) + "NaN]",
		"[4000000]: more than 4000000 values in all":      "[" + strings.Repeat("0,", maxValues) + "0]",
		"[999]: line 1000, column 1: not JSON: NaN where": "[" + strings.Repeat("NaN,\n", 999) + "NaN]",
	} {
		var report Report
		Parse([]byte(text), &report)
		said := report.Complaints()
		if got := said[len(said)-1].String(); !strings.HasPrefix(got, last) {
			t.Errorf("it says last %q, want %q", got, last)
		}
	}
}
