package api

import (
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
	for id := range limits {
		if !known[id] {
			t.Errorf("%s has a limit and is no operation", id)
		}
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
	l := newLimiter()
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
	s := &server{}
	for from, want := range map[string]string{
		"192.0.2.7:99": kindInsecure.name,
		"127.0.0.1:99": kindUnknownToken.name,
		"[::1]:99":     kindUnknownToken.name,
	} {
		r := httptest.NewRequest(http.MethodGet, "http://contest.example.org/", nil)
		r.RemoteAddr = from
		r.Header.Set("Authorization", "Bearer x")
		if _, err := s.roleOf(r); failureOf(err).kind.name != want {
			t.Errorf("from %s: %v, want %s", from, err, want)
		}
	}
	r := httptest.NewRequest(http.MethodGet, "https://contest.example.org/", nil)
	r.RemoteAddr = "192.0.2.7:99"
	r.Header.Set("Authorization", "Bearer x")
	if _, err := s.roleOf(r); failureOf(err).kind != kindUnknownToken {
		t.Errorf("over TLS: %v", err)
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
		h.raise(db.Head{Contest: contest, Version: version})
	}
	if head := <-slow.heads; head.Version != 99 {
		t.Errorf("the slow watcher got version %d, want 99", head.Version)
	}
	select {
	case head := <-slow.heads:
		t.Errorf("there was a queue: %v", head)
	case head := <-other.heads:
		t.Errorf("the watcher of another contest got %v", head)
	default:
	}
	h.drop(other)
	h.close()
	if _, on := <-slow.heads; on {
		t.Error("the watch went on after the end")
	}
	if _, on := <-h.watch(contest).heads; on {
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
