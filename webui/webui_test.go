package webui

import (
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
)

var page = "<!doctype html>" + strings.Repeat("<p>one page</p>", 50)

func testSite() *site {
	return &site{files: fstest.MapFS{
		"dist/index.html":           {Data: []byte(page)},
		"dist/theme.js":             {Data: []byte("//")},
		"dist/app.webmanifest":      {Data: []byte("{}")},
		"dist/assets/a-1234.js":     {Data: []byte(strings.Repeat("let a;", 200))},
		"dist/assets/f-1234.woff2":  {Data: []byte{1, 9, 4}},
		"dist/.gitkeep":             {},
		"dist/assets/nested/x.html": {Data: []byte("x")},
	}}
}

func ask(t *testing.T, h http.Handler, method, target string, header ...string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(method, target, nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func TestPaths(t *testing.T) {
	const forGood, askAgain = "public, max-age=31536000, immutable", "no-cache"
	for _, c := range []struct {
		path        string
		status      int
		kind, cache string
	}{
		{"/", 200, "text/html; charset=utf-8", askAgain},
		{"/programmes/0190-ab", 200, "text/html; charset=utf-8", askAgain},
		{"/programmes/0190-ab/", 200, "text/html; charset=utf-8", askAgain},
		{"/index.html", 200, "text/html; charset=utf-8", askAgain},
		{"/theme.js", 200, "text/javascript; charset=utf-8", askAgain},
		{"/app.webmanifest", 200, "application/manifest+json", askAgain},
		{"/assets/a-1234.js", 200, "text/javascript; charset=utf-8", forGood},
		{"/assets/f-1234.woff2", 200, "font/woff2", forGood},
		{"/assets/old-0000.js", 404, "text/plain; charset=utf-8", ""},
		{"/assets/old", 404, "text/plain; charset=utf-8", ""},
		{"/assets", 200, "text/html; charset=utf-8", askAgain},
		{"/favicon.ico", 404, "text/plain; charset=utf-8", ""},
		{"/.gitkeep", 404, "text/plain; charset=utf-8", ""},
		{"/../webui.go", 404, "text/plain; charset=utf-8", ""},
	} {
		t.Run(c.path, func(t *testing.T) {
			got := ask(t, testSite(), http.MethodGet, "http://x"+c.path)
			if got.StatusCode != c.status || got.Header.Get("Content-Type") != c.kind || got.Header.Get("Cache-Control") != c.cache {
				t.Errorf("%d %v, want %d %s %s", got.StatusCode, got.Header, c.status, c.kind, c.cache)
			}
		})
	}
}

func TestCompressed(t *testing.T) {
	for _, c := range []struct{ path, accept, want string }{
		{"/", "br, gzip", "gzip"},
		{"/", "gzip;q=0.5", "gzip"},
		{"/", "gzip;q=0", ""},
		{"/", "gzip; q=0.0", ""},
		{"/", "", ""},
		{"/assets/f-1234.woff2", "gzip", ""},
	} {
		got := ask(t, testSite(), http.MethodGet, c.path, "Accept-Encoding", c.accept)
		if coding := got.Header.Get("Content-Encoding"); coding != c.want {
			t.Errorf("%s for %q is %q, want %q", c.path, c.accept, coding, c.want)
		}
		if c.want == "gzip" && text(t, got.Body) != page {
			t.Errorf("%s for %q does not unpack to the page", c.path, c.accept)
		}
	}
}

func text(t *testing.T, packed io.Reader) string {
	t.Helper()
	r, err := gzip.NewReader(packed)
	if err != nil {
		t.Fatal(err)
	}
	plain, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(plain)
}

func TestAskedAgain(t *testing.T) {
	s := testSite()
	tag := ask(t, s, http.MethodGet, "/").Header.Get("ETag")
	if got := ask(t, s, http.MethodGet, "/", "If-None-Match", tag); got.StatusCode != http.StatusNotModified {
		t.Errorf("the same page again is %d, want 304", got.StatusCode)
	}
	packed := ask(t, s, http.MethodGet, "/", "Accept-Encoding", "gzip").Header.Get("ETag")
	if packed == tag {
		t.Errorf("the compressed page has the plain one's tag %s", tag)
	}
}

func TestAhead(t *testing.T) {
	s := testSite()
	s.ahead = readAhead(fstest.MapFS{"dist/ahead.json": {Data: []byte(`[
		{"path": "/", "files": [], "reads": ["all?limit=2"]},
		{"path": "/things/{id}", "files": ["theme.js", "assets/a.js", "assets/a.css", "assets/f.woff2"], "reads": ["things/{id}", "things/{id}/parts"]},
		{"path": "/things/{id}/setup/{page}", "files": [], "reads": ["things/{id}/setup"]}
	]`)}})
	for path, want := range map[string]string{
		"/":                      "",
		"/things/0190-ab/":       "</theme.js>; rel=preload; as=script, </assets/a.js>; rel=modulepreload, </assets/a.css>; rel=preload; as=style; crossorigin, </assets/f.woff2>; rel=preload; as=font; crossorigin",
		"/things/7%3E;/":         "",
		"/things/7/elsewhere":    "",
		"/assets/a-1234.js":      "",
		"/things/7/setup/rows/8": "",
	} {
		if got := ask(t, s, http.MethodGet, path).Header.Get("Link"); got != want {
			t.Errorf("%s leads to %q, want %q", path, got, want)
		}
	}
}

// carrying is a site whose pages carry what they read of a service.
func carrying(service http.HandlerFunc) *site {
	s := testSite()
	s.files.(fstest.MapFS)["dist/index.html"] = &fstest.MapFile{Data: []byte("<!doctype html><body></body></html>")}
	s.ahead = readAhead(fstest.MapFS{"dist/ahead.json": {Data: []byte(`[
		{"path": "/", "files": [], "reads": ["all?limit=2"]},
		{"path": "/things/{id}", "files": [], "reads": ["things/{id}", "things/{id}/parts"]}
	]`)}})
	s.service = service
	return s
}

// TestPageCarries asks as three readers would: one who may not read a part, one
// who is signed in, and one who takes gzip.
func TestPageCarries(t *testing.T) {
	s := carrying(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.Method != http.MethodGet || r.Header.Get("If-None-Match") != "" || r.Header.Get("Accept-Encoding") != "":
			t.Errorf("the service is asked %s %v", r.Method, r.Header)
		case r.URL.Path == "/api/v1/things/7/parts" || r.URL.Path == "/api/v1/me" && r.Header.Get("Cookie") != "c=1":
			w.WriteHeader(http.StatusForbidden)
		}
		_, _ = io.WriteString(w, `{"of":"`+r.URL.RequestURI()+`","name":"</script>&"}`)
	})
	one := func(read string) string {
		return `<script type="application/json" data-read="` + read + `">{"of":"` + read + `","name":"\u003c/script\u003e\u0026"}</script>`
	}
	for _, c := range []struct{ path, cookie, accept, want string }{
		{"/things/7", "", "", one("/api/v1/things/7")},
		{"/things/7/", "c=1", "", one("/api/v1/things/7") + one("/api/v1/me")},
		{"/", "", "gzip", one("/api/v1/all?limit=2")},
	} {
		got := ask(t, s, http.MethodGet, c.path, "Cookie", c.cookie, "Accept-Encoding", c.accept, "If-None-Match", `"x"`)
		body := io.Reader(got.Body)
		page := ""
		if got.Header.Get("Content-Encoding") == "gzip" {
			page = text(t, body)
		} else if all, err := io.ReadAll(body); err == nil {
			page = string(all)
		}
		if want := "<!doctype html><body>" + c.want + "</body></html>"; page != want {
			t.Errorf("%s is\n%s, want\n%s", c.path, page, want)
		}
		if got.StatusCode != http.StatusOK || got.Header.Get("Cache-Control") != "no-store" || got.Header.Get("ETag") != "" {
			t.Errorf("%s is %d, kept as %v", c.path, got.StatusCode, got.Header)
		}
	}
}

// TestPageGoesOutBeforeItsAnswers has a service that answers when the page's
// beginning has arrived, and one that never does.
func TestPageGoesOutBeforeItsAnswers(t *testing.T) {
	begun := make(chan struct{})
	s := carrying(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "/parts") {
			<-r.Context().Done()
			return
		}
		<-begun
		_, _ = io.WriteString(w, `"there"`)
	})
	server := httptest.NewServer(s)
	defer server.Close()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, server.URL+"/things/7", nil)
	if err != nil {
		t.Fatal(err)
	}
	got, err := server.Client().Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	beginning := make([]byte, len("<!doctype html>"))
	if _, err := io.ReadFull(got.Body, beginning); err != nil {
		t.Fatal(err)
	}
	close(begun)
	rest, err := io.ReadAll(got.Body)
	if want := `<body><script type="application/json" data-read="/api/v1/things/7">"there"</script></body></html>`; err != nil || string(rest) != want {
		t.Errorf("then comes %q, %v, want %q", rest, err, want)
	}
}

func TestOtherMethods(t *testing.T) {
	got := ask(t, testSite(), http.MethodPost, "/")
	if got.StatusCode != http.StatusMethodNotAllowed || got.Header.Get("Allow") != "GET, HEAD" {
		t.Errorf("POST is %d with Allow %q", got.StatusCode, got.Header.Get("Allow"))
	}
}

func TestNotBuilt(t *testing.T) {
	s := &site{files: fstest.MapFS{"dist/.gitkeep": {}}}
	got := ask(t, s, http.MethodGet, "/contests/c1")
	body, err := io.ReadAll(got.Body)
	if err != nil {
		t.Fatal(err)
	}
	if got.StatusCode != http.StatusServiceUnavailable || !strings.Contains(string(body), "npm run build") {
		t.Errorf("%d %s, want 503 and what to do", got.StatusCode, body)
	}
}

// TestEmbedded holds that the folder is embedded whether or not the pages are built.
func TestEmbedded(t *testing.T) {
	got := ask(t, Handler(nil), http.MethodGet, "/")
	if got.StatusCode != http.StatusOK && got.StatusCode != http.StatusServiceUnavailable {
		t.Errorf("/ is %d", got.StatusCode)
	}
}
