package api

import (
	"context"
	"fmt"
	"runtime/debug"
	"sync"

	"github.com/google/uuid"
	"golang.org/x/sync/singleflight"

	"halfpoint/db"
	"halfpoint/scoring/publication"
)

// A readPublication is what a publication says, and of a programme's what its
// sheets are told with.
type readPublication struct {
	*publication.Parsed
	scored *scoredProgramme // nil of a category's
}

func readPublished(d *db.DB) func(context.Context, uuid.UUID) (*readPublication, error) {
	return func(ctx context.Context, id uuid.UUID) (*readPublication, error) {
		stored, err := d.Publication(ctx, id)
		if err != nil {
			return nil, err
		}
		parsed, err := stored.Parse()
		if err != nil {
			return nil, err
		}
		read := &readPublication{Parsed: parsed}
		if stored.Info.Programme != nil {
			category, _ := parsed.Category()
			programme, result := parsed.Programme()
			read.scored = scored(tableOf(category, programme), result)
		}
		return read, nil
	}
}

// mostParsed is how many publications are kept as they were read: that of a
// large contest takes some megabytes.
const mostParsed = 24

// kept is what was made of things that never change, the most recent ones. Each
// is made once for all who wait for it.
type kept[T any] struct {
	make func(context.Context, uuid.UUID) (T, error)

	making singleflight.Group
	mu     sync.Mutex
	values map[uuid.UUID]T
}

func keep[T any](make func(context.Context, uuid.UUID) (T, error)) *kept[T] {
	return &kept[T]{make: make, values: map[uuid.UUID]T{}}
}

func (k *kept[T]) get(ctx context.Context, id uuid.UUID) (value T, err error) {
	k.mu.Lock()
	value, ok := k.values[id]
	k.mu.Unlock()
	if ok {
		return value, nil
	}
	made := k.making.DoChan(id.String(), func() (any, error) { return k.add(id) })
	select {
	case <-ctx.Done():
		return value, context.Cause(ctx)
	case r := <-made:
		return r.Val.(T), r.Err
	}
}

// add has a time of its own, and turns a panic, which would end the process here,
// into an error.
func (k *kept[T]) add(id uuid.UUID) (value T, err error) {
	defer func() {
		if found := recover(); found != nil {
			err = fmt.Errorf("panic: %v\n%s", found, debug.Stack())
		}
	}()
	ctx, cancel := context.WithTimeout(context.Background(), requestTime)
	defer cancel()
	if value, err = k.make(ctx, id); err != nil {
		return value, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	for other := range k.values {
		if len(k.values) < mostParsed {
			break
		}
		delete(k.values, other)
	}
	k.values[id] = value
	return value, nil
}
