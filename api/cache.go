package api

import (
	"context"
	"fmt"
	"runtime/debug"
	"sync"
	"time"

	"github.com/google/uuid"
	"golang.org/x/sync/singleflight"

	"halfpoint/db"
)

// maxKept is how many values a cache keeps.
const maxKept = 200

// A cache keeps what was read, and computed from it, at a version of a contest,
// for as long as it is the present one. Each value is made once for all who
// wait for it.
type cache[T any] struct {
	heads  func(ctx context.Context, contest uuid.UUID) (db.Head, error)
	make   func(ctx context.Context, id uuid.UUID) (T, error)
	headOf func(T) db.Head

	making singleflight.Group
	mu     sync.Mutex
	kept   map[uuid.UUID]T
}

func newCache[T any](h *heads, headOf func(T) db.Head, make func(context.Context, uuid.UUID) (T, error)) *cache[T] {
	return &cache[T]{heads: h.get, make: make, headOf: headOf, kept: map[uuid.UUID]T{}}
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

func (c *cache[T]) look(id uuid.UUID) (T, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	value, ok := c.kept[id]
	return value, ok
}

// fresh makes the value, or waits for whoever is making it. A request that is
// called off does not take it from the others.
func (c *cache[T]) fresh(ctx context.Context, id uuid.UUID) (value T, err error) {
	made := c.making.DoChan(id.String(), func() (any, error) { return c.makeAndKeep(id) })
	select {
	case <-ctx.Done():
		return value, context.Cause(ctx)
	case r := <-made:
		return r.Val.(T), r.Err
	}
}

// makeAndKeep has a time of its own, and turns a panic, which would end the
// process here, into an error.
func (c *cache[T]) makeAndKeep(id uuid.UUID) (value T, err error) {
	defer func() {
		if found := recover(); found != nil {
			err = fmt.Errorf("panic: %v\n%s", found, debug.Stack())
		}
	}()
	ctx, cancel := context.WithTimeout(context.Background(), requestTime)
	defer cancel()
	if value, err = c.make(ctx, id); err == nil {
		c.keep(id, value)
	}
	return value, err
}

func (c *cache[T]) keep(id uuid.UUID, value T) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for other := range c.kept {
		if len(c.kept) < maxKept {
			break
		}
		delete(c.kept, other)
	}
	c.kept[id] = value
}

// timed makes a maker tell how long it takes.
func timed[T any](m *metrics, of string, make func(context.Context, uuid.UUID) (T, error)) func(context.Context, uuid.UUID) (T, error) {
	return func(ctx context.Context, id uuid.UUID) (T, error) {
		start := time.Now()
		defer func() { m.computations.WithLabelValues(of).Observe(time.Since(start).Seconds()) }()
		return make(ctx, id)
	}
}
