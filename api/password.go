package api

import (
	"context"
	"strings"

	"halfpoint/db"
	"halfpoint/identity"
)

// hashing lets a few passwords be hashed at a time: each takes its memory and a
// processor, and what the line sends must not wait for it.
type hashing chan struct{}

func (h hashing) wait(ctx context.Context) (done func(), err error) {
	select {
	case h <- struct{}{}:
		return func() { <-h }, nil
	case <-ctx.Done():
		return nil, context.Cause(ctx)
	}
}

// isPassword tells whether a password is the one that was hashed; an empty hash
// takes as long.
func (s *server) isPassword(ctx context.Context, hash, password string) (bool, error) {
	done, err := s.hashing.wait(ctx)
	if err != nil {
		return false, err
	}
	defer done()
	return identity.CheckPassword(hash, password), nil
}

// hashNew hashes a new password that is good enough; else it complains at its
// place. Known are words that anyone would try for its owner.
func (s *server) hashNew(ctx context.Context, password, place string, known ...string) (string, error) {
	if fault := identity.FaultOf(password, known...); fault != "" {
		return "", complainOf(place, fault)
	}
	done, err := s.hashing.wait(ctx)
	if err != nil {
		return "", err
	}
	defer done()
	return identity.HashPassword(password), nil
}

// newAccount reads the fields of an account, which stand at a place, and hashes
// its password.
func (s *server) newAccount(ctx context.Context, f *AccountFields, place string) (db.NewAccount, error) {
	a := db.NewAccount{Email: strings.TrimSpace(clean(f.Email)), Name: strings.TrimSpace(clean(f.Name))}
	if a.Name == "" {
		return a, complainOf(place+"/name", "is empty")
	}
	hash, err := s.hashNew(ctx, f.Password, place+"/password", a.Email, a.Name)
	a.Password = hash
	return a, err
}

// complainOf is the problem of one place in what was sent.
func complainOf(place, message string) error {
	return &failure{kind: kindInvalid, complaints: []Complaint{{Pointer: place, Message: message}}}
}
