package ready

import (
	"container/list"
	"context"
	"fmt"
	"sync"

	"golang.org/x/sync/singleflight"
)

// A Shelf keeps texts by their keys, those that were asked for last, up to so
// many bytes. Each is made once for all who wait for it. It is safe for
// concurrent use.
type Shelf[K comparable] struct {
	most   int
	making singleflight.Group

	mu    sync.Mutex
	bytes int
	order *list.List // of kept[K], the one asked for last in front
	kept  map[K]*list.Element
}

type kept[K comparable] struct {
	key  K
	text *Text
}

// NewShelf makes a shelf for at most so many bytes.
func NewShelf[K comparable](most int) *Shelf[K] {
	return &Shelf[K]{most: most, order: list.New(), kept: map[K]*list.Element{}}
}

// Get gives the text of a key, made where it is not kept. A text is for good:
// whatever it depends on belongs into its key.
func (s *Shelf[K]) Get(ctx context.Context, key K, make func(context.Context) (*Text, error)) (*Text, error) {
	if text := s.look(key); text != nil {
		return text, nil
	}
	made, err, _ := s.making.Do(fmt.Sprint(key), func() (any, error) {
		text, err := make(context.WithoutCancel(ctx)) // others may wait for it
		if err == nil {
			s.keep(key, text)
		}
		return text, err
	})
	if err != nil {
		return nil, err
	}
	return made.(*Text), nil
}

func (s *Shelf[K]) look(key K) *Text {
	s.mu.Lock()
	defer s.mu.Unlock()
	found, ok := s.kept[key]
	if !ok {
		return nil
	}
	s.order.MoveToFront(found)
	return found.Value.(kept[K]).text
}

// keep takes a text in, and lets go of those that were not asked for longest.
func (s *Shelf[K]) keep(key K, text *Text) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if _, there := s.kept[key]; there || text.Size() > s.most {
		return
	}
	s.kept[key] = s.order.PushFront(kept[K]{key, text})
	for s.bytes += text.Size(); s.bytes > s.most; {
		last := s.order.Remove(s.order.Back()).(kept[K])
		s.bytes -= last.text.Size()
		delete(s.kept, last.key)
	}
}
