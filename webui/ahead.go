package webui

import (
	"encoding/json"
	"io/fs"
	"path"
	"regexp"
	"strings"
)

// Ahead is what a browser needs beside the first script to show the addresses
// of one form. The build writes it by src/ahead.ts.
type ahead struct {
	Path  string   // /contests/{id}/office
	Files []string // scripts and styles
	Reads []string // below /api/v1

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

// linksFor tells what the page at a path needs, so that a browser asks for all of
// it at once; nothing where that is not known.
func linksFor(list []ahead, path string) string {
	for i := range list {
		if found := list[i].form.FindStringSubmatch(path); found != nil {
			return list[i].links(append(found, "")[1])
		}
	}
	return ""
}

// links are written as a browser will ask for them, or it would ask twice.
func (a *ahead) links(id string) string {
	var links []string
	for _, name := range a.Files {
		links = append(links, "</"+name+">; rel="+relationOf(name))
	}
	for _, read := range a.Reads {
		read = strings.ReplaceAll(read, "{id}", id)
		links = append(links, "</api/v1/"+read+">; rel=preload; as=fetch; crossorigin")
	}
	return strings.Join(links, ", ")
}

// relationOf tells how a file is asked for: every script that the build made is a module.
func relationOf(name string) string {
	switch {
	case path.Ext(name) == ".css":
		return "preload; as=style; crossorigin"
	case strings.HasPrefix(name, "assets/"):
		return "modulepreload"
	}
	return "preload; as=script"
}
