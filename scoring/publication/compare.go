package publication

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
)

// What two machines may differ by in a number that is computed and not
// rounded, as a share of it, or of 1 where it is smaller; and in a probability,
// which is counted in draws. Every other number is published as a decimal or
// counted, and the same everywhere.
const (
	nearUnrounded   = 1e-9
	nearProbability = 1e-3
)

var near = map[string]float64{
	"panel_score": nearUnrounded, "standard_error": nearUnrounded, "penalties": nearUnrounded,
	"raw_total": nearUnrounded, "used_total": nearUnrounded, "weight": nearUnrounded,
	"used": nearUnrounded, "fitted": nearUnrounded,
	"p_first": nearProbability, "p_podium": nearProbability,
}

// compare lists, in words, what published results say and computed ones do not,
// or the other way about.
func compare(published, computed []byte) ([]string, error) {
	var a, b any
	if err := json.Unmarshal(published, &a); err != nil {
		return nil, err
	}
	if err := json.Unmarshal(computed, &b); err != nil {
		return nil, err
	}
	c := &comparison{}
	c.value("the document", "", a, b)
	return c.differences, nil
}

type comparison struct{ differences []string }

func (c *comparison) add(place, format string, args ...any) {
	c.differences = append(c.differences, place+": "+fmt.Sprintf(format, args...))
}

// value compares what stands at a place under a name.
func (c *comparison) value(place, name string, published, computed any) {
	switch p := published.(type) {
	case map[string]any:
		if q, ok := computed.(map[string]any); ok {
			c.object(place, p, q)
			return
		}
	case []any:
		if q, ok := computed.([]any); ok {
			c.list(place, p, q)
			return
		}
	case float64:
		if q, ok := computed.(float64); ok && isNear(name, p, q) {
			return
		}
	}
	if !isPlain(published) || !isPlain(computed) || published != computed {
		c.add(place, "published is %s, computed is %s", show(published), show(computed))
	}
}

func isNear(name string, a, b float64) bool {
	return a == b || math.Abs(a-b) <= near[name]*max(1, math.Abs(a))
}

func isPlain(v any) bool {
	switch v.(type) {
	case map[string]any, []any:
		return false
	}
	return true
}

func show(v any) string {
	if !isPlain(v) {
		return "something else"
	}
	text, err := json.Marshal(v)
	if err != nil {
		return fmt.Sprint(v)
	}
	return string(text)
}

func (c *comparison) object(place string, published, computed map[string]any) {
	names := maps.Clone(published)
	maps.Copy(names, computed)
	for _, name := range slices.Sorted(maps.Keys(names)) {
		p, inP := published[name]
		q, inQ := computed[name]
		at := place + ", " + strings.ReplaceAll(name, "_", " ")
		switch {
		case !inP:
			c.add(at, "computed and not published")
		case !inQ:
			c.add(at, "published and not computed")
		default:
			c.value(at, name, p, q)
		}
	}
}

func (c *comparison) list(place string, published, computed []any) {
	if len(published) != len(computed) {
		c.add(place, "%d are published, %d are computed", len(published), len(computed))
		return
	}
	for i := range published {
		c.value(place+" "+label(i, published[i]), "", published[i], computed[i])
	}
}

// label names a member of a list by what tells it from the others.
func label(i int, member any) string {
	object, _ := member.(map[string]any)
	var parts []string
	for _, name := range []string{"id", "pilot", "item", "judge", "team"} {
		if v, ok := object[name]; ok {
			parts = append(parts, fmt.Sprint(v))
		}
	}
	if parts == nil {
		return fmt.Sprint(i + 1)
	}
	return strings.Join(parts, "/")
}
