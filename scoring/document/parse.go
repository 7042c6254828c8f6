package document

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// kind tells what a JSON value is.
type kind uint8

const (
	null kind = iota
	truth
	number
	text
	list
	object
	unread // a word that JSON does not know, complained about already
)

// A node is a JSON value as parsed.
type node struct {
	kind kind
	text string // a number or a word as written, a text without its escapes
	*members
}

// members are what a list or an object holds.
type members struct {
	values []node
	names  []string // of an object's fields
}

// append writes the value as compact JSON.
func (n *node) append(b []byte) []byte {
	switch {
	case n == nil || n.kind == null:
		return append(b, "null"...)
	case n.kind == text:
		return appendText(b, n.text)
	case n.kind == truth || n.kind == number || n.kind == unread:
		return append(b, n.text...)
	}
	open, end := byte('['), byte(']')
	if n.kind == object {
		open, end = '{', '}'
	}
	b = append(b, open)
	for i := range n.values {
		if i > 0 {
			b = append(b, ',')
		}
		if n.kind == object {
			b = append(appendText(b, n.names[i]), ':')
		}
		b = n.values[i].append(b)
	}
	return append(b, end)
}

func appendText(b []byte, text string) []byte {
	quoted, _ := json.Marshal(text) // a text is never an error
	return append(b, quoted...)
}

// Parse reads a whole JSON text. Text that is not JSON is a complaint, after
// which ok is false. A field given twice, a word like NaN and anything after the
// value are complaints too, but the value can be read on for more of them.
func Parse(text []byte, report *Report) (v Value, ok bool) {
	p := parser{text: string(text), report: report}
	root := new(node)
	if p.unreadable() || p.value(root, nil, 0) != nil {
		return Value{node: root, report: report}, false
	}
	if p.next() != 0 {
		report.Add("", "%s: more text after the end of the document; one JSON value was expected", p.position())
	}
	return Value{node: root, report: report}, true
}

// unreadable complains of a text without a value to begin with, and of what
// editors put before one.
func (p *parser) unreadable() bool {
	switch {
	case !utf8.ValidString(p.text):
		p.report.Add("", "not UTF-8 text")
	case strings.HasPrefix(p.text, byteOrderMark):
		p.report.Add("", "it begins with a byte order mark; UTF-8 without one was expected")
	case p.next() == 0:
		p.report.Add("", "it is empty; one JSON value was expected")
	default:
		return false
	}
	return true
}

const byteOrderMark = "\ufeff"

// A parser goes through the text once. Values of lists and objects that are
// not closed yet wait on a stack.
type parser struct {
	text   string
	at     int // the byte to read next
	report *Report
	stack  []node
	names  []string
	values int // read so far

	// Up to here lines were counted, the last of which begins there: complaints come
	// in the order of the text, so that each byte is counted once.
	counted, lines, lineStart int
}

// errNotJSON ends parsing; what was wrong is in the report.
var errNotJSON = errors.New("not JSON")

// next skips white space and gives the byte after it, without reading it; 0 at
// the end of the text.
func (p *parser) next() byte {
	for ; p.at < len(p.text); p.at++ {
		switch c := p.text[p.at]; c {
		case ' ', '\t', '\n', '\r':
		default:
			return max(c, 1) // a zero byte is as wrong as the next control character
		}
	}
	return 0
}

// take reads a byte if it is the next one.
func (p *parser) take(c byte) bool {
	if p.next() != c {
		return false
	}
	p.at++
	return true
}

func (p *parser) value(n *node, at *place, depth int) error {
	switch c := p.next(); {
	case c == '"':
		s, err := p.quoted(at)
		n.kind, n.text = text, s
		return err
	case c == '[' || c == '{':
		if depth == maxDepth {
			p.report.Add(at.String(), "nested more than %d deep", maxDepth)
			return errNotJSON
		}
		p.at++
		if c == '[' {
			return p.list(n, at, depth+1)
		}
		return p.object(n, at, depth+1)
	case c == '-' || c >= '0' && c <= '9':
		return p.number(n, at)
	}
	return p.word(n, at)
}

// word reads a value without quotes. One that JSON does not know, as NaN, is a
// complaint after which there is more to read.
func (p *parser) word(n *node, at *place) error {
	n.text = p.text[p.at:p.wordEnd()]
	switch n.text {
	case "null":
		n.kind = null
	case "true", "false":
		n.kind = truth
	case "", "-":
		return p.broken(at, "a value")
	default:
		n.kind = unread
		p.report.Add(at.String(), "%s: not JSON: %s where a value was expected", p.position(), n.text)
	}
	p.at += len(n.text)
	return nil
}

// wordEnd is where the letters end that are next, after a sign or none.
func (p *parser) wordEnd() int {
	end := p.at
	for end < len(p.text) && (isLetter(p.text[end]) || end == p.at && p.text[end] == '-') {
		end++
	}
	return end
}

func isLetter(c byte) bool { return c|' ' >= 'a' && c|' ' <= 'z' }

func (p *parser) list(n *node, at *place, depth int) error {
	n.kind, n.members = list, &members{}
	first := len(p.stack)
	for !p.take(']') {
		if len(p.stack) > first && !p.take(',') {
			return p.broken(at, "a comma or ]")
		}
		if c := p.next(); c == '}' || c == 0 {
			return p.broken(at, "a value or ]")
		}
		here := place{in: at, index: len(p.stack) - first, entry: true}
		if err := p.push(&here, depth); err != nil {
			return err
		}
	}
	n.values = p.pop(first)
	return nil
}

func (p *parser) object(n *node, at *place, depth int) error {
	n.kind, n.members = object, &members{}
	first, firstName := len(p.stack), len(p.names)
	for !p.take('}') {
		if len(p.stack) > first && !p.take(',') {
			return p.broken(at, "a comma or }")
		}
		if err := p.field(at, depth, firstName); err != nil {
			return err
		}
		if len(p.stack)-first > maxFields {
			p.report.Add(at.String(), "more than %d fields", maxFields)
			return errNotJSON
		}
	}
	n.values = p.pop(first)
	n.names = slices.Clone(p.names[firstName:])
	p.names = p.names[:firstName]
	return nil
}

// field reads a name and its value. One given twice is a complaint and kept.
func (p *parser) field(at *place, depth, firstName int) error {
	if p.next() != '"' {
		return p.broken(at, "a field's name in quotes")
	}
	name, err := p.quoted(at)
	if err != nil {
		return err
	}
	here := place{in: at, name: name}
	if !p.take(':') {
		return p.broken(&here, "a colon")
	}
	if slices.Contains(p.names[firstName:], name) {
		p.report.Add(here.String(), "given twice")
	}
	p.names = append(p.names, name)
	return p.push(&here, depth)
}

// push reads a value onto the stack. Where nothing more is said of a text, nothing
// more is read of it.
func (p *parser) push(at *place, depth int) error {
	if p.values++; p.values > maxValues {
		p.report.Add(at.String(), "more than %d values in all", maxValues)
		return errNotJSON
	}
	if p.report.full() {
		return errNotJSON
	}
	var n node
	err := p.value(&n, at, depth)
	p.stack = append(p.stack, n)
	return err
}

// pop takes what was read since from the stack.
func (p *parser) pop(first int) []node {
	values := slices.Clone(p.stack[first:])
	p.stack = p.stack[:first]
	return values
}

// quoted reads a text in quotes, the first of which is next.
func (p *parser) quoted(at *place) (string, error) {
	begin := p.at + 1
	for p.at = begin; p.at < len(p.text); p.at++ {
		switch c := p.text[p.at]; {
		case c == '"':
			p.at++
			return p.text[begin : p.at-1], nil
		case c == '\\':
			return p.escaped(begin, at)
		case c < ' ':
			return "", p.broken(at, "no control character in a text")
		}
	}
	return "", p.broken(at, "")
}

// escaped reads the rest of a text with escapes, which begins after its quote.
func (p *parser) escaped(begin int, at *place) (s string, err error) {
	for ; p.at < len(p.text) && p.text[p.at] != '"'; p.at++ {
		if p.text[p.at] == '\\' {
			p.at++
		}
	}
	if p.at >= len(p.text) {
		p.at = len(p.text)
		return "", p.broken(at, "")
	}
	p.at++
	if json.Unmarshal([]byte(p.text[begin-1:p.at]), &s) != nil {
		return "", p.broken(at, "another escape or no control character in a text")
	}
	return s, nil
}

// number reads a number as JSON writes it: no leading zeros, no bare point.
func (p *parser) number(n *node, at *place) error {
	begin := p.at
	if p.text[p.at] == '-' {
		p.at++
	}
	if p.at < len(p.text) && p.text[p.at] == '0' {
		p.at++
	} else if !p.digits() {
		p.at = begin
		return p.word(n, at)
	}
	if p.at < len(p.text) && p.text[p.at] == '.' {
		p.at++
		if !p.digits() {
			return p.broken(at, "a digit")
		}
	}
	if p.at < len(p.text) && p.text[p.at]|' ' == 'e' {
		p.at++
		if p.at < len(p.text) && (p.text[p.at] == '+' || p.text[p.at] == '-') {
			p.at++
		}
		if !p.digits() {
			return p.broken(at, "a digit")
		}
	}
	n.kind, n.text = number, p.text[begin:p.at]
	return nil
}

// digits reads at least one.
func (p *parser) digits() bool {
	begin := p.at
	for p.at < len(p.text) && p.text[p.at] >= '0' && p.text[p.at] <= '9' {
		p.at++
	}
	return p.at > begin
}

// broken complains that the next byte is not JSON.
func (p *parser) broken(at *place, expected string) error {
	if p.at >= len(p.text) {
		p.report.Add(at.String(), "%s: not JSON: the text ends in the middle", p.position())
		return errNotJSON
	}
	found, _ := utf8.DecodeRuneInString(p.text[p.at:])
	p.report.Add(at.String(), "%s: not JSON: %q where %s was expected", p.position(), found, expected)
	return errNotJSON
}

// position says in which line and column, from 1, the next byte stands.
func (p *parser) position() string {
	end := min(p.at, len(p.text))
	read := p.text[p.counted:end]
	p.lines += strings.Count(read, "\n")
	if last := strings.LastIndexByte(read, '\n'); last >= 0 {
		p.lineStart = p.counted + last + 1
	}
	p.counted = end
	return fmt.Sprintf("line %d, column %d", p.lines+1, end-p.lineStart+1)
}
