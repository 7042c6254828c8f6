package webui

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strings"
	"sync"
	"time"
)

// A file is ready to be sent, plain and compressed.
type file struct {
	kind   string // its media type
	tag    string // a hash of its content
	plain  []byte
	packed []byte // gzip; nil where that saves nothing
}

// kinds are the media types that a machine's own table may not know.
var kinds = map[string]string{
	".js":          "text/javascript; charset=utf-8",
	".svg":         "image/svg+xml",
	".webmanifest": "application/manifest+json",
	".woff2":       "font/woff2",
}

func read(files fs.FS, name string) (*file, error) {
	plain, err := fs.ReadFile(files, path.Join("dist", name))
	if err != nil {
		return nil, fmt.Errorf("reading a page's file: %w", err)
	}
	sum := sha256.Sum256(plain)
	return &file{kind: kindOf(name), tag: hex.EncodeToString(sum[:12]), plain: plain, packed: pack(plain)}, nil
}

func kindOf(name string) string {
	ext := path.Ext(name)
	if kind, ok := kinds[ext]; ok {
		return kind
	}
	if kind := mime.TypeByExtension(ext); kind != "" {
		return kind
	}
	return "application/octet-stream"
}

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

func (f *file) serve(w http.ResponseWriter, r *http.Request, cache string) {
	h := w.Header()
	h.Set("Content-Type", f.kind)
	h.Set("Cache-Control", cache)
	h.Set("ETag", `"`+f.tag+`"`)
	content := f.plain
	if f.packed != nil {
		h.Set("Vary", "Accept-Encoding")
		if takesGzip(r) {
			h.Set("Content-Encoding", "gzip")
			h.Set("ETag", `"`+f.tag+`-gzip"`)
			content = f.packed
		}
	}
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(content))
}

// takesGzip reads Accept-Encoding; a weight of 0 is a refusal.
func takesGzip(r *http.Request) bool {
	for _, one := range strings.Split(r.Header.Get("Accept-Encoding"), ",") {
		coding, weight, _ := strings.Cut(strings.TrimSpace(one), ";")
		if coding == "gzip" {
			return strings.Trim(strings.TrimSpace(weight), "q=0.") != "" || weight == ""
		}
	}
	return false
}

// keep holds each file after its first reading. Only files that exist are kept,
// so it cannot grow by what is asked for.
type keep struct {
	mu    sync.Mutex
	files map[string]*file
}

func (k *keep) file(files fs.FS, name string) (*file, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if f, ok := k.files[name]; ok {
		return f, nil
	}
	f, err := read(files, name)
	if err != nil {
		return nil, err
	}
	if k.files == nil {
		k.files = map[string]*file{}
	}
	k.files[name] = f
	return f, nil
}
