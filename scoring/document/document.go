// Package document reads a JSON document by hand, value by value, and keeps a
// complaint for everything that is wrong with it, each with its place
// (categories[0].programmes[1].flights[3]), so that whoever typed it can mend
// all of it at once.
package document

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Bounds that no document of ours comes near, so that reading stays cheap
// whatever is sent.
const (
	maxDepth      = 64
	maxFields     = 1000 // of one object
	maxComplaints = 1000
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
	if len(r.complaints) > maxComplaints {
		return
	}
	if len(r.complaints) == maxComplaints {
		place, format, args = "", "more is wrong than the %d complaints listed", []any{maxComplaints}
	}
	r.complaints = append(r.complaints, Complaint{Place: place, Text: fmt.Sprintf(format, args...)})
}

// Complaints returns what was collected so far, nil if nothing.
func (r *Report) Complaints() Complaints { return r.complaints }

// Err returns the complaints as an error, nil if there are none.
func (r *Report) Err() error {
	if len(r.complaints) == 0 {
		return nil
	}
	return r.complaints
}

// field is one member of a JSON object, in the order written.
type field struct {
	name  string
	value any
}

// A Value is a JSON value at a place of a document. Its readers complain to
// the report and return false when the value is not what they read.
type Value struct {
	raw    any // nil, bool, json.Number, string, []any or []field
	place  string
	report *Report
}

// Parse reads a whole JSON text. Text that is not JSON, a field given twice and
// anything after the value are complaints, after which ok is false.
func Parse(text []byte, report *Report) (v Value, ok bool) {
	before := len(report.complaints)
	if !utf8.Valid(text) {
		report.Add("", "not UTF-8 text")
		return Value{report: report}, false
	}
	p := parser{decoder: json.NewDecoder(bytes.NewReader(text)), text: text, report: report}
	p.decoder.UseNumber()
	raw, err := p.value("", 0)
	if err == nil {
		if _, extra := p.decoder.Token(); !errors.Is(extra, io.EOF) {
			report.Add("", "%s: more text after the end of the document; one JSON value was expected", p.position(p.decoder.InputOffset()))
		}
	}
	return Value{raw: raw, report: report}, len(report.complaints) == before
}

// Place is where the value stands, for complaints of the caller's own.
func (v Value) Place() string { return v.place }

// Complain keeps a complaint about this value.
func (v Value) Complain(format string, args ...any) { v.report.Add(v.place, format, args...) }

// IsNull tells whether the value is JSON's null.
func (v Value) IsNull() bool { return v.raw == nil }

// IsList tells whether the value is an array, where one field may be written
// in more than one way.
func (v Value) IsList() bool {
	_, ok := v.raw.([]any)
	return ok
}

// Len is how many values a list holds, 0 for anything else.
func (v Value) Len() int {
	list, _ := v.raw.([]any)
	return len(list)
}

// ReportTo is the same value with its complaints going to another report.
func (v Value) ReportTo(report *Report) Value {
	v.report = report
	return v
}

// Text reads a string.
func (v Value) Text() (string, bool) {
	s, ok := v.raw.(string)
	if !ok {
		v.Complain("%s where a text in quotes was expected", v.kind())
	}
	return s, ok
}

// Bool reads true or false.
func (v Value) Bool() (b, ok bool) {
	b, ok = v.raw.(bool)
	if !ok {
		v.Complain("%s where true or false was expected", v.kind())
	}
	return b, ok
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
	n, ok := v.raw.(json.Number)
	if !ok {
		v.Complain("%s where a number was expected", v.kind())
	}
	return n.String(), ok
}

// List reads an array. The values carry their place, counted from 0.
func (v Value) List() ([]Value, bool) {
	raw, ok := v.raw.([]any)
	if !ok {
		v.Complain("%s where a list in [ ] was expected", v.kind())
		return nil, false
	}
	list := make([]Value, len(raw))
	for i, one := range raw {
		list[i] = Value{raw: one, place: v.place + "[" + strconv.Itoa(i) + "]", report: v.report}
	}
	return list, true
}

// Object reads an object that may have the named fields and no others: any
// other field is a complaint that names it.
func (v Value) Object(fields ...string) (Object, bool) {
	o, ok := v.AnyObject()
	if !ok {
		return Object{}, false
	}
	for _, f := range o.fields {
		if !slices.Contains(fields, f.name) {
			v.report.Add(join(v.place, f.name), "unknown field; known here: %s", strings.Join(fields, ", "))
		}
	}
	return o, true
}

// AnyObject reads an object whose fields have names of the writer's own.
func (v Value) AnyObject() (Object, bool) {
	raw, ok := v.raw.([]field)
	if !ok {
		v.Complain("%s where an object in { } was expected", v.kind())
		return Object{}, false
	}
	return Object{Value: v, fields: raw}, true
}

// JSON writes the value as compact JSON: fields in the order written, numbers
// as written.
func (v Value) JSON() json.RawMessage { return appendJSON(nil, v.raw) }

func appendJSON(b []byte, raw any) []byte {
	switch raw := raw.(type) {
	case []any:
		b = append(b, '[')
		for i, one := range raw {
			if i > 0 {
				b = append(b, ',')
			}
			b = appendJSON(b, one)
		}
		return append(b, ']')
	case []field:
		b = append(b, '{')
		for i, f := range raw {
			if i > 0 {
				b = append(b, ',')
			}
			b = appendJSON(append(appendJSON(b, f.name), ':'), f.value)
		}
		return append(b, '}')
	case json.Number:
		return append(b, raw...)
	}
	text, _ := json.Marshal(raw) // a text, true, false or null: never an error
	return append(b, text...)
}

func (v Value) kind() string {
	switch raw := v.raw.(type) {
	case nil:
		return "null"
	case bool:
		return strconv.FormatBool(raw)
	case json.Number:
		return "the number " + raw.String()
	case string:
		return "the text " + strconv.Quote(raw)
	case []any:
		return "a list"
	}
	return "an object"
}

// An Object is a JSON object with its place.
type Object struct {
	Value
	fields []field
}

// Names lists the fields in the order written.
func (o Object) Names() []string {
	names := make([]string, len(o.fields))
	for i, f := range o.fields {
		names[i] = f.name
	}
	return names
}

// Optional gives a field's value; there is false where it was left out.
func (o Object) Optional(name string) (v Value, there bool) {
	i := slices.IndexFunc(o.fields, func(f field) bool { return f.name == name })
	if i < 0 {
		return Value{}, false
	}
	return Value{raw: o.fields[i].value, place: join(o.place, name), report: o.report}, true
}

// Required gives a field's value and complains where it was left out.
func (o Object) Required(name string) (v Value, there bool) {
	v, there = o.Optional(name)
	if !there {
		o.report.Add(join(o.place, name), "missing")
	}
	return v, there
}

func join(place, name string) string {
	if place == "" {
		return name
	}
	return place + "." + name
}

// parser builds values from tokens, so that an error of syntax has a place too.
type parser struct {
	decoder *json.Decoder
	text    []byte
	report  *Report
}

var errNotJSON = errors.New("not JSON")

func (p *parser) value(place string, depth int) (any, error) {
	token, err := p.decoder.Token()
	if err != nil {
		return nil, p.broken(place, err)
	}
	delim, ok := token.(json.Delim)
	if !ok {
		return token, nil
	}
	if depth == maxDepth {
		p.report.Add(place, "nested more than %d deep", maxDepth)
		return nil, errNotJSON
	}
	if delim == '[' {
		return p.list(place, depth+1)
	}
	return p.object(place, depth+1)
}

func (p *parser) list(place string, depth int) (any, error) {
	list := []any{}
	for p.decoder.More() {
		v, err := p.value(place+"["+strconv.Itoa(len(list))+"]", depth)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	return list, p.closing(place)
}

func (p *parser) object(place string, depth int) (any, error) {
	fields := []field{}
	for p.decoder.More() {
		token, err := p.decoder.Token()
		if err != nil {
			return nil, p.broken(place, err)
		}
		name, ok := token.(string)
		if !ok {
			return nil, p.broken(place, errors.New("a field's name was expected"))
		}
		v, err := p.value(join(place, name), depth)
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(fields, func(f field) bool { return f.name == name }) {
			p.report.Add(join(place, name), "given twice")
			continue
		}
		if len(fields) == maxFields {
			p.report.Add(place, "more than %d fields", maxFields)
			return nil, errNotJSON
		}
		fields = append(fields, field{name, v})
	}
	return fields, p.closing(place)
}

func (p *parser) closing(place string) error {
	if _, err := p.decoder.Token(); err != nil {
		return p.broken(place, err)
	}
	return nil
}

func (p *parser) broken(place string, err error) error {
	at := p.decoder.InputOffset()
	if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
		at = syntax.Offset // counts the byte that is wrong, where there is one
	}
	if int(at) >= len(p.text) {
		err = errors.New("the text ends in the middle")
	}
	p.report.Add(place, "%s: not JSON: %v", p.position(at), err)
	return errNotJSON
}

// position says in which line and column, from 1, an offset of the text stands.
func (p *parser) position(offset int64) string {
	read := p.text[:min(int(offset), len(p.text))]
	line := bytes.Count(read, []byte("\n")) + 1
	column := len(read) - bytes.LastIndexByte(read, '\n')
	return fmt.Sprintf("line %d, column %d", line, column)
}
