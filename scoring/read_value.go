package scoring

import (
	"slices"
	"strings"
	"time"

	"halfpoint/scoring/document"
)

// required reads a field and complains where it was left out.
func required[T any](o document.Object, name string, read func(document.Value) T) (t T) {
	if v, there := o.Required(name); there {
		return read(v)
	}
	return t
}

// optional reads a field, or gives what it is when left out.
func optional[T any](o document.Object, name string, otherwise T, read func(document.Value) T) T {
	if v, there := o.Optional(name); there {
		return read(v)
	}
	return otherwise
}

// nullable reads a field that is left out or null where there is nothing.
func nullable[T any](o document.Object, name string, read func(document.Value) *T) *T {
	if v, there := o.Optional(name); there && !v.IsNull() {
		return read(v)
	}
	return nil
}

// listOf reads a list of what a reader reads; it is never nil.
func listOf[T any](read func(document.Value) T) func(document.Value) []T {
	return func(v document.Value) []T {
		values, _ := v.List()
		list := make([]T, len(values))
		for i, one := range values {
			list[i] = read(one)
		}
		return list
	}
}

// optionalList reads a list that is empty when left out.
func optionalList[T any](o document.Object, name string, read func(document.Value) T) []T {
	return optional(o, name, []T{}, listOf(read))
}

func readText(v document.Value) string {
	text, _ := v.Text()
	return text
}

func readBool(v document.Value) bool {
	b, _ := v.Bool()
	return b
}

func readDate(v document.Value) string {
	text, ok := v.Text()
	if _, err := time.Parse(time.DateOnly, text); ok && text != "" && err != nil {
		v.Complain("%q is not a date as in 2026-06-12", text)
	}
	return text
}

// integer reads a whole number from low to high.
func integer(low, high int) func(document.Value) int {
	return func(v document.Value) int {
		n, _ := v.Integer(low, high)
		return n
	}
}

// readAbove0 reads a number above 0.
func readAbove0(v document.Value) float64 {
	f, ok := v.Real()
	if ok && f <= 0 {
		v.Complain("%v is not above 0", f)
	}
	return f
}

// from reads a number of at least so much.
func from(least float64) func(document.Value) float64 {
	return func(v document.Value) float64 {
		f, ok := v.Real()
		if ok && f < least {
			v.Complain("%v is below %v", f, least)
		}
		return f
	}
}

// oneOf reads a text that is one of a few.
func oneOf(known ...string) func(document.Value) string {
	return func(v document.Value) string {
		text, ok := v.Text()
		if ok && !slices.Contains(known, text) {
			v.Complain("%q is not known; known here: %s", text, strings.Join(known, ", "))
		}
		return text
	}
}

// A register holds the ids of things of a kind, to find one that is given
// twice and one that is not there.
type register struct {
	what string // for complaints: "judge"
	ids  map[string]bool
}

func newRegister(what string) register { return register{what, map[string]bool{}} }

// declare reads an id that must not be in the register yet.
func (r register) declare(v document.Value) string {
	id, ok := v.Text()
	if ok {
		r.add(v, id)
	}
	return id
}

// find reads an id that must be in the register.
func (r register) find(v document.Value) string {
	id, ok := v.Text()
	if ok {
		r.expect(v, id)
	}
	return id
}

// add puts an id into the register and complains when it is there already.
func (r register) add(v document.Value, id string) {
	switch {
	case id == "":
		v.Complain("empty where the id of a %s was expected", r.what)
	case r.ids[id]:
		v.Complain("%s %q is given twice", r.what, id)
	}
	r.ids[id] = true
}

// expect complains about an id that is not in the register.
func (r register) expect(v document.Value, id string) bool {
	if !r.ids[id] {
		v.Complain("no %s %q is declared", r.what, id)
	}
	return r.ids[id]
}

// pickedFrom reads an id that must be declared elsewhere and stands only once
// here.
func (r register) pickedFrom(declared ...register) func(document.Value) string {
	return func(v document.Value) string {
		id, ok := v.Text()
		for _, d := range declared {
			ok = ok && d.expect(v, id)
		}
		if ok {
			r.add(v, id)
		}
		return id
	}
}
