// Package webui serves the browser's part of Halfpoint from the program itself.
//
// `npm run build` in this folder writes it to dist, which is embedded when the
// program is built.
package webui

import (
	"embed"
	"io/fs"
	"net/http"
	"path"
	"strings"
)

//go:embed all:dist
var built embed.FS

// Handler serves the files of the browser's part at their paths, and its first
// page at every path that belongs to the application: one without a file
// extension. Everything is read-only; other methods than GET and HEAD are
// refused with 405. It sets no content policy: that is the server's. A page
// carries what it reads first from the service, where there is one.
func Handler(service http.Handler) http.Handler {
	return &site{files: built, ahead: readAhead(built), pen: readWords(built), service: service}
}

const notBuilt = "The pages were not built into this program. Run `npm ci` and `npm run build` in webui, then build it again.\n"

// A site is a folder named dist, each file read and compressed once.
type site struct {
	files   fs.FS
	kept    keep
	ahead   []ahead
	pen     *pen         // nil for none
	service http.Handler // nil for none
}

func (s *site) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, http.StatusText(http.StatusMethodNotAllowed), http.StatusMethodNotAllowed)
		return
	}
	name := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/")
	var reads []string
	drawn := ""
	if isRoute(name) {
		if page, id := at(s.ahead, "/"+name); page != nil {
			w.Header().Set("Link", page.links())
			reads, drawn = s.reads(r, page, id), page.Drawn
		}
		name = "index.html"
	}
	f, err := s.kept.file(s.files, name)
	switch {
	case strings.HasPrefix(path.Base(name), "."): // what only keeps the folder
		http.NotFound(w, r)
	case err == nil && len(reads) > 0:
		s.serveCarrying(w, r, f.Plain(), reads, drawn)
	case err == nil:
		w.Header().Set("Cache-Control", cacheControl(name))
		f.Serve(w, r)
	case name == "index.html":
		http.Error(w, notBuilt, http.StatusServiceUnavailable)
	default:
		http.NotFound(w, r)
	}
}

// reads are what the page of an id is to carry for whoever asks: beside its own
// reads, who they are, where they may be somebody.
func (s *site) reads(r *http.Request, page *ahead, id string) []string {
	if s.service == nil || r.Method != http.MethodGet {
		return nil
	}
	reads := page.reads(id)
	if r.Header.Get("Cookie") != "" {
		reads = append(reads, servicePath+"me")
	}
	return reads
}

// isRoute tells whether a path is a page of the application's and not a file.
func isRoute(name string) bool { return path.Ext(name) == "" && !strings.HasPrefix(name, "assets/") }

// cacheControl lets a browser keep for good what carries a hash in its name.
// Everything else is asked for again each time, and answered 304 by its tag.
func cacheControl(name string) string {
	if strings.HasPrefix(name, "assets/") {
		return "public, max-age=31536000, immutable"
	}
	return "no-cache"
}
