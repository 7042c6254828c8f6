package api

import (
	"context"
	"crypto/sha256"
	"crypto/subtle"
	"errors"
	"net"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"
	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/identity"
)

// A hat is a role that somebody wears, in a contest.
type hat struct {
	role    role
	contest uuid.UUID
	judge   uuid.UUID // the judge whom an account belongs to, or whose seat a device has
	pilot   uuid.UUID // whom a pilot's account belongs to
}

// who is whoever sent a request.
type who struct {
	session *db.Session // nil for nobody, and for the token
	token   bool        // the office's token
	ended   bool        // showed a session that is over, or that never was
	hats    []hat
}

// whoKey is where the context keeps who asks.
const whoKey = "who"

// whoOf is whoever sent the request of a context.
func whoOf(ctx context.Context) *who {
	if w, ok := ctx.Value(whoKey).(*who); ok {
		return w
	}
	return &who{}
}

// ginOf is the context of a handler, which is gin's.
func ginOf(ctx context.Context) *gin.Context { return ctx.(*gin.Context) }

// requestOf is the request of a handler's context.
func requestOf(ctx context.Context) *http.Request { return ginOf(ctx).Request }

// whoAsks finds who sent a request, by its token or else by its cookie. A token
// that is not known is an error; a session that is over is nobody's.
func (s *server) whoAsks(c *gin.Context) (*who, error) {
	w, err := s.whoSent(c)
	if err == nil {
		c.Set(whoKey, w)
	}
	return w, err
}

func (s *server) whoSent(c *gin.Context) (*who, error) {
	if header := c.GetHeader("Authorization"); header != "" {
		return s.whoHasToken(c.Request, header)
	}
	secret := cookieOf(c.Request)
	if secret == "" || routeOf(c) == nil || sessionless[operationOf(c)] {
		return &who{}, nil
	}
	return s.whoHasSession(c, secret)
}

func (s *server) whoHasToken(r *http.Request, header string) (*who, error) {
	if !isPrivate(r) {
		s.limiter.punish(r)
		return nil, fail(kindInsecure, "")
	}
	token, ok := strings.CutPrefix(header, "Bearer ")
	sent := sha256.Sum256([]byte(token))
	if !ok || subtle.ConstantTimeCompare(sent[:], s.office[:]) != 1 {
		s.limiter.punish(r)
		return nil, fail(kindUnknownToken, "")
	}
	return &who{token: true, hats: []hat{{role: owner}}}, nil
}

func (s *server) whoHasSession(ctx context.Context, secret string) (*who, error) {
	session, err := s.db.Session(ctx, identity.HashSecret(secret))
	switch {
	case errors.Is(err, db.ErrNotFound):
		return &who{ended: true}, nil
	case err != nil:
		return nil, err
	}
	return &who{session: &session, hats: hatsOf(&session)}, nil
}

func hatsOf(s *db.Session) []hat {
	if s.Account != nil && s.Account.Owner {
		return []hat{{role: owner}}
	}
	hats := make([]hat, len(s.Roles))
	for i, r := range s.Roles {
		hats[i] = hat{role: roleNames[r.Role], contest: r.Contest.ID, judge: r.Judge, pilot: r.Pilot}
		if own, ok := accountRoles[r.Role]; ok && s.Account != nil {
			hats[i].role = own
		}
	}
	return hats
}

func (w *who) isSigned() bool { return w.session != nil || w.token }

func (w *who) isOwner() bool { return len(w.hats) == 1 && w.hats[0].role == owner }

// base is what they are where they are nothing else.
func (w *who) base() hat {
	if w.isSigned() {
		return hat{role: signedIn}
	}
	return hat{role: anyone}
}

// couldGo tells whether a line of the table lets anything that they are go
// anywhere.
func (w *who) couldGo(l rights) bool {
	if l.of(w.base().role) > nowhere {
		return true
	}
	for _, h := range w.hats {
		if l.of(h.role) > nowhere {
			return true
		}
	}
	return false
}

// refused says that something is not theirs to do, and nothing of what is
// there.
func (w *who) refused() error {
	switch {
	case w.ended:
		return fail(kindSignIn, "the session is over")
	case !w.isSigned():
		return fail(kindSignIn, "")
	}
	return fail(kindRefused, "")
}

// name is how the journal names whoever did something: an account or a device
// by its id, the token as the office.
func (w *who) name() string {
	switch {
	case w.session == nil:
		return officeName
	case w.session.Account != nil:
		return w.session.Account.ID.String()
	}
	return w.session.Device.String()
}

// officeName is who the journal says did what the office's token did.
const officeName = "office"

// contests are those in which they are something.
func (w *who) contests() []uuid.UUID {
	var list []uuid.UUID
	for _, h := range w.hats {
		list = append(list, h.contest)
	}
	return list
}

// accountOf is the account that is signed in, and its session; the token has
// none.
func accountOf(ctx context.Context) (*db.Account, *db.Session, error) {
	w := whoOf(ctx)
	if w.session == nil || w.session.Account == nil {
		return nil, nil, fail(kindRefused, "an account must be signed in")
	}
	return w.session.Account, w.session, nil
}

// needPassword refuses an account that has not given its password within ten
// minutes. The token is a secret of its own.
func needPassword(ctx context.Context) error {
	w := whoOf(ctx)
	if w.session != nil && w.session.Account != nil && !w.session.Confirmed {
		return fail(kindPasswordAgain, "")
	}
	return nil
}

// in are the hats that they wear in a contest. A stranger is somebody who wears
// none there.
func (w *who) in(contest uuid.UUID) (hats []hat, stranger bool) {
	if w.isOwner() {
		return w.hats, false
	}
	for _, h := range w.hats {
		if h.contest == contest {
			hats = append(hats, h)
		}
	}
	if len(hats) == 0 {
		return []hat{w.base()}, w.isSigned()
	}
	return hats, false
}

// farthest is how far they may go in a contest by a line of the table.
func (w *who) farthest(contest uuid.UUID, r rights) reach {
	hats, _ := w.in(contest)
	far := nowhere
	for _, h := range hats {
		far = max(far, r.of(h.role))
	}
	return far
}

// hatsFor are the hats that count for a request: in the contest of what is
// asked for, or all of them where nothing of a contest is.
func (s *server) hatsFor(c *gin.Context, w *who) (hats []hat, stranger bool, err error) {
	kind, id := placeOf(c)
	switch {
	case kind == "" && len(w.hats) > 0:
		return w.hats, false, nil
	case kind == "":
		return []hat{w.base()}, false, nil
	}
	contest := uuid.Nil
	if len(w.hats) > 0 && !w.isOwner() {
		if contest, err = s.contestBehind(c, kind, id); err != nil {
			return nil, false, err
		}
	}
	hats, stranger = w.in(contest)
	return hats, stranger, nil
}

// placeOf is what of a contest the path of a request names: the kind of thing
// and its id; an empty kind for nothing.
func placeOf(c *gin.Context) (kind string, id uuid.UUID) {
	for _, p := range c.Params {
		if db.Placed(p.Key) {
			id, err := uuid.Parse(p.Value)
			if err != nil {
				id = uuid.Nil // there is no such thing; the contract's validation says why
			}
			return p.Key, id
		}
	}
	return "", uuid.Nil
}

// contestBehind finds the contest of a thing, which never changes.
func (s *server) contestBehind(ctx context.Context, kind string, id uuid.UUID) (uuid.UUID, error) {
	if kind == "contest" {
		return id, nil
	}
	if contest, ok := s.places.Load(id); ok {
		return contest.(uuid.UUID), nil
	}
	contest, err := s.db.ContestOf(ctx, kind, id)
	if err != nil {
		return uuid.Nil, err
	}
	s.places.Store(id, contest)
	return contest, nil
}

// isPrivate tells whether nobody between can have read the request: it came
// over TLS or did not leave this machine.
func isPrivate(r *http.Request) bool {
	if r.TLS != nil {
		return true
	}
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	return err == nil && net.ParseIP(host).IsLoopback()
}
