package db

import (
	"crypto/sha256"
	"fmt"
	"sync"

	"golang.org/x/sync/singleflight"

	"halfpoint/scoring"
	"halfpoint/scoring/publication"
)

// mostScores is how many bundles' results are kept: those of a large contest take
// some megabytes.
const mostScores = 8

// scores are the results of the bundles that were scored last, by the hashes of
// their bytes. Results depend on nothing else, so what is kept is never out of
// date: whoever looks at what would be published, again and again, and then
// publishes it, has it computed once, as have those who ask at the same time. It is
// safe for concurrent use; what it gives is not to be changed.
type scores struct {
	making singleflight.Group

	mu   sync.Mutex
	kept []scored // the oldest first
}

type scored struct {
	of      [sha256.Size]byte
	results []byte
	parsed  *publication.Parsed
}

// get scores a bundle as it is written. One that cannot be scored comes back as
// document.Complaints.
func (s *scores) get(bundle []byte) (results []byte, parsed *publication.Parsed, err error) {
	of := sha256.Sum256(bundle)
	if found := s.look(of); found != nil {
		return found.results, found.parsed, nil
	}
	made, err, _ := s.making.Do(string(of[:]), func() (any, error) {
		one, err := score(bundle)
		if err == nil {
			one.of = of
			s.keep(*one)
		}
		return one, err
	})
	if err != nil {
		return nil, nil, err
	}
	one := made.(*scored)
	return one.results, one.parsed, nil
}

func score(bundle []byte) (*scored, error) {
	read, err := scoring.DecodeBundle(bundle)
	if err != nil {
		return nil, fmt.Errorf("reading what is to be published: %w", err)
	}
	computed := scoring.Score(read)
	return &scored{results: computed.Encode(), parsed: &publication.Parsed{Bundle: read, Results: computed}}, nil
}

func (s *scores) look(of [sha256.Size]byte) *scored {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i := range s.kept {
		if s.kept[i].of == of {
			found := s.kept[i]
			return &found
		}
	}
	return nil
}

func (s *scores) keep(one scored) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.kept) == mostScores {
		s.kept = append(s.kept[:0:0], s.kept[1:]...)
	}
	s.kept = append(s.kept, one)
}
