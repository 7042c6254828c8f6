package api

import (
	"context"
	"fmt"
	"runtime/debug"
	"sync"

	"github.com/google/uuid"
	"golang.org/x/sync/singleflight"
)

// A store keeps values by ids, and only so many: another one takes the place of
// any.
type store[T any] struct {
	most   int
	mu     sync.Mutex
	values map[uuid.UUID]T
}

func newStore[T any](most int) *store[T] {
	return &store[T]{most: most, values: map[uuid.UUID]T{}}
}

func (s *store[T]) look(id uuid.UUID) (T, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	value, ok := s.values[id]
	return value, ok
}

func (s *store[T]) keep(id uuid.UUID, value T) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for other := range s.values {
		if len(s.values) < s.most {
			break
		}
		delete(s.values, other)
	}
	s.values[id] = value
}

// A maker makes values and keeps them. Each is made once for all who wait for it.
type maker[T any] struct {
	*store[T]
	make   func(context.Context, uuid.UUID) (T, error)
	making singleflight.Group
}

func newMaker[T any](most int, make func(context.Context, uuid.UUID) (T, error)) *maker[T] {
	return &maker[T]{store: newStore[T](most), make: make}
}

// get gives the value of an id that never changes.
func (m *maker[T]) get(ctx context.Context, id uuid.UUID) (T, error) {
	if value, ok := m.look(id); ok {
		return value, nil
	}
	return m.fresh(ctx, id)
}

// fresh makes the value, or waits for whoever is making it. A request that is
// called off does not take it from the others.
func (m *maker[T]) fresh(ctx context.Context, id uuid.UUID) (value T, err error) {
	made := m.making.DoChan(id.String(), func() (any, error) { return m.makeAndKeep(id) })
	select {
	case <-ctx.Done():
		return value, context.Cause(ctx)
	case r := <-made:
		return r.Val.(T), r.Err
	}
}

// makeAndKeep has a time of its own, and turns a panic, which would end the
// process here, into an error.
func (m *maker[T]) makeAndKeep(id uuid.UUID) (value T, err error) {
	defer func() {
		if found := recover(); found != nil {
			err = fmt.Errorf("panic: %v\n%s", found, debug.Stack())
		}
	}()
	ctx, cancel := context.WithTimeout(context.Background(), requestTime)
	defer cancel()
	if value, err = m.make(ctx, id); err == nil {
		m.keep(id, value)
	}
	return value, err
}
