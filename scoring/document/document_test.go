package document

import (
	"reflect"
	"strings"
	"testing"
)

// read parses a text and hands the value to a reader, returning the complaints.
func read(text string, reader func(Value)) []string {
	var report Report
	if v, ok := Parse([]byte(text), &report); ok {
		reader(v)
	}
	var lines []string
	for _, c := range report.Complaints() {
		lines = append(lines, c.String())
	}
	return lines
}

func TestEveryComplaintAtOnce(t *testing.T) {
	got := read(`{"name": 3, "list": [1, "two", 2.5, 99], "extra": {}, "yes": "true"}`, func(v Value) {
		o, _ := v.Object("name", "list", "yes", "gone")
		if name, there := o.Required("name"); there {
			name.Text()
		}
		list, _ := o.Required("list")
		values, _ := list.List()
		for _, one := range values {
			one.Integer(0, 10)
		}
		if yes, there := o.Optional("yes"); there {
			yes.Bool()
		}
		o.Required("gone")
	})
	want := []string{
		`extra: unknown field; known here: name, list, yes, gone`,
		`name: the number 3 where a text in quotes was expected`,
		`list[1]: the text "two" where a number was expected`,
		`list[2]: 2.5 is not a whole number from 0 to 10`,
		`list[3]: 99 is outside 0 to 10`,
		`yes: the text "true" where true or false was expected`,
		`gone: missing`,
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("complaints:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// TestWhatCanBeReadOnIsReadOn finds what is wrong behind a word like NaN, behind
// a field given twice and before what should not be there.
func TestWhatCanBeReadOnIsReadOn(t *testing.T) {
	got := read(`{"k": NaN, "k": 1, "item": "one"} {}`, func(v Value) {
		o, _ := v.Object("k", "item")
		k, _ := o.Required("k")
		k.Real()
		item, _ := o.Required("item")
		item.Integer(1, 2)
	})
	want := []string{
		`k: line 1, column 7: not JSON: NaN where a value was expected`,
		`k: given twice`,
		`line 1, column 35: more text after the end of the document; one JSON value was expected`,
		`item: the text "one" where a number was expected`,
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("complaints:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestNotJSONHasAPlace(t *testing.T) {
	for text, want := range map[string]string{
		"":                           "it is empty",
		" \n":                        "it is empty",
		"\ufeff{}":                   "it begins with a byte order mark",
		"{\"a\": [1,\n NaN]}":        "a[1]: line 2, column 2: not JSON: NaN where a value was expected",
		`[-Infinity]`:                "[0]: line 1, column 2: not JSON: -Infinity where",
		`[-]`:                        "[0]: line 1, column 2: not JSON: '-' where a value",
		`{"a": 1, "a": 2}`:           "a: given twice",
		`[] []`:                      "more text after the end",
		"\"\xff\"":                   "not UTF-8",
		`{"a": {"b": [}}`:            "a.b: line 1, column 14: not JSON",
		strings.Repeat("[", 100):     "nested more than 64 deep",
		`{"a"`:                       "the text ends in the middle",
		`[` + strings.Repeat(" ", 9): "the text ends in the middle",
	} {
		got := strings.Join(read(text, func(Value) {}), "\n")
		if !strings.Contains(got, want) {
			t.Errorf("%q: complaints %q, want %q among them", text, got, want)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(`{"a": [1, 2.5e3, null, {"b": "c"}]}`))
	f.Add([]byte(`[[[[`))
	f.Fuzz(func(_ *testing.T, text []byte) {
		var report Report
		v, _ := Parse(text, &report)
		v.Text()
		v.Bool()
		v.Integer(0, 1)
		v.Real()
		v.List()
		v.Object("a")
	})
}

func TestReportToKeepsPlacesApart(t *testing.T) {
	var all, part Report
	v, _ := Parse([]byte(`{"a": [1], "b": 2}`), &all)
	o, _ := v.AnyObject()
	a, _ := o.Optional("a")
	b, _ := o.Optional("b")
	if !a.IsList() || b.IsList() {
		t.Error("a is a list and b is not")
	}
	list, _ := a.ReportTo(&part).List()
	list[0].Text()
	b.Text()
	if got := part.Complaints(); len(got) != 1 || got[0].Place != "a[0]" {
		t.Errorf("the part's complaints are %v, want one at a[0]", got)
	}
	if got := all.Complaints(); len(got) != 1 || got[0].Place != "b" {
		t.Errorf("the other complaints are %v, want one at b", got)
	}
}
