package webui

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"mime"
	"path"
	"sync"

	"halfpoint/ready"
)

// kinds are the media types that a machine's own table may not know.
var kinds = map[string]string{
	".js":          "text/javascript; charset=utf-8",
	".svg":         "image/svg+xml",
	".webmanifest": "application/manifest+json",
	".woff2":       "font/woff2",
}

func read(files fs.FS, name string) (*ready.Text, error) {
	plain, err := fs.ReadFile(files, path.Join("dist", name))
	if err != nil {
		return nil, fmt.Errorf("reading a page's file: %w", err)
	}
	sum := sha256.Sum256(plain)
	return ready.New(kindOf(name), hex.EncodeToString(sum[:12]), plain), nil
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

// keep holds each file after its first reading. Only files that exist are kept,
// so it cannot grow by what is asked for.
type keep struct {
	mu    sync.Mutex
	files map[string]*ready.Text
}

func (k *keep) file(files fs.FS, name string) (*ready.Text, error) {
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
		k.files = map[string]*ready.Text{}
	}
	k.files[name] = f
	return f, nil
}
