package api

import (
	"net/http"
	"strings"

	"github.com/klauspost/compress/gzhttp"
)

// packing compresses what is read as text where whoever asks takes gzip. What is
// compressed already passes as it is, and so do event streams, whose every event
// must go out at once.
func packing(h http.Handler) (http.Handler, error) {
	wrap, err := gzhttp.NewWrapper(
		gzhttp.EnableZstd(false), // tools that take it and cannot unpack it are about
		gzhttp.ContentTypes([]string{"application/json", "application/problem+json", "text/csv", "text/html", "text/plain"}),
	)
	if err != nil {
		return nil, err
	}
	packed := wrap(h)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if isStream(r.URL.Path) {
			h.ServeHTTP(w, r)
			return
		}
		packed.ServeHTTP(w, r)
	}), nil
}

// isStream tells whether an event stream is at a path.
func isStream(path string) bool { return strings.HasSuffix(path, "/events") }
