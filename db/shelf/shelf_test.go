package shelf_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/shelf"
	"halfpoint/scoring/publication"
)

// example is the worked publication, as if it were this one of a contest.
func example(t *testing.T, contest uuid.UUID, number int64) *db.StoredPublication {
	t.Helper()
	p, err := publication.ReadFolder(os.DirFS("../../testdata/publication"))
	if err != nil {
		t.Fatal(err)
	}
	return &db.StoredPublication{Info: db.PublicationInfo{ID: uuid.New(), Contest: contest, Number: number}, Publication: *p}
}

func open(t *testing.T, dir string) *shelf.Shelf {
	t.Helper()
	s, err := shelf.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func keep(t *testing.T, s *shelf.Shelf, all ...*db.StoredPublication) {
	t.Helper()
	for _, p := range all {
		if err := s.Keep(p); err != nil {
			t.Fatal(err)
		}
	}
}

func all(t *testing.T, s *shelf.Shelf) []shelf.Kept {
	t.Helper()
	kept, err := s.All()
	if err != nil {
		t.Fatal(err)
	}
	return kept
}

// TestWhatIsKeptComesByNumber keeps the later one first, and the earlier one
// again with something else in it.
func TestWhatIsKeptComesByNumber(t *testing.T) {
	t.Parallel()
	dir, contest := filepath.Join(t.TempDir(), "below", "publications"), uuid.New()
	first, last := example(t, contest, 9), example(t, contest, 10)
	keep(t, open(t, dir), last, first)
	other := *first
	other.Reason = "Another reason."
	keep(t, open(t, dir), &other)
	kept := all(t, open(t, dir))
	if len(kept) != 2 || kept[0].ID != first.Info.ID || kept[1].ID != last.Info.ID {
		t.Fatalf("%+v, want two: %s and %s", kept, first.Info.ID, last.Info.ID)
	}
	for i, k := range kept {
		if k.Err != nil || k.Reason != first.Reason || !bytes.Equal(k.Bundle, first.Bundle) || !bytes.Equal(k.Statement, first.Statement) {
			t.Errorf("%d came back as %+v", i, k)
		}
	}
}

// TestWhatCannotBeReadHidesNothing damages one, and lays something else beside.
func TestWhatCannotBeReadHidesNothing(t *testing.T) {
	t.Parallel()
	dir, contest := t.TempDir(), uuid.New()
	s := open(t, dir)
	keep(t, s, example(t, contest, 1), example(t, contest, 2))
	whole := all(t, s)
	if err := os.Truncate(whole[0].Path, 100); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"000003-mine.zip", ".new-half", "README"} {
		if err := os.WriteFile(filepath.Join(dir, contest.String(), name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	kept := all(t, s)
	if len(kept) != 3 || kept[0].Err == nil || kept[1].Err != nil || kept[1].ID != whole[1].ID || kept[2].Err == nil {
		t.Errorf("%+v, want a damaged one, a whole one and one without an id", kept)
	}
}
