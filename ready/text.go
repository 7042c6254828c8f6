// Package ready keeps what is sent again and again as it is: a page's files and
// published results, plain and compressed once.
package ready

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// A Text is bytes that do not change, ready to be sent. It is safe for
// concurrent use.
type Text struct {
	kind   string // its media type
	tag    string // names its content
	plain  []byte
	packed []byte // gzip; nil where that saves nothing
}

// New makes a text of a media type whose content a tag names: other bytes have
// another tag. The bytes are kept, not copied.
func New(kind, tag string, plain []byte) *Text {
	return &Text{kind: kind, tag: tag, plain: plain, packed: pack(plain)}
}

// Plain is the bytes as they are, not to be changed.
func (t *Text) Plain() []byte { return t.plain }

// Size is how many bytes are kept of it.
func (t *Text) Size() int { return len(t.plain) + len(t.packed) }

// pack compresses; nil where it saves less than a tenth, as with fonts.
func pack(plain []byte) []byte {
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return nil
	}
	if _, err := w.Write(plain); err != nil || w.Close() != nil || packed.Len() > len(plain)*9/10 {
		return nil
	}
	return packed.Bytes()
}

// Serve answers a request, or the part of it that is asked for, compressed where
// whoever asks takes that, and 304 where they have it. Other headers are the
// caller's.
func (t *Text) Serve(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Type", t.kind)
	h.Set("ETag", `"`+t.tag+`"`)
	content := t.plain
	if t.packed != nil {
		h.Set("Vary", "Accept-Encoding")
		if TakesGzip(r) {
			h.Set("Content-Encoding", "gzip")
			h.Set("ETag", `"`+t.tag+`-gzip"`)
			content = t.packed
		}
	}
	if isWhole(r) {
		h.Set("Content-Length", strconv.Itoa(len(content)))
		_, _ = w.Write(content) // whoever asked has gone
		return
	}
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(content))
}

// isWhole tells that all of a text is asked for, which then goes out in one piece.
func isWhole(r *http.Request) bool {
	h := r.Header
	return r.Method == http.MethodGet && h.Get("Range") == "" && h.Get("If-None-Match") == "" && h.Get("If-Match") == ""
}

// TakesGzip tells by Accept-Encoding whether whoever asks takes gzip; a weight of
// 0 is a refusal.
func TakesGzip(r *http.Request) bool {
	for _, one := range strings.Split(r.Header.Get("Accept-Encoding"), ",") {
		coding, weight, _ := strings.Cut(strings.TrimSpace(one), ";")
		if coding == "gzip" {
			return strings.Trim(strings.TrimSpace(weight), "q=0.") != "" || weight == ""
		}
	}
	return false
}
