package api_test

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"net"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"halfpoint/db"
)

// script is what no answer may hold where a browser would run it.
const script = "<script>alert(1)</script>"

// hostile are JSON values that nobody sends who means well: other types and
// sizes, texts that mean something to a browser, a spreadsheet, a database or a
// file system, and what Unicode has that is not seen.
var hostile = []string{
	`null`, `true`, `-1`, `0.1`, `1e400`, `9223372036854775808`, `[]`, `{}`, `[null]`, `{"__proto__": {"owner": true}}`,
	`""`, `"\u0000"`, `"\ud800"`, `"\u202e\u2066\ufeff"`, `"` + script + `"`, `"\"><svg onload=alert(1)>"`,
	`"'; DROP TABLE record; --"`, `"=1+2"`, `"../../etc/passwd"`, `"%00"`, `"{{7*7}}${7*7}"`,
	`"` + strings.Repeat("ä", 20_000) + `"`, strings.Repeat("[", 5_000) + strings.Repeat("]", 5_000),
}

// hostilePlaces stand where an id is expected.
var hostilePlaces = []string{
	"0", "..", "%2e%2e%2f", "%00", "\x00", "\xf0(", "' OR 1=1 --", script, "00000000-0000-0000-0000-000000000000", strings.Repeat("a", 5_000),
}

// placeholder is where an id stands in a path of the contract.
var placeholder = regexp.MustCompile(`\{[^}]+\}`)

const attacksOnEach = 40 // bodies for each operation

// TestAttack sends what the contract does not allow, and what it just allows, to
// every operation, as somebody who may do everything: nothing of it may be a
// fault of the service's, tell of its insides, or come back as a page's script.
func TestAttack(t *testing.T) {
	t.Parallel()
	const seed = 7
	dice := rand.New(rand.NewPCG(seed, 0))
	s := start(t)
	s.client = clientOfManyAddresses(dice)
	owner := s.account("owner", true)
	places := s.placesOf(s.imports(bundleOf(t, "108"), db.Live))
	answered := make(map[int]int) // how many, by status
	s.eachContracted(func(o operation, contract *openapi3.Operation) {
		if o.id == "streamEvents" {
			return // it answers for as long as it is listened to
		}
		session := s.signIn(owner) // a new one, since some operations end it
		for i, r := range attacks(t, o, contract, places, dice) {
			if r.token = token; i%2 == 0 {
				r.token, r.session = "", session
			}
			a := s.send(r)
			harmless(t, o.id, r, a)
			answered[a.status]++
		}
	})
	t.Logf("answered: %v", answered)
	// Some are let through, so that more than the contract is tried.
	if answered[http.StatusBadRequest] < 1000 || answered[http.StatusUnprocessableEntity] < 200 || answered[http.StatusConflict] < 50 {
		t.Errorf("answered: %v", answered)
	}
}

// clientOfManyAddresses is one that no address's rate stops.
func clientOfManyAddresses(dice *rand.Rand) *http.Client {
	dial := func(ctx context.Context, network, to string) (net.Conn, error) {
		from := net.TCPAddr{IP: net.IPv4(127, 1, byte(dice.IntN(250)), byte(1+dice.IntN(250)))}
		return (&net.Dialer{LocalAddr: &from}).DialContext(ctx, network, to)
	}
	return &http.Client{Transport: &http.Transport{DialContext: dial, DisableKeepAlives: true}}
}

// attacks are the requests that an operation has to stand.
func attacks(t *testing.T, o operation, contract *openapi3.Operation, places *strings.Replacer, dice *rand.Rand) (list []request) {
	t.Helper()
	whole := o.request(places)
	for _, at := range placeholder.FindAllStringIndex(o.path, -1) {
		for _, place := range hostilePlaces {
			r := whole
			r.path = places.Replace(o.path[:at[0]]) + url.PathEscape(place) + places.Replace(o.path[at[1]:])
			list = append(list, r)
		}
	}
	for _, p := range contract.Parameters {
		if p.Value.In == openapi3.ParameterInQuery {
			for _, value := range hostilePlaces {
				r := whole
				r.path += "?" + url.Values{p.Value.Name: {value, value}}.Encode()
				list = append(list, r)
			}
		}
	}
	if o.takes == "" {
		return list
	}
	for _, body := range hostileBodies(t, o, contract, places, dice) {
		r := whole
		r.body = body
		list = append(list, r)
	}
	other := whole
	other.contentType = "application/xml"
	return append(list, other)
}

// hostileBodies are bodies of an operation of which one place is hostile.
func hostileBodies(t *testing.T, o operation, contract *openapi3.Operation, places *strings.Replacer, dice *rand.Rand) (list []string) {
	t.Helper()
	list = append(list, "", "{", "\xff\xfe", `{"a": 1, "a": 2}`, "number,k\n"+script+",=1+2\n", strings.Repeat("x,", 50_000))
	list = append(list, hostile...)
	content := contract.RequestBody.Value.Content.Get("application/json")
	if content == nil {
		return list
	}
	for range attacksOnEach {
		text := spoiled(t, o, content.Schema, places, dice)
		list = append(list, text)
	}
	return list
}

// spoiled is a body as the contract wants it, but for one place.
func spoiled(t *testing.T, o operation, schema *openapi3.SchemaRef, places *strings.Replacer, dice *rand.Rand) string {
	t.Helper()
	value := sample(schema, 0)
	if o.id == "importBundle" {
		value = asValue(t, bundleOf(t, "108"))
	}
	if text := bodies[o.id]; strings.HasPrefix(text, "{") && dice.IntN(2) == 0 {
		if err := json.Unmarshal([]byte(places.Replace(text)), &value); err != nil {
			t.Fatal(err)
		}
	}
	value = spoil(value, json.RawMessage(hostile[dice.IntN(len(hostile))]), dice)
	text, err := json.Marshal(value)
	if err != nil { // Marshal compacts what is raw, and refuses what is too deep
		t.Fatal(err)
	}
	return string(text)
}

func asValue(t *testing.T, from any) (value any) {
	t.Helper()
	text, err := json.Marshal(from)
	if err == nil {
		err = json.Unmarshal(text, &value)
	}
	if err != nil {
		t.Fatal(err)
	}
	return value
}

// sample is a value as a schema wants it.
func sample(ref *openapi3.SchemaRef, depth int) any {
	s := ref.Value
	switch {
	case depth > 6:
		return nil
	case len(s.Enum) > 0:
		return s.Enum[0]
	case len(s.AllOf) > 0:
		return sample(s.AllOf[0], depth+1)
	case len(s.OneOf) > 0:
		return sample(s.OneOf[0], depth+1)
	case s.Type.Is(openapi3.TypeObject):
		object := make(map[string]any)
		for name, property := range s.Properties {
			object[name] = sample(property, depth+1)
		}
		return object
	case s.Type.Is(openapi3.TypeArray):
		return []any{sample(s.Items, depth+1)}
	case s.Type.Is(openapi3.TypeInteger), s.Type.Is(openapi3.TypeNumber):
		return 1
	case s.Type.Is(openapi3.TypeBoolean):
		return true
	}
	switch s.Format {
	case "uuid":
		return "0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7"
	case "date":
		return "2026-06-12"
	case "date-time":
		return "2026-06-12T10:14:03Z"
	}
	return strings.Repeat("a", int(max(s.MinLength, 1)))
}

// spoil puts what is hostile into one place of a value, however deep.
func spoil(value any, with json.RawMessage, dice *rand.Rand) any {
	if dice.IntN(8) == 0 {
		return with
	}
	switch value := value.(type) {
	case map[string]any:
		if len(value) == 0 {
			return with
		}
		names := slices.Sorted(maps.Keys(value))
		name := names[dice.IntN(len(names))]
		value[name] = spoil(value[name], with, dice)
		return value
	case []any:
		if len(value) == 0 {
			return with
		}
		i := dice.IntN(len(value))
		value[i] = spoil(value[i], with, dice)
		return value
	}
	return with
}

// insides are words that only the service's own parts would say.
var insides = []string{"SQLSTATE", "pgconn", "goroutine ", ".go:", "panic", "/var/lib", "syntax error at or near"}

// harmless holds an answer to what every answer must be.
func harmless(t *testing.T, what string, r request, a answer) {
	t.Helper()
	short := fmt.Sprintf("%s %s %.80q %.200q: %d %.300s", what, r.method, r.path, r.body, a.status, a.body)
	kind := a.header.Get("Content-Type")
	switch {
	case a.status >= http.StatusInternalServerError:
		t.Errorf("a fault of ours: %s", short)
	case a.status >= http.StatusBadRequest && !strings.HasPrefix(kind, "application/problem+json"):
		t.Errorf("refused as %s: %s", kind, short)
	case strings.Contains(kind, "html") && strings.Contains(a.body, script):
		t.Errorf("a script comes back: %s", short)
	case a.header.Get("X-Content-Type-Options") != "nosniff" || a.header.Get("Content-Security-Policy") == "":
		t.Errorf("without its headers: %s", short)
	}
	for _, inside := range insides {
		if a.status >= http.StatusBadRequest && strings.Contains(a.body, inside) {
			t.Errorf("it tells of its insides (%s): %s", inside, short)
		}
	}
}

// What a proxy or a program may put into the head of a request changes neither
// who asks, nor what is asked, nor where the service thinks that it is.
func TestHeadersChangeNothing(t *testing.T) {
	t.Parallel()
	s := start(t)
	contest := s.imports(bundleOf(t, "108"), db.Closed)
	path := "/api/v1/contests/" + contest.String()
	for name, value := range map[string]string{
		"X-Original-URL": path, "X-Rewrite-URL": path, "X-HTTP-Method-Override": "DELETE", "X-Forwarded-For": "127.0.0.1",
		"X-Forwarded-Host": "evil.example.org", "X-Forwarded-User": "owner", "Forwarded": "for=127.0.0.1;host=evil.example.org",
		"Authorization": "Basic b3duZXI6b3duZXI=", "Cookie": "halfpoint=; halfpoint=x; __Host-halfpoint=y",
	} {
		a := s.send(request{path: path, header: map[string]string{name: value}})
		if a.status != http.StatusNotFound && a.status != http.StatusUnauthorized || strings.Contains(a.body, "evil") {
			t.Errorf("%s: %d %s", name, a.status, a.body)
		}
	}
}
