package ready_test

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"halfpoint/ready"
)

var plain = strings.Repeat("the same again ", 100)

func ask(text *ready.Text, header ...string) *http.Response {
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	text.Serve(w, r)
	return w.Result()
}

func TestEachCodingHasItsTag(t *testing.T) {
	text := ready.New("text/plain", "a", []byte(plain))
	bare, packed := ask(text), ask(text, "Accept-Encoding", "gzip")
	if bare.Header.Get("ETag") != `"a"` || packed.Header.Get("ETag") != `"a-gzip"` || packed.Header.Get("Content-Encoding") != "gzip" {
		t.Errorf("%v and %v", bare.Header, packed.Header)
	}
	unpacked, err := gzip.NewReader(packed.Body)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := io.ReadAll(unpacked); err != nil || string(got) != plain {
		t.Errorf("%q, %v", got, err)
	}
	for coding, tag := range map[string]string{"": `"a"`, "gzip": `"a-gzip"`} {
		if a := ask(text, "Accept-Encoding", coding, "If-None-Match", tag); a.StatusCode != http.StatusNotModified {
			t.Errorf("%d where %s is there already", a.StatusCode, tag)
		}
	}
}

func TestWhatDoesNotShrinkIsSentPlain(t *testing.T) {
	noise, random := make([]byte, 1000), rand.New(rand.NewPCG(1, 2))
	for i := range noise {
		noise[i] = byte(random.Uint32())
	}
	a := ask(ready.New("font/woff2", "a", noise), "Accept-Encoding", "gzip")
	if got, err := io.ReadAll(a.Body); err != nil || !bytes.Equal(got, noise) || a.Header.Get("Content-Encoding") != "" {
		t.Errorf("%d bytes, %v, %v", len(got), a.Header, err)
	}
}

// TestShelfIsBounded makes room for two of three texts of the same size.
func TestShelfIsBounded(t *testing.T) {
	size := ready.New("", "", []byte(plain)).Size()
	shelf, made := ready.NewShelf[string](2*size), ""
	get := func(key string) {
		t.Helper()
		if _, err := shelf.Get(t.Context(), key, func(context.Context) (*ready.Text, error) {
			made += key
			return ready.New("", "", []byte(plain)), nil
		}); err != nil {
			t.Fatal(err)
		}
	}
	for _, key := range strings.Split("ababcaba", "") {
		get(key)
	}
	if made != "abcab" { // c pushes a out, which pushes b out, which pushes c out
		t.Errorf("made %q", made)
	}
}

func TestWhatFailsIsNotKept(t *testing.T) {
	shelf, fault := ready.NewShelf[int](1<<20), errors.New("away")
	answer := func(err error) error {
		_, err = shelf.Get(t.Context(), 1, func(context.Context) (*ready.Text, error) {
			return ready.New("", "", nil), err
		})
		return err
	}
	if err := answer(fault); !errors.Is(err, fault) {
		t.Errorf("%v", err)
	}
	if err := answer(nil); err != nil {
		t.Errorf("%v", err)
	}
}
