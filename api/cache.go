package api

import (
	"context"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
)

// maxKept is how many values a cache keeps.
const maxKept = 200

// A cache keeps what was read, and computed from it, at a version of a contest,
// for as long as it is the present one.
type cache[T any] struct {
	*maker[T]
	heads  func(ctx context.Context, contest uuid.UUID) (db.Head, error)
	headOf func(T) db.Head
}

func newCache[T any](h *heads, headOf func(T) db.Head, make func(context.Context, uuid.UUID) (T, error)) *cache[T] {
	return &cache[T]{maker: newMaker(maxKept, make), heads: h.get, headOf: headOf}
}

// get gives the value of an id at the present version, as far as this process
// has heard of it, or a later one.
func (c *cache[T]) get(ctx context.Context, id uuid.UUID) (T, error) {
	value, ok := c.look(id)
	if !ok {
		return c.fresh(ctx, id)
	}
	head, err := c.heads(ctx, c.headOf(value).Contest)
	if err != nil {
		return value, err
	}
	return c.at(ctx, id, head)
}

// at gives the value of an id at a version that was seen, or a later one.
func (c *cache[T]) at(ctx context.Context, id uuid.UUID, seen db.Head) (T, error) {
	value, ok := c.look(id)
	// What another had begun to make may be older than what was seen; what is
	// begun after that is not.
	for range 2 {
		if ok && !newer(seen, c.headOf(value)) {
			break
		}
		var err error
		if value, err = c.fresh(ctx, id); err != nil {
			return value, err
		}
		ok = true
	}
	return value, nil
}

// timed makes a maker tell how long it takes.
func timed[T any](m *metrics, of string, make func(context.Context, uuid.UUID) (T, error)) func(context.Context, uuid.UUID) (T, error) {
	return func(ctx context.Context, id uuid.UUID) (T, error) {
		start := time.Now()
		defer func() { m.computations.WithLabelValues(of).Observe(time.Since(start).Seconds()) }()
		return make(ctx, id)
	}
}
