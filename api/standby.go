package api

import (
	"context"
	"errors"
	"sync/atomic"
	"time"

	"halfpoint/db"
)

// How often it is asked how far the standby is, and how far behind it may be: what the
// primary had so long ago the standby has, or it is not read from.
const (
	askStandby = time.Second
	mayTrail   = 5 * time.Second
)

// A standby is what spectators read from, as long as it keeps up.
type standby struct {
	*server // with the standby's database, and what is kept in memory of it

	primary *db.DB
	asOf    atomic.Int64 // it has all that the primary had then; nanoseconds of the Unix epoch
}

// reading is the server that answers what is published: the standby's for whoever is
// not signed in, where there is one that keeps up.
func (s *server) reading(ctx context.Context) *server {
	if s.standby == nil || whoOf(ctx).isSigned() || time.Since(time.Unix(0, s.standby.asOf.Load())) > mayTrail {
		return s
	}
	return s.standby.server
}

// watch asks how far the standby is until ctx is done.
func (s *standby) watch(ctx context.Context) {
	every := time.NewTicker(askStandby)
	defer every.Stop()
	var position string // that is waited for
	var at time.Time
	for {
		if now := s.wanted(ctx); position == "" || now == beginning {
			position, at = now, time.Now()
		}
		if s.follows(ctx, position) {
			s.asOf.Store(at.UnixNano())
			position = ""
		}
		select {
		case <-ctx.Done():
			return
		case <-every.C:
		}
	}
}

// beginning is the beginning of every log.
const beginning = "0/0"

// wanted is what the standby should have by and by. Where the primary is away nothing
// is published, and the standby has the last there is.
func (s *standby) wanted(ctx context.Context) string {
	ctx, cancel := context.WithTimeout(ctx, askStandby)
	defer cancel()
	position, err := s.primary.Written(ctx)
	switch {
	case errors.Is(err, db.ErrUnavailable):
		return beginning
	case err != nil:
		return ""
	}
	return position
}

func (s *standby) follows(ctx context.Context, position string) bool {
	ctx, cancel := context.WithTimeout(ctx, askStandby)
	defer cancel()
	follows, err := s.db.Follows(ctx, position)
	return position != "" && err == nil && follows
}
