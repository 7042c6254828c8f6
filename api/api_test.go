package api_test

import (
	"context"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
)

func TestMain(m *testing.M) {
	if url := os.Getenv(followsAt); url != "" {
		if err := followAt(url); err != nil {
			slog.Error("following", "err", err)
			os.Exit(1)
		}
		return
	}
	slog.SetDefault(slog.New(slog.NewTextHandler(logged, &slog.HandlerOptions{Level: slog.LevelDebug})))
	dbtest.Main(m)
}

// logged is all that the services of these tests log.
var logged = &journal{}

type journal struct {
	mu   sync.Mutex
	text strings.Builder
}

func (j *journal) Write(p []byte) (int, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.Write(p)
}

func (j *journal) String() string {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.String()
}

const token = "a token for these tests only"

// A service runs for one test.
type service struct {
	t        testing.TB
	db       *db.DB
	database string // its URL, where a test meddles with it
	url      string
	client   *http.Client
}

func start(t testing.TB) *service {
	t.Helper()
	address := dbtest.URL(t)
	d, err := db.Open(t.Context(), address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.Close)
	s := startOn(t, d)
	s.database = address
	return s
}

func startOn(t testing.TB, d *db.DB) *service {
	t.Helper()
	s, err := api.New(api.Options{DB: d, OfficeToken: token, Hosts: []string{"Contest.Example.org"}, Signer: signer})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.WithoutCancel(t.Context()))
	followed := make(chan struct{})
	go func() { defer close(followed); s.Follow(ctx) }()
	server := httptest.NewServer(s)
	t.Cleanup(func() { stop(); <-followed; server.Close() })
	return &service{t: t, db: d, url: server.URL, client: http.DefaultClient}
}

// A request is sent as anyone, with what is set. One with a session comes from
// a page of the service itself.
type request struct {
	method, path, token, session, body, contentType string

	header map[string]string
}

type answer struct {
	status int
	header http.Header
	body   string
}

func (s *service) send(r request) answer {
	s.t.Helper()
	response := s.do(r)
	defer response.Body.Close()
	body, err := io.ReadAll(response.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return answer{response.StatusCode, response.Header, string(body)}
}

// do sends a request and reads the head of its answer.
func (s *service) do(r request) *http.Response {
	s.t.Helper()
	if r.method == "" {
		r.method = http.MethodGet
	}
	asked, err := http.NewRequestWithContext(s.t.Context(), r.method, s.url+r.path, strings.NewReader(r.body))
	if err != nil {
		s.t.Fatal(err)
	}
	if r.session != "" {
		asked.AddCookie(&http.Cookie{Name: "halfpoint", Value: r.session})
		asked.Header.Set("Origin", s.url)
	}
	for name, value := range r.header {
		asked.Header.Set(name, value)
	}
	if host := r.header["Host"]; host != "" {
		asked.Host = host
	}
	if r.token != "" {
		asked.Header.Set("Authorization", "Bearer "+r.token)
	}
	if r.contentType != "" {
		asked.Header.Set("Content-Type", r.contentType)
	}
	response, err := s.client.Do(asked)
	if err != nil {
		s.t.Fatal(err)
	}
	return response
}

// get reads a path as the office.
func get[T any](s *service, path string) (value T) {
	s.t.Helper()
	return decoded[T](s, request{path: path, token: token})
}

// decoded is what a request is answered.
func decoded[T any](s *service, r request) (value T) {
	s.t.Helper()
	a := s.send(r)
	if a.status != http.StatusOK {
		s.t.Fatalf("%s %s: %d %s", r.method, r.path, a.status, a.body)
	}
	if err := json.Unmarshal([]byte(a.body), &value); err != nil {
		s.t.Fatal(err)
	}
	return value
}

// bundleOf is one of the invented contests of testdata/cases.
func bundleOf(t testing.TB, name string) *scoring.Bundle {
	t.Helper()
	text, err := os.ReadFile("../testdata/cases/" + name + ".bundle.json")
	if err != nil {
		t.Fatal(err)
	}
	b, err := scoring.DecodeBundle(text)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func (s *service) imports(b *scoring.Bundle, opened string) uuid.UUID {
	s.t.Helper()
	id, err := s.db.Import(s.t.Context(), b, db.ImportOptions{Opened: opened})
	if err != nil {
		s.t.Fatal(err)
	}
	return id
}
