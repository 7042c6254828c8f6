package api

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"sync"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/document"
	"halfpoint/scoring/figure"
)

// rules are what a sequence is held against; nil where there are none.
type rules struct {
	limits *figure.Limits
	table  figure.Table
}

// A ruleReader reads the rules of a category or a contest.
type ruleReader func(ctx context.Context, id uuid.UUID) (*db.RuleBook, error)

// readRules reads rules that the request may see.
func (s *server) readRules(ctx context.Context, id uuid.UUID, read ruleReader) (rules, error) {
	book, err := read(ctx, id)
	if err != nil {
		return rules{}, err
	}
	if err := mayRead(reachAt(ctx, book.Contest.ID), Opened(book.Contest.Opened)); err != nil {
		return rules{}, err
	}
	return s.rulesOf(ctx, &book.Rules)
}

// rulesOf reads rules as they are stored.
func (s *server) rulesOf(ctx context.Context, stored *db.Rules) (r rules, err error) {
	if stored.Limits != nil {
		if r.limits, err = figure.ParseLimits(stored.Limits); err != nil {
			return r, fmt.Errorf("stored limits: %s", err) //nolint:errorlint // nobody sent these complaints
		}
	}
	r.table, err = s.tables.get(ctx, s.db, stored)
	return r, err
}

// maxTables is how many tables of numbers are kept.
const maxTables = 8

// tables keeps tables of numbers, read, by their digests.
type tables struct {
	mu   sync.Mutex
	kept map[string]figure.Table
}

func newTables() *tables { return &tables{kept: map[string]figure.Table{}} }

// get gives the table of a contest, nil where it has none.
func (t *tables) get(ctx context.Context, d *db.DB, stored *db.Rules) (figure.Table, error) {
	if stored.Digest == "" {
		return nil, nil
	}
	t.mu.Lock()
	table, ok := t.kept[stored.Digest]
	t.mu.Unlock()
	if ok {
		return table, nil
	}
	read, err := d.Numbers(ctx, stored.Contest)
	if err != nil || read.Digest == "" {
		return nil, err
	}
	if table, err = figure.ReadTable(read.Body); err != nil {
		return nil, fmt.Errorf("a stored table: %s", err) //nolint:errorlint // nobody sent these complaints
	}
	t.keep(read.Digest, table)
	return table, nil
}

func (t *tables) keep(digest string, table figure.Table) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if len(t.kept) >= maxTables {
		clear(t.kept)
	}
	t.kept[digest] = table
}

// GetLimits tells what the sequences of a category must keep.
func (s *server) GetLimits(ctx context.Context, request GetLimitsRequestObject) (GetLimitsResponseObject, error) {
	limits, err := s.limitsOf(ctx, request.CategoryID)
	return GetLimits200JSONResponse(limits), err
}

func (s *server) limitsOf(ctx context.Context, category uuid.UUID) (CategoryLimits, error) {
	book, err := s.db.CategoryRules(ctx, category)
	if err != nil {
		return CategoryLimits{}, err
	}
	c := CategoryLimits{
		Head: headOf(book.Head), Contest: named(book.Contest.ID, book.Contest.Name),
		Category: named(book.Category.ID, book.Category.Name), Note: book.Note,
	}
	c.Limits = orNone(book.Limits)
	return c, mayRead(reachOf(ctx), Opened(book.Contest.Opened))
}

// PutLimits says what the sequences of a category must keep.
func (s *server) PutLimits(ctx context.Context, request PutLimitsRequestObject) (PutLimitsResponseObject, error) {
	change, err := readLimitsChange(*request.Body)
	if err != nil {
		return nil, err
	}
	book, err := s.db.CategoryRules(ctx, request.CategoryID)
	if err != nil {
		return nil, err
	}
	if err := s.db.SetLimits(ctx, book.Contest.ID, request.CategoryID, change.limits, change.note, whoOf(ctx).name()); err != nil {
		return nil, err
	}
	limits, err := s.limitsOf(ctx, request.CategoryID)
	return PutLimits200JSONResponse(limits), err
}

// limitsChange is what the office sends; nil limits for none.
type limitsChange struct {
	limits []byte
	note   string
}

func readLimitsChange(text []byte) (change limitsChange, err error) {
	var report document.Report
	v, ok := document.Parse(text, &report)
	if !ok {
		return change, report.Err()
	}
	o, _ := v.Object("limits", "note")
	if limits, there := o.Optional("limits"); there && !limits.IsNull() {
		figure.ReadLimits(limits)
		change.limits = limits.JSON()
	}
	if note, there := o.Optional("note"); there {
		change.note, _ = note.Text()
		db.NoteBound.Check(&report, note.Place(), change.note)
	}
	return change, report.Err()
}

// GetNumbers gives the organiser's table as it was sent.
func (s *server) GetNumbers(ctx context.Context, request GetNumbersRequestObject) (GetNumbersResponseObject, error) {
	table, err := s.db.Numbers(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	if table.Digest == "" {
		table.Body = []byte("number,k\n")
	}
	return GetNumbers200TextCsvResponse{Body: bytes.NewReader(table.Body), ContentLength: int64(len(table.Body))}, nil
}

// PutNumbers puts a table in place of the organiser's.
func (s *server) PutNumbers(ctx context.Context, request PutNumbersRequestObject) (PutNumbersResponseObject, error) {
	text, err := io.ReadAll(request.Body)
	if err != nil {
		return nil, fmt.Errorf("reading a table: %w", err)
	}
	table, err := figure.ReadTable(text)
	if err != nil {
		return nil, tableFailure(err)
	}
	if err := s.db.SetNumbers(ctx, request.ContestID, text, len(table), whoOf(ctx).name()); err != nil {
		return nil, err
	}
	head, err := s.db.Head(ctx, request.ContestID)
	return PutNumbers200JSONResponse{Head: headOf(head), Numbers: len(table)}, err
}

// tableFailure names the row and the column of everything wrong with a table.
func tableFailure(err error) error {
	complaints, ok := errors.AsType[document.Complaints](err)
	if !ok {
		return err
	}
	f := &failure{kind: kindInvalid}
	for _, c := range complaints {
		f.complaints = append(f.complaints, Complaint{Pointer: c.Place, Message: c.String()})
	}
	return f
}
