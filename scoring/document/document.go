// Package document reads a JSON document by hand, value by value, and keeps a
// complaint for everything that is wrong with it, each with its place
// (categories[0].programmes[1].flights[3]), so that whoever typed it can mend
// all of it at once.
package document

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Bounds that no document of ours comes near, so that reading stays cheap
// whatever is sent.
const (
	maxDepth      = 64
	maxFields     = 1000 // of one object
	maxComplaints = 1000
	maxValues     = 4_000_000 // each takes some 100 bytes while it is read
)

// A Complaint says what is wrong at a place and what would be right.
type Complaint struct {
	Place string `json:"place"` // for example items[0].moves[1].arc; empty for the whole document
	Text  string `json:"text"`
}

func (c Complaint) String() string {
	if c.Place == "" {
		return c.Text
	}
	return c.Place + ": " + c.Text
}

// Complaints is everything wrong with one document, in the order it was read.
type Complaints []Complaint

// Error gives one complaint a line.
func (c Complaints) Error() string {
	lines := make([]string, len(c))
	for i, one := range c {
		lines[i] = one.String()
	}
	return strings.Join(lines, "\n")
}

// Report collects complaints while a document is read.
type Report struct{ complaints Complaints }

// Add keeps a complaint about a place. After maxComplaints of them it only
// says that there are more.
func (r *Report) Add(place, format string, args ...any) {
	if r.full() {
		return
	}
	if len(r.complaints) == maxComplaints {
		place, format, args = "", "more is wrong than the %d complaints listed", []any{maxComplaints}
	}
	r.complaints = append(r.complaints, Complaint{Place: place, Text: fmt.Sprintf(format, args...)})
}

// full tells whether it keeps no more complaints.
func (r *Report) full() bool { return len(r.complaints) > maxComplaints }

// Complaints returns what was collected so far, nil if nothing.
func (r *Report) Complaints() Complaints { return r.complaints }

// Err returns the complaints as an error, nil if there are none.
func (r *Report) Err() error {
	if len(r.complaints) == 0 {
		return nil
	}
	return r.complaints
}

// A Value is a JSON value at a place of a document. Its readers complain to
// the report and return false when the value is not what they read.
type Value struct {
	node   *node // nil is JSON's null
	at     *place
	report *Report
}

// A place is a field or an entry of a list, inside another place; nil is the
// whole document. It is only put into words for a complaint.
type place struct {
	in    *place
	name  string // of a field
	index int    // of an entry, where there is no name
	entry bool
}

func (p *place) String() string {
	switch {
	case p == nil:
		return ""
	case p.entry:
		return p.in.String() + "[" + strconv.Itoa(p.index) + "]"
	case p.in == nil:
		return p.name
	}
	return p.in.String() + "." + p.name
}

// Place is where the value stands, for complaints of the caller's own.
func (v Value) Place() string { return v.at.String() }

// Complain keeps a complaint about this value, unless there is one that it could
// not be read.
func (v Value) Complain(format string, args ...any) {
	if !v.is(unread) {
		v.report.Add(v.Place(), format, args...)
	}
}

// Report is where complaints about this value go.
func (v Value) Report() *Report { return v.report }

// IsNull tells whether the value is JSON's null.
func (v Value) IsNull() bool { return v.is(null) }

// IsList tells whether the value is an array, where one field may be written
// in more than one way.
func (v Value) IsList() bool { return v.is(list) }

func (v Value) is(k kind) bool {
	if v.node == nil {
		return k == null
	}
	return v.node.kind == k
}

// Len is how many values a list holds, 0 for anything else.
func (v Value) Len() int {
	if !v.IsList() {
		return 0
	}
	return len(v.node.values)
}

// ReportTo is the same value with its complaints going to another report.
func (v Value) ReportTo(report *Report) Value {
	v.report = report
	return v
}

// Text reads a string.
func (v Value) Text() (string, bool) {
	if !v.is(text) {
		v.Complain("%s where a text in quotes was expected", v.kind())
		return "", false
	}
	return v.node.text, true
}

// Bool reads true or false.
func (v Value) Bool() (b, ok bool) {
	if !v.is(truth) {
		v.Complain("%s where true or false was expected", v.kind())
		return false, false
	}
	return v.node.text == "true", true
}

// Integer reads a whole number from low to high.
func (v Value) Integer(low, high int) (int, bool) {
	text, ok := v.Number()
	if !ok {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		f, ferr := strconv.ParseFloat(text, 64)
		n = int(f)
		if ferr != nil || float64(n) != f {
			v.Complain("%s is not a whole number from %d to %d", text, low, high)
			return 0, false
		}
	}
	if n < low || n > high {
		v.Complain("%s is outside %d to %d", text, low, high)
		return 0, false
	}
	return n, true
}

// Real reads a number as a double.
func (v Value) Real() (float64, bool) {
	text, ok := v.Number()
	if !ok {
		return 0, false
	}
	f, err := strconv.ParseFloat(text, 64)
	if err != nil {
		v.Complain("%s is too large for a number", text)
		return 0, false
	}
	return f, true
}

// Number reads a number and returns its text as written.
func (v Value) Number() (string, bool) {
	if !v.is(number) {
		v.Complain("%s where a number was expected", v.kind())
		return "", false
	}
	return v.node.text, true
}

// List reads an array. The values carry their place, counted from 0.
func (v Value) List() ([]Value, bool) {
	if !v.IsList() {
		v.Complain("%s where a list in [ ] was expected", v.kind())
		return nil, false
	}
	values, places := make([]Value, v.Len()), make([]place, v.Len())
	for i := range values {
		places[i] = place{in: v.at, index: i, entry: true}
		values[i] = Value{node: &v.node.values[i], at: &places[i], report: v.report}
	}
	return values, true
}

// Object reads an object that may have the named fields and no others: any
// other field is a complaint that names it.
func (v Value) Object(fields ...string) (Object, bool) {
	o, ok := v.AnyObject()
	if !ok {
		return Object{}, false
	}
	for _, name := range o.names() {
		if !slices.Contains(fields, name) {
			at := place{in: v.at, name: name}
			v.report.Add(at.String(), "unknown field; known here: %s", strings.Join(fields, ", "))
		}
	}
	return o, true
}

// AnyObject reads an object whose fields have names of the writer's own.
func (v Value) AnyObject() (Object, bool) {
	if !v.is(object) {
		v.Complain("%s where an object in { } was expected", v.kind())
		return Object{}, false
	}
	return Object{v}, true
}

// JSON writes the value as compact JSON: fields in the order written, numbers
// as written.
func (v Value) JSON() json.RawMessage { return v.node.append(nil) }

func (v Value) kind() string {
	switch {
	case v.IsNull():
		return "null"
	case v.is(truth):
		return v.node.text
	case v.is(number):
		return "the number " + v.node.text
	case v.is(text):
		return "the text " + strconv.Quote(v.node.text)
	case v.is(list):
		return "a list"
	}
	return "an object"
}

// An Object is a JSON object with its place.
type Object struct{ Value }

// Names lists the fields in the order written.
func (o Object) Names() []string { return slices.Clone(o.names()) }

func (o Object) names() []string {
	if o.node == nil {
		return nil
	}
	return o.node.names
}

// Optional gives a field's value; there is false where it was left out.
func (o Object) Optional(name string) (v Value, there bool) {
	i := slices.Index(o.names(), name)
	if i < 0 {
		return Value{}, false
	}
	return Value{node: &o.node.values[i], at: &place{in: o.at, name: name}, report: o.report}, true
}

// Required gives a field's value and complains where it was left out.
func (o Object) Required(name string) (v Value, there bool) {
	v, there = o.Optional(name)
	if !there {
		at := place{in: o.at, name: name}
		o.report.Add(at.String(), "missing")
	}
	return v, there
}
