package api

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"unicode"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/document"
	"halfpoint/scoring/table"
)

// GetPilotTable writes pilots and entries as a table.
func (s *server) GetPilotTable(ctx context.Context, request GetPilotTableRequestObject) (GetPilotTableResponseObject, error) {
	setup, err := s.db.Setup(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	return GetPilotTable200TextCsvResponse{tableText("pilots", pilotRows(setup))}, nil
}

// ReadPilotTable says what a table of pilots and entries comes to.
func (s *server) ReadPilotTable(ctx context.Context, request ReadPilotTableRequestObject) (ReadPilotTableResponseObject, error) {
	read, err := s.readTable(ctx, request.ContestID, request.Body, readPilots)
	return ReadPilotTable200JSONResponse(read), err
}

// GetOfficialTable writes the officials as a table.
func (s *server) GetOfficialTable(ctx context.Context, request GetOfficialTableRequestObject) (GetOfficialTableResponseObject, error) {
	setup, err := s.db.Setup(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	return GetOfficialTable200TextCsvResponse{tableText("officials", officialRows(setup))}, nil
}

// ReadOfficialTable says what a table of officials comes to.
func (s *server) ReadOfficialTable(ctx context.Context, request ReadOfficialTableRequestObject) (ReadOfficialTableResponseObject, error) {
	read, err := s.readTable(ctx, request.ContestID, request.Body, readOfficials)
	return ReadOfficialTable200JSONResponse(read), err
}

// readTable reads a table as it lies over what is set up of a contest.
func (s *server) readTable(ctx context.Context, contest uuid.UUID, body io.Reader, read func([]byte, *db.Setup) (SetupTable, error)) (SetupTable, error) {
	setup, err := s.db.Setup(ctx, contest)
	if err != nil {
		return SetupTable{}, err
	}
	text, err := io.ReadAll(body)
	if err != nil {
		return SetupTable{}, fmt.Errorf("reading a table: %w", err)
	}
	return read(text, setup)
}

func tableText(name string, rows [][]string) TableTextCsvResponse {
	text, disposition := table.Write(rows), `attachment; filename="`+name+`.csv"`
	return TableTextCsvResponse{
		Body: bytes.NewReader(text), ContentLength: int64(len(text)), Headers: TableResponseHeaders{ContentDisposition: &disposition},
	}
}

// A roster reads a table of people. It finds those that there are by code or
// name, and gives new ones a code.
type roster struct {
	report document.Report
	rows   int // of the table, those below the titles
	codes  map[string]uuid.UUID
	names  map[string][]uuid.UUID // in lower case
	lines  map[uuid.UUID]int      // the row of the table in which somebody stands first
}

func newRoster() *roster {
	return &roster{codes: map[string]uuid.UUID{}, names: map[string][]uuid.UUID{}, lines: map[uuid.UUID]int{}}
}

// enter has somebody found from now on.
func (g *roster) enter(id uuid.UUID, code, name string) {
	g.codes[code] = id
	folded := strings.ToLower(name)
	g.names[folded] = append(g.names[folded], id)
}

// maxRows is how many rows a table of people has at most: as many entries as one
// change of the set-up takes.
const maxRows = 2000

// read reads a table row by row. Of one that is too long nothing else is told.
func (g *roster) read(text []byte, titles []string, row func(table.Record)) {
	table.ReadSheet(text, &g.report, titles, func(r table.Record) {
		if g.rows++; g.rows <= maxRows {
			row(r)
		}
	})
	if g.rows > maxRows {
		g.report = document.Report{}
		g.report.Add("", "%d rows are more than the %d that are read at once", g.rows, maxRows)
	}
}

// A person is whom a row of a table is about.
type person struct {
	id    uuid.UUID
	code  string // of one that is new; else empty
	first int    // the row in which they stand first, where it is not this one
}

// find finds whom a row is about; ok is false, after a complaint, where it does
// not say so.
func (g *roster) find(r table.Record) (who person, ok bool) {
	code, name := r.Text("code"), r.Text("name")
	id, known := g.codes[code]
	switch same := g.names[strings.ToLower(name)]; {
	case known:
		return g.met(r, id), true
	case code == "" && len(same) == 1:
		return g.met(r, same[0]), true
	case name == "":
		r.Complain("name", "it is empty; give it a text")
		return who, false
	case code == "" && len(same) > 1:
		r.Complain("name", "%d have this name; say by the code which of them it is", len(same))
		return who, false
	case code == "":
		code = g.codeFor(name)
	}
	who = person{id: uuid.New(), code: code}
	g.lines[who.id] = r.Line
	g.enter(who.id, code, name)
	return who, true
}

func (g *roster) met(r table.Record, id uuid.UUID) person {
	first := g.lines[id]
	if first == 0 {
		g.lines[id] = r.Line
	}
	return person{id: id, first: first}
}

// rowFor is somebody's row in a list by position. Where there is none it is the
// one that is made, behind all others.
func rowFor[R any](rows *[]R, who person, made R, head func(*R) *db.RowHead) *R {
	position := 1
	for i := range *rows {
		there := head(&(*rows)[i])
		if there.ID == who.id {
			return &(*rows)[i]
		}
		position = there.Position + 1
	}
	*head(&made) = db.RowHead{ID: who.id, Position: position}
	*rows = append(*rows, made)
	return &(*rows)[len(*rows)-1]
}

// maxMadeCode is how many characters a code has that is made of a name.
const maxMadeCode = 40

// codeFor makes a code of a name that nobody else has.
func (g *roster) codeFor(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	made := []rune(strings.Join(words, "-"))
	made = made[:min(len(made), maxMadeCode)]
	code := string(made)
	for n := 2; ; n++ {
		if _, taken := g.codes[code]; !taken && code != "" {
			return code
		}
		code = fmt.Sprintf("%s-%d", string(made), n)
	}
}

// readText puts what stands below a title into a field. Another row about the same
// person must leave it out or say the same.
func readText(r table.Record, title string, to *string, b document.Bound, first int) {
	switch text := r.Text(title); {
	case !r.Has(title):
	case first == 0:
		r.Check(title, b, text)
		*to = text
	case text != "" && text != *to:
		r.Complain(title, "row %d says %q of the same person", first, *to)
	}
}

// err is what was complained of, at rows and columns.
func (g *roster) err() error {
	if err := g.report.Err(); err != nil {
		return tableFailure(err)
	}
	return nil
}
