package main

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
)

// TestDemoIsServedAndGoesOn: the demo says where it is to be seen, serves the
// contest there to everyone, its judges go on grading, and it stops when told.
func TestDemoIsServedAndGoesOn(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	said := &watched{found: make(chan string, 1), pattern: regexp.MustCompile(`http://\S+/contests/(\S+)`)}
	ended := make(chan int)
	go func() {
		ended <- run(ctx, []string{"demo", "--listen", "127.0.0.1:0", "--speed", "0"}, strings.NewReader(""), said, io.Discard)
	}()
	var link string
	select {
	case link = <-said.found:
	case status := <-ended:
		t.Fatalf("the demo ended with %d before it was served", status)
	}
	events := strings.Replace(link, "/contests/", "/api/v1/contests/", 1) + "/events"
	if !changes(t, events, 3) {
		t.Error("nothing changes in the demo")
	}
	stop()
	if status := <-ended; status != 0 {
		t.Errorf("the demo ended with %d", status)
	}
	for _, role := range []string{"director", "office"} {
		way := regexp.MustCompile(`for the ` + role + ` +http://\S+/sign-in\?to=/office#\S{43}\n(?s:.*)` + role + `@demo\.example +\S{19}\n`)
		if !way.MatchString(said.text.String()) {
			t.Errorf("no link for the %s in:\n%s", role, said.text.String())
		}
	}
	if pairs := regexp.MustCompile(`http://\S+/pair#\S{22}\n`).FindAllString(said.text.String(), -1); len(pairs) != 3 {
		t.Errorf("%d links for tablets, want 3, in:\n%s", len(pairs), said.text.String())
	}
}

// TestDemoIsQuiet: a line for every request is there for whoever asks for it.
func TestDemoIsQuiet(t *testing.T) {
	for set, want := range map[string]string{"": "warn", "debug": "debug"} {
		c, err := readConfig(newDemoCommand(), func(name string) (string, bool) {
			return set, name == settingLog.env
		})
		if err != nil || c.log != want {
			t.Errorf("%s=%q: the demo logs %q, %v; want %q", settingLog.env, set, c.log, err, want)
		}
	}
}

// changes tells whether a stream of events brings as many different versions.
func changes(t *testing.T, url string, versions int) bool {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, url, nil)
	if err != nil {
		t.Fatal(err)
	}
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	seen, text := map[string]bool{}, &bytes.Buffer{}
	id := regexp.MustCompile(`(?m)^id: ?(\S+)$`)
	for piece := make([]byte, 4096); len(seen) < versions; {
		n, err := response.Body.Read(piece)
		if err != nil {
			return false
		}
		text.Write(piece[:n])
		for _, match := range id.FindAllStringSubmatch(text.String(), -1) {
			seen[match[1]] = true
		}
	}
	return true
}

// watched is an output in which something is waited for.
type watched struct {
	pattern *regexp.Regexp
	found   chan string

	mu   sync.Mutex
	text strings.Builder
}

func (w *watched) Write(p []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	before := w.pattern.FindString(w.text.String())
	w.text.Write(p)
	if match := w.pattern.FindString(w.text.String()); before == "" && match != "" {
		w.found <- match
	}
	return len(p), nil
}
