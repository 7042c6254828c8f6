package webui

import (
	"encoding/json"
	"io/fs"
	"path"
	"regexp"
	"strings"
)

// servicePath is where the service's operations are.
const servicePath = "/api/v1/"

// Ahead is what a browser needs beside the first script to show the addresses
// of one form. The build writes it by src/ahead.ts.
type ahead struct {
	Path  string   // /contests/{id}/office
	Files []string // scripts and styles
	Reads []string // below /api/v1
	Drawn string   // what is drawn of the first read's answer, if anything

	form *regexp.Regexp
}

// anID is what an address may have in the place of an id, and nothing that could
// end a header's link.
const anID = `([0-9A-Za-z-]+)`

var inBraces = regexp.MustCompile(`\\{\w+\\}`)

// readAhead reads what the build wrote; nothing where there was no build. Pages
// come without it too, later.
func readAhead(files fs.FS) []ahead {
	text, err := fs.ReadFile(files, "dist/ahead.json")
	if err != nil {
		return nil
	}
	var list []ahead
	if err := json.Unmarshal(text, &list); err != nil {
		return nil
	}
	for i := range list {
		form := inBraces.ReplaceAllString(regexp.QuoteMeta(list[i].Path), anID)
		list[i].form = regexp.MustCompile("^" + form + "$")
	}
	return list
}

// at finds what the page at a path needs, and the id in the path; nil where that
// is not known.
func at(list []ahead, path string) (page *ahead, id string) {
	for i := range list {
		if found := list[i].form.FindStringSubmatch(path); found != nil {
			return &list[i], append(found, "")[1]
		}
	}
	return nil, ""
}

// links name the files, written as a browser will ask for them, or it would ask twice.
func (a *ahead) links() string {
	var links []string
	for _, name := range a.Files {
		links = append(links, "</"+name+">; rel="+relationOf(name))
	}
	return strings.Join(links, ", ")
}

// reads are what the page of an id asks the service for.
func (a *ahead) reads(id string) []string {
	var reads []string
	for _, read := range a.Reads {
		reads = append(reads, servicePath+strings.ReplaceAll(read, "{id}", id))
	}
	return reads
}

// relationOf tells how a file is asked for: every script that the build made is a module.
func relationOf(name string) string {
	switch {
	case path.Ext(name) == ".css":
		return "preload; as=style; crossorigin"
	case path.Ext(name) == ".woff2":
		return "preload; as=font; crossorigin"
	case strings.HasPrefix(name, "assets/"):
		return "modulepreload"
	}
	return "preload; as=script"
}
