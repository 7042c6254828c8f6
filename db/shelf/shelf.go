// Package shelf keeps publications in a folder beside the database: each is one
// file, on the disk before its publication is answered, and readable without
// the database. Where a database had to be restored from an older backup, they
// are what it takes back in.
package shelf

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/whole"
	"halfpoint/scoring/publication"
)

// A Shelf is a folder: in it one folder for each contest, in that a file for
// each publication, NUMBER-ID.zip. Many processes may share it.
type Shelf struct{ dir string }

// Open opens a shelf and makes its folder where there is none.
func Open(dir string) (*Shelf, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("the folder of publications: %w", err)
	}
	return &Shelf{dir}, nil
}

func (s *Shelf) pathOf(p *db.PublicationInfo) string {
	return filepath.Join(s.dir, p.Contest.String(), fmt.Sprintf("%06d-%s.zip", p.Number, p.ID))
}

// Keep puts a publication on the shelf; it returns when the disk has it. One that
// is there stays as it is.
func (s *Shelf) Keep(p *db.StoredPublication) error {
	path := s.pathOf(&p.Info)
	if _, err := os.Stat(path); err == nil {
		return nil
	}
	text, err := p.Archive()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("keeping publication %d: %w", p.Info.Number, err)
	}
	if err := whole.Write(path, text, 0o644); err != nil {
		return fmt.Errorf("keeping publication %d: %w", p.Info.Number, err)
	}
	return errors.Join(whole.Sync(filepath.Dir(path)), whole.Sync(s.dir))
}

// Fill puts every publication of a database on the shelf that is not there yet.
func (s *Shelf) Fill(ctx context.Context, d *db.DB) error {
	heads, err := d.Heads(ctx)
	if err != nil {
		return err
	}
	for _, head := range heads {
		list, err := d.Publications(ctx, db.Scope{Contest: head.Contest})
		if err != nil {
			return err
		}
		for i := range list.Publications {
			if err := s.fill(ctx, d, &list.Publications[i]); err != nil {
				return err
			}
		}
	}
	return nil
}

func (s *Shelf) fill(ctx context.Context, d *db.DB, info *db.PublicationInfo) error {
	if _, err := os.Stat(s.pathOf(info)); err == nil {
		return nil
	}
	p, err := d.Publication(ctx, info.ID)
	if err != nil {
		return err
	}
	return s.Keep(p)
}

// A Kept publication lies on the shelf.
type Kept struct {
	Path string
	ID   uuid.UUID
	*publication.Publication
	Err error // why it cannot be read; then there is no publication
}

// All reads everything on the shelf, contest by contest, by number.
func (s *Shelf) All() ([]Kept, error) {
	paths, err := fs.Glob(os.DirFS(s.dir), "*/*-*.zip")
	if err != nil {
		return nil, fmt.Errorf("reading the folder of publications: %w", err)
	}
	kept := make([]Kept, len(paths))
	for i, path := range paths {
		kept[i] = read(filepath.Join(s.dir, path))
	}
	return kept, nil
}

func read(path string) Kept {
	k := Kept{Path: path}
	_, id, _ := strings.Cut(strings.TrimSuffix(filepath.Base(path), ".zip"), "-")
	if k.ID, k.Err = uuid.Parse(id); k.Err != nil {
		return k
	}
	text, err := os.ReadFile(path)
	if err != nil {
		k.Err = err
		return k
	}
	k.Publication, k.Err = publication.ReadArchive(text)
	return k
}
