package webui

import (
	"bytes"
	"context"
	"encoding/json"
	"html"
	"io"
	"net/http"
	"net/url"
	"sync"
	"time"

	"github.com/klauspost/compress/gzip"

	"halfpoint/ready"
)

// patience is how long a page waits for what it carries. What takes longer the
// page asks for by itself, and says meanwhile that it does.
const patience = time.Second

// serveCarrying sends the first page with the service's answers to what it will
// ask first: a browser then has all it needs to show the page when it has its
// scripts, and draws it once. The page's beginning goes out before the answers
// are there, so that the scripts are fetched meanwhile. A standing is drawn before
// what the scripts read of it. The page is not kept anywhere: it is one reader's,
// at one time.
func (s *site) serveCarrying(w http.ResponseWriter, r *http.Request, page []byte, reads []string, drawn string) {
	beginning, end, _ := bytes.Cut(page, []byte("</body>"))
	w.Header().Set("Content-Type", kindOf("index.html"))
	w.Header().Set("Cache-Control", "no-store")
	out := begin(w, r)
	defer out.end()
	out.send(beginning)
	answers := s.answers(r, reads)
	if drawing := s.pen.draw(r, drawn, answers[0]); drawing != nil {
		out.send(drawing)
	}
	for i, answer := range answers {
		if answer != nil {
			// In JSON nothing that HTML knows remains, so it ends nowhere but at its end.
			out.send([]byte(`<script type="application/json" data-read="`+html.EscapeString(reads[i])+`">`), answer, []byte("</script>"))
		}
	}
	out.send([]byte("</body>"), end)
}

// A stream is a page that goes out piece by piece. A browser that has gone is not
// told.
type stream struct {
	w      http.ResponseWriter
	packed *gzip.Writer // nil where the browser takes it plain only
}

func begin(w http.ResponseWriter, r *http.Request) *stream {
	if !ready.TakesGzip(r) {
		return &stream{w: w}
	}
	w.Header().Set("Content-Encoding", "gzip")
	return &stream{w: w, packed: gzip.NewWriter(w)}
}

// send sends a piece at once.
func (s *stream) send(texts ...[]byte) {
	out := io.Writer(s.w)
	if s.packed != nil {
		out = s.packed
	}
	for _, text := range texts {
		_, _ = out.Write(text)
	}
	if s.packed != nil {
		_ = s.packed.Flush()
	}
	_ = http.NewResponseController(s.w).Flush()
}

func (s *stream) end() {
	if s.packed != nil {
		_ = s.packed.Close()
	}
}

// answers asks the service for each, all at once; nil for what it does not give
// whoever asks for the page, or not in time.
func (s *site) answers(r *http.Request, reads []string) [][]byte {
	ctx, cancel := context.WithTimeout(r.Context(), patience)
	defer cancel()
	answers := make([][]byte, len(reads))
	var asked sync.WaitGroup
	for i, target := range reads {
		asked.Go(func() { answers[i] = s.answer(r.Clone(ctx), target) })
	}
	asked.Wait()
	return answers
}

// answer asks the service as whoever asks for the page would.
func (s *site) answer(r *http.Request, target string) []byte {
	at, err := url.ParseRequestURI(target)
	if err != nil {
		return nil
	}
	r.URL, r.RequestURI, r.Pattern, r.Body = at, target, "", http.NoBody
	for _, name := range []string{"Accept-Encoding", "If-Match", "If-None-Match", "If-Modified-Since", "Range"} {
		r.Header.Del(name)
	}
	r.Header.Set("Accept", "application/json")
	a := &inMemory{header: http.Header{}}
	s.service.ServeHTTP(a, r)
	if a.status != http.StatusOK {
		return nil
	}
	var text bytes.Buffer
	json.HTMLEscape(&text, a.body.Bytes())
	return text.Bytes()
}

// inMemory takes an answer of the service.
type inMemory struct {
	header http.Header
	status int
	body   bytes.Buffer
}

func (a *inMemory) Header() http.Header { return a.header }

func (a *inMemory) WriteHeader(status int) {
	if a.status == 0 {
		a.status = status
	}
}

func (a *inMemory) Write(text []byte) (int, error) {
	a.WriteHeader(http.StatusOK)
	return a.body.Write(text)
}
