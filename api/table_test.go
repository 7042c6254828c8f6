package api

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
)

// TestTablesNameOperations holds the table of access complete, and every table
// to operations that there are.
func TestTablesNameOperations(t *testing.T) {
	t.Parallel()
	k, err := loadContract()
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, route := range k.operations {
		id := route.Operation.OperationID
		known[id] = true
		if _, ok := access[id]; !ok {
			t.Errorf("%s is missing in the table of access", id)
		}
	}
	for id := range access {
		if !known[id] {
			t.Errorf("%s has access and is no operation", id)
		}
	}
	for id := range passwordAgain {
		if !known[id] {
			t.Errorf("%s needs the password again and is no operation", id)
		}
	}
	for id := range limits {
		if !known[id] {
			t.Errorf("%s has a limit and is no operation", id)
		}
	}
}

// TestEveryPathIsPlaced holds every operation on a thing to one whose contest is
// found from its path, or a role in one contest would hold in all of them. Only
// what is a session's own has no contest, and a season has several, in each of
// which its handlers ask (season.go).
func TestEveryPathIsPlaced(t *testing.T) {
	t.Parallel()
	k, err := loadContract()
	if err != nil {
		t.Fatal(err)
	}
	own := map[string]bool{"withdrawSession": true}
	for _, route := range k.operations {
		placed := !strings.Contains(route.Path, "{")
		for _, part := range strings.Split(route.Path, "/") {
			placed = placed || db.Placed(strings.Trim(part, "{}")) && strings.HasPrefix(part, "{")
		}
		ofSeason := strings.HasPrefix(route.Path, "/api/v1/seasons/")
		if id := route.Operation.OperationID; placed == (own[id] || ofSeason) {
			t.Errorf("%s: nothing in %s says which contest it is of", id, route.Path)
		}
	}
}

// TestRolesBuildUpToAnyone holds every role to build on others down to anyone.
func TestRolesBuildUpToAnyone(t *testing.T) {
	t.Parallel()
	for r := anyone; r < roles; r++ {
		steps := 0
		for at := r; at != anyone; at = builds[at] {
			if steps++; steps > int(roles) {
				t.Fatalf("role %d builds on itself", r)
			}
		}
		if got := (rights{anyone: everywhere}).of(r); got != everywhere {
			t.Errorf("role %d may not do what anyone may", r)
		}
		refused := rights{anyone: everywhere}
		refused[r] = nowhere
		if got := refused.of(r); got != nowhere {
			t.Errorf("role %d may do what its line refuses", r)
		}
	}
	if got := (rights{office: live}).of(judge); got != nowhere {
		t.Errorf("a judge may do what only the office may: %d", got)
	}
	if got := (rights{office: live}).of(owner); got != live {
		t.Errorf("the owner may not do what the office may: %d", got)
	}
}

func TestPointers(t *testing.T) {
	t.Parallel()
	for place, want := range map[string]string{
		"":                                 "",
		"contest":                          "/contest",
		"categories[0].programmes[12].cut": "/categories/0/programmes/12/cut",
		"[3].name":                         "/3/name",
		"a/b~c":                            "/a~1b~0c", // RFC 6901, section 3
	} {
		if got := pointer(place); got != want {
			t.Errorf("pointer(%q) = %q, want %q", place, got, want)
		}
	}
}

func TestLimiterLetsThroughAtARate(t *testing.T) {
	t.Parallel()
	now := time.Now()
	l := newAddresses()
	l.now = func() time.Time { return now }
	from := addressOf(&http.Request{RemoteAddr: "192.0.2.7:1234"})
	other := addressOf(&http.Request{RemoteAddr: "192.0.2.8:1234"})
	passed := func(n int) (count int) {
		for range n {
			if l.take(from, 1) == 0 {
				count++
			}
		}
		return count
	}
	if got := passed(3000); got != atOnce {
		t.Errorf("%d of 3000 passed at once, want %v", got, atOnce)
	}
	if l.take(other, 1) != 0 {
		t.Error("another address was refused")
	}
	now = now.Add(time.Second / 2)
	if got := passed(3000); got != perSecond/2 {
		t.Errorf("%d passed after half a second, want %v", got, perSecond/2)
	}
}

func TestAddressesOfOneCustomerAreOne(t *testing.T) {
	t.Parallel()
	a := addressOf(&http.Request{RemoteAddr: "[2001:db8:1:2::1]:9"})
	b := addressOf(&http.Request{RemoteAddr: "[2001:db8:1:2:ffff::9]:9"})
	c := addressOf(&http.Request{RemoteAddr: "[2001:db8:1:3::1]:9"})
	if a != b || a == c {
		t.Errorf("%v, %v and %v: the first two are of one /64, the third is not", a, b, c)
	}
}

func TestTokenNeedsAPrivateWay(t *testing.T) {
	t.Parallel()
	s := &server{limiter: newAddresses()}
	for from, want := range map[string]string{
		"192.0.2.7:99": kindInsecure.name,
		"127.0.0.1:99": kindUnknownToken.name,
		"[::1]:99":     kindUnknownToken.name,
	} {
		r := httptest.NewRequest(http.MethodGet, "http://contest.example.org/", nil)
		r.RemoteAddr = from
		if _, err := s.whoHasToken(r, "Bearer x"); failureOf(err).kind.name != want {
			t.Errorf("from %s: %v, want %s", from, err, want)
		}
	}
	r := httptest.NewRequest(http.MethodGet, "https://contest.example.org/", nil)
	r.RemoteAddr = "192.0.2.7:99"
	if _, err := s.whoHasToken(r, "Bearer x"); failureOf(err).kind != kindUnknownToken {
		t.Errorf("over TLS: %v", err)
	}
}

func TestCookiesNeedAPrivateWay(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		url, from, cookie, want string
	}{
		"this machine":           {"http://localhost", "127.0.0.1:9", plainCookie, "x"},
		"a proxy on it":          {"http://contest.example.org", "127.0.0.1:9", secureCookie, "x"},
		"the open field":         {"http://contest.example.org", "192.0.2.7:9", plainCookie, ""},
		"the field, by TLS":      {"https://contest.example.org", "192.0.2.7:9", secureCookie, "x"},
		"a cookie of others":     {"https://contest.example.org", "192.0.2.7:9", "session", ""},
		"of another program too": {"http://localhost", "[::1]:9", "_Host-halfpoint", ""},
		"set by plain HTTP":      {"https://contest.example.org", "192.0.2.7:9", plainCookie, ""},
	} {
		r := httptest.NewRequest(http.MethodGet, c.url, nil)
		r.RemoteAddr = c.from
		r.AddCookie(&http.Cookie{Name: c.cookie, Value: "x"})
		if got := cookieOf(r); got != c.want {
			t.Errorf("%s: the secret is %q, want %q", name, got, c.want)
		}
	}
}

func TestCookieIsTheBrowsersAlone(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ url, origin, want string }{
		"TLS":            {"https://contest.example.org", "https://contest.example.org", "__Host-halfpoint=s; Path=/; "},
		"a proxy's TLS":  {"http://contest.example.org", "https://contest.example.org", "__Host-halfpoint=s; Path=/; "},
		"this machine":   {"http://localhost:8080", "http://localhost:8080", "halfpoint=s; Path=/; "},
		"a program here": {"http://localhost:8080", "", "halfpoint=s; Path=/; "},
	} {
		r := httptest.NewRequest(http.MethodPost, c.url, nil)
		r.Header.Set("Origin", c.origin)
		got := cookieFor(r, "s", time.Now().Add(time.Hour))
		secure := strings.Contains(got, "; Secure")
		if !strings.HasPrefix(got, c.want) || !strings.Contains(got, "; HttpOnly; ") || !strings.HasSuffix(got, "SameSite=Lax") ||
			secure != strings.HasPrefix(c.want, "__Host-") || strings.Contains(got, "Domain") {
			t.Errorf("%s: %s", name, got)
		}
	}
}

func TestOwnOrigin(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		url, origin string
		want        bool
	}{
		"the same":        {"https://contest.example.org", "https://contest.example.org", true},
		"another case":    {"https://contest.example.org", "https://Contest.Example.org", true},
		"behind a proxy":  {"http://contest.example.org", "https://contest.example.org", true},
		"another scheme":  {"https://contest.example.org", "http://contest.example.org", false},
		"another port":    {"http://localhost:8080", "http://localhost:8081", false},
		"a name below it": {"https://contest.example.org", "https://a.contest.example.org", false},
		"a file":          {"http://localhost:8080", "null", false},
		"none":            {"http://localhost:8080", "", false},
	} {
		r := httptest.NewRequest(http.MethodPost, c.url, nil)
		r.Header.Set("Origin", c.origin)
		if got := isOwnOrigin(r); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// TestGuards tries wrong passwords. The numbers are those of guard.go, reached
// by counting.
func TestGuards(t *testing.T) {
	t.Parallel()
	now := time.Now()
	clock := func() time.Time { return now }
	g := newGuards()
	g.pair.now, g.account.now, g.address.now = clock, clock, clock
	from := func(address string) *http.Request { return &http.Request{RemoteAddr: address + ":9"} }
	passed := func(address, account string, n int) (count int) {
		for range n {
			if _, err := g.enter(from(address), account); err == nil {
				count++
			}
		}
		return count
	}
	if got := passed("192.0.2.1", "a@example.org", 50); got != 10 {
		t.Errorf("one address tried one account %d times", got)
	}
	if got := passed("192.0.2.1", "A@Example.org", 5); got != 0 {
		t.Errorf("and %d times more in other letters", got)
	}
	if got := passed("192.0.2.2", "a@example.org", 5); got != 5 {
		t.Errorf("another address was kept from the account after %d tries", got)
	}
	now = now.Add(15 * time.Second)
	if got := passed("192.0.2.1", "a@example.org", 5); got != 1 {
		t.Errorf("after a quarter of a minute it tried %d times", got)
	}
	now = now.Add(time.Hour)
	for n := range 300 {
		passed("192.0.2.3", fmt.Sprint(n), 1)
	}
	if got := passed("192.0.2.3", "one more", 1); got != 0 {
		t.Error("one address tries as many accounts as it likes")
	}
	for n := range 30 {
		passed(fmt.Sprintf("198.51.100.%d", n), "b@example.org", 10)
	}
	if got := passed("192.0.2.4", "b@example.org", 1); got != 0 {
		t.Error("one account is tried by as many addresses as there are")
	}
	for range 500 {
		if t1, err := g.enter(from("192.0.2.5"), "c@example.org"); err == nil {
			t1.settle(nil)
			continue
		}
		t.Fatal("right passwords were counted")
	}
}

// TestTriesWithoutTheDatabaseCostNothing: what could not be looked up was not wrong.
func TestTriesWithoutTheDatabaseCostNothing(t *testing.T) {
	t.Parallel()
	g, r := newGuards(), &http.Request{RemoteAddr: "192.0.2.1:40000"}
	for _, away := range []error{fmt.Errorf("pairing: %w", db.ErrUnavailable), context.DeadlineExceeded} {
		for range 200 {
			settle, err := g.enterPairing(r)
			if err != nil {
				t.Fatalf("pairing while the database was away (%v) was counted: %v", away, err)
			}
			settle(away)
			try, err := g.enter(r, "a@example.org")
			if err != nil {
				t.Fatalf("signing in while the database was away (%v) was counted: %v", away, err)
			}
			try.settle(away)
		}
	}
	for range pairingAtOnce {
		settle, err := g.enterPairing(r)
		if err != nil {
			t.Fatal(err)
		}
		settle(db.ErrNotFound)
	}
	if _, err := g.enterPairing(r); err == nil {
		t.Error("wrong codes were not counted")
	}
}

func TestHosts(t *testing.T) {
	t.Parallel()
	ours := hosts{"contest.example.org"}
	for host, want := range map[string]bool{
		"contest.example.org": true, "Contest.Example.ORG:8443": true, "localhost:8080": true, "127.0.0.1": true, "[::1]:8080": true,
		"example.org": false, "contest.example.org.evil.example": false, "192.0.2.1": false, "": false,
	} {
		if got := ours.serve(&http.Request{Host: host}); got != want {
			t.Errorf("host %q is served: %v, want %v", host, got, want)
		}
	}
}

// TestSlowWatcherGetsTheLatest raises many heads before a watcher looks.
func TestSlowWatcherGetsTheLatest(t *testing.T) {
	t.Parallel()
	h, contest := newHub(), uuid.New()
	slow, other := h.watch(contest), h.watch(uuid.New())
	for version := range int64(100) {
		h.raise(db.Change{Head: db.Head{Contest: contest, Version: version}})
	}
	if head := <-slow.changes; head.Version != 99 {
		t.Errorf("the slow watcher got version %d, want 99", head.Version)
	}
	select {
	case head := <-slow.changes:
		t.Errorf("there was a queue: %v", head)
	case head := <-other.changes:
		t.Errorf("the watcher of another contest got %v", head)
	default:
	}
	h.drop(other)
	h.close()
	if _, on := <-slow.changes; on {
		t.Error("the watch went on after the end")
	}
	if _, on := <-h.watch(contest).changes; on {
		t.Error("a watch began after the end")
	}
}

// TestQuantiles holds against R: quantile(c(6, 7, 7.5, 9), c(.25, .5, .75)),
// worked by hand from its definition 7.
func TestQuantiles(t *testing.T) {
	t.Parallel()
	sorted := []float64{6, 7, 7.5, 9}
	for p, want := range map[float64]float64{0.25: 6.75, 0.5: 7.25, 0.75: 7.875, 0: 6, 1: 9} {
		if got := quantile(sorted, p); got != want {
			t.Errorf("quantile %v is %v, want %v", p, got, want)
		}
	}
}

func TestDocsShowEverything(t *testing.T) {
	t.Parallel()
	k, err := loadContract()
	if err != nil {
		t.Fatal(err)
	}
	page, err := writeDocs(k)
	if err != nil {
		t.Fatal(err)
	}
	var wanted []string
	for _, route := range k.operations {
		wanted = append(wanted, fmt.Sprintf("<code>%s %s</code>", route.Method, route.Path))
	}
	for _, one := range kinds {
		wanted = append(wanted, fmt.Sprintf(`id="%s"`, one.name))
	}
	for name := range k.spec.Components.Schemas {
		wanted = append(wanted, fmt.Sprintf(`id="shape-%s"`, name))
	}
	for _, text := range wanted {
		if !strings.Contains(string(page), text) {
			t.Errorf("the page lacks %s", text)
		}
	}
	if strings.Contains(string(page), "<script") || strings.Contains(string(page), "style=") {
		t.Error("the page has a script or a style in it, which its own policy forbids")
	}
}
