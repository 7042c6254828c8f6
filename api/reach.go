package api

import (
	"context"
	"slices"

	"github.com/gin-gonic/gin"
	"github.com/google/uuid"

	"halfpoint/db"
)

// allow finds who asks and how far they may go in the operation.
func (s *server) allow(c *gin.Context) {
	w, err := s.whoAsks(c)
	if err != nil {
		refuse(c, err)
		return
	}
	route := routeOf(c)
	if route == nil {
		return
	}
	operation := route.Operation.OperationID
	far, err := s.reachIn(c, w, access[operation])
	if err == nil && passwordAgain[operation] {
		err = needPassword(c)
	}
	if err != nil {
		refuse(c, err)
		return
	}
	if w.isSigned() {
		c.Header("Cache-Control", "no-store") // unless the handler says otherwise
	}
	c.Set(reachKey, far)
	c.Set(rightsKey, access[operation])
}

// reachIn says how far whoever asks may go. Where nothing that they are may go
// anywhere they are refused, whatever they ask for. In a contest in which they
// are nothing they are as whoever is signed in, and there is nothing else there
// for them.
func (s *server) reachIn(c *gin.Context, w *who, r rights) (reach, error) {
	if !w.couldGo(r) {
		return nowhere, w.refused()
	}
	hats, stranger, err := s.hatsFor(c, w)
	if err != nil {
		return nowhere, err
	}
	far, missed := nowhere, stranger
	for _, h := range hats {
		reached := r.of(h.role)
		if reached == ownSeat || reached == ownFlight {
			missed = true
			if reached, err = s.own(c, h, reached); err != nil {
				return nowhere, err
			}
		}
		far = max(far, reached)
	}
	switch {
	case far > nowhere:
		return far, nil
	case missed:
		return nowhere, fail(kindNotFound, "")
	}
	return nowhere, w.refused()
}

// own is inside where the path names the seat or the flight of a hat's own.
func (s *server) own(c *gin.Context, h hat, what reach) (reach, error) {
	theirs, name := h.judge, "judge"
	if what == ownFlight {
		theirs, name = h.pilot, "flight"
	}
	asked, err := uuid.Parse(c.Param(name))
	if err != nil || theirs == uuid.Nil {
		return nowhere, nil //nolint:nilerr // what is no id is nobody's own; the request's check says so
	}
	if what == ownFlight {
		if asked, err = s.db.PilotOf(c, asked); err != nil {
			return nowhere, err
		}
	}
	if asked != theirs {
		return nowhere, nil
	}
	return inside, nil
}

// ownPilots are the pilots in whose name somebody may act in a contest, where
// that is as far as they may go; all is true where they may go farther.
func (s *server) ownPilots(ctx context.Context, kind string, id uuid.UUID) (own []uuid.UUID, all bool, err error) {
	if reachOf(ctx) != ownPilot {
		return nil, true, nil
	}
	contest, err := s.contestBehind(ctx, kind, id)
	if err != nil {
		return nil, false, err
	}
	hats, _ := whoOf(ctx).in(contest)
	for _, h := range hats {
		if h.pilot != uuid.Nil {
			own = append(own, h.pilot)
		}
	}
	return own, false, nil
}

// asPilot tells whether somebody may act in the name of a pilot: another one than
// the own is not there.
func (s *server) asPilot(ctx context.Context, kind string, id, pilot uuid.UUID) error {
	own, all, err := s.ownPilots(ctx, kind, id)
	if err == nil && !all && !slices.Contains(own, pilot) {
		err = db.ErrNotFound
	}
	return err
}

// of is how far a role may go by a line of the table.
func (r rights) of(who role) reach {
	for r[who] == unsaid && who != anyone {
		who = builds[who]
	}
	return max(r[who], nowhere)
}

// reachOf is how far the request of a context may go.
func reachOf(ctx context.Context) reach {
	far, _ := ctx.Value(reachKey).(reach)
	return far
}

// reachAt is how far the request of a context may go in a contest that its path
// does not name.
func reachAt(ctx context.Context, contest uuid.UUID) reach {
	r, _ := ctx.Value(rightsKey).(rights)
	return whoOf(ctx).farthest(contest, r)
}

// mayRead tells whether a request may read of a contest what the operation
// gives, by how the contest is opened. A closed contest is not there at all.
func mayRead(far reach, is Opened) error {
	switch {
	case far >= closedOnly:
		return nil
	case is != Published && is != Live:
		return fail(kindNotFound, "")
	case far == opened, far == live && is == Live:
		return nil
	}
	return fail(kindRefused, "")
}
