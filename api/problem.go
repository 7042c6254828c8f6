package api

import (
	"context"
	"encoding/json"
	"errors"
	"log/slog"
	"net/http"
	"strings"
	"time"

	"github.com/gin-gonic/gin"

	"halfpoint/db"
	"halfpoint/scoring/document"
)

// A kind of problem: its name in the address of its type, its title for a
// person and its status.
type kind struct {
	name   string
	status int
	title  string
}

// The kinds of problems, all of them.
var (
	kindMalformed     = kind{"malformed", http.StatusBadRequest, "The request cannot be read"}
	kindSignIn        = kind{"sign-in", http.StatusUnauthorized, "Somebody must be signed in for this"}
	kindWrongSignIn   = kind{"wrong-sign-in", http.StatusUnauthorized, "E-mail address and password do not go together"}
	kindCodeNeeded    = kind{"code-needed", http.StatusUnauthorized, "The code of the second factor is needed"}
	kindWrongCode     = kind{"wrong-code", http.StatusUnauthorized, "This is not the code of the second factor"}
	kindPasswordAgain = kind{"password-again", http.StatusForbidden, "The password is needed again for this"}
	kindLink          = kind{"link", http.StatusNotFound, "The link is not good, or not good any more"}
	kindUnknownToken  = kind{"unknown-token", http.StatusUnauthorized, "The token is not known"}
	kindRefused       = kind{"refused", http.StatusForbidden, "This is not yours to do"}
	kindInsecure      = kind{"insecure", http.StatusForbidden, "Nobody signs in and no token is taken over a connection that others can read"}
	kindForeign       = kind{"foreign-origin", http.StatusForbidden, "The request comes from a page of another origin"}
	kindNotFound      = kind{"not-found", http.StatusNotFound, "There is no such thing here"}
	kindMethod        = kind{"method", http.StatusMethodNotAllowed, "This cannot be done with it"}
	kindConflict      = kind{"conflict", http.StatusConflict, "It does not go with what is there"}
	kindNotYet        = kind{"not-yet", http.StatusConflict, "It cannot be published, or protested, as things stand"}
	kindTooLarge      = kind{"too-large", http.StatusRequestEntityTooLarge, "The request is too large"}
	kindContentType   = kind{"content-type", http.StatusUnsupportedMediaType, "The content is not of a type that is read here"}
	kindOtherHost     = kind{"other-host", http.StatusMisdirectedRequest, "This host name is not served here"}
	kindInvalid       = kind{"invalid", http.StatusUnprocessableEntity, "Something in the document is wrong"}
	kindTooMany       = kind{"too-many", http.StatusTooManyRequests, "This was tried too often"}
	kindInternal      = kind{"internal", http.StatusInternalServerError, "Something failed here"}
	kindAway          = kind{"database-away", http.StatusServiceUnavailable, "The database cannot be reached"}
	kindTooSlow       = kind{"too-slow", http.StatusServiceUnavailable, "It took longer than a request may take"}
)

// kinds lists them for the page of the contract.
var kinds = []kind{
	kindMalformed, kindSignIn, kindWrongSignIn, kindCodeNeeded, kindWrongCode, kindPasswordAgain, kindLink, kindUnknownToken, kindRefused, kindInsecure, kindForeign, kindNotFound, kindMethod, kindConflict, kindNotYet,
	kindTooLarge, kindContentType, kindOtherHost, kindInvalid, kindTooMany, kindInternal, kindAway, kindTooSlow,
}

// errorKinds is the one table from errors to kinds. An error that is not in it
// is internal, and only the log sees what it says.
var errorKinds = []struct {
	is     error
	kind   kind
	detail string
}{
	{is: db.ErrSeasonChanged, kind: kindConflict, detail: "somebody else has changed the season meanwhile; read it again"},
	{is: db.ErrNotFound, kind: kindNotFound},
	{is: db.ErrConflict, kind: kindConflict},
	{is: db.ErrInvalid, kind: kindInvalid},
	{is: db.ErrUnavailable, kind: kindAway},
	{is: context.DeadlineExceeded, kind: kindTooSlow},
}

// tellers make a failure of the errors that say themselves what a client is told;
// nil of any other.
var tellers = []func(error) *failure{
	saying(kindNotYet, func(r db.Refusals) failure { return failure{complaints: refused(r)} }),
	saying(kindNotYet, inItsWords[*db.NotInTimeError]),
	saying(kindInvalid, func(c document.Complaints) failure { return failure{complaints: pointed(c)} }),
	saying(kindConflict, inItsWords[*db.SequenceChangedError]),
	saying(kindConflict, inItsWords[*db.OrderChangedError]),
	saying(kindConflict, inItsWords[*db.ToldOtherwiseError]),
	saying(kindConflict, inItsWords[*db.ShutError]),
	saying(kindTooLarge, func(*http.MaxBytesError) failure { return failure{} }),
}

// saying makes a failure of a kind of a type of errors.
func saying[E error](k kind, say func(E) failure) func(error) *failure {
	return func(err error) *failure {
		found, ok := errors.AsType[E](err)
		if !ok {
			return nil
		}
		f := say(found)
		f.kind = k
		return &f
	}
}

func inItsWords[E error](err E) failure { return failure{detail: err.Error()} }

// A failure is an error that says to the client what it is.
type failure struct {
	kind       kind
	detail     string
	complaints []Complaint
	after      time.Duration // how long to wait, where waiting helps
}

func (f *failure) Error() string { return f.kind.name + ": " + f.detail }

// fail makes an error of a kind, with what is particular about it.
func fail(k kind, detail string) error { return &failure{kind: k, detail: detail} }

// failureOf finds what to tell the client about an error.
func failureOf(err error) *failure {
	if f, ok := errors.AsType[*failure](err); ok {
		return f
	}
	for _, tell := range tellers {
		if f := tell(err); f != nil {
			return f
		}
	}
	for _, one := range errorKinds {
		if errors.Is(err, one.is) {
			return &failure{kind: one.kind, detail: one.detail}
		}
	}
	return &failure{kind: kindInternal}
}

// problem is the document that tells the client of a failure.
func (f *failure) problem() Problem {
	p := Problem{Type: docsPath + "#" + f.kind.name, Title: f.kind.title, Status: f.kind.status}
	if f.detail != "" {
		p.Detail = &f.detail
	}
	if len(f.complaints) > 0 {
		p.Errors = &f.complaints
	}
	return p
}

// comeAgain is after how long to ask again what could not be answered now.
const comeAgain = 2 * time.Second

// wait is how long to wait before it is tried again; 0 where waiting is no help.
func (f *failure) wait() time.Duration {
	if f.after == 0 && f.kind.status == http.StatusServiceUnavailable {
		return comeAgain
	}
	return f.after
}

// refuse answers with the problem that an error is, and ends the request.
func refuse(c *gin.Context, err error) {
	defer c.Abort()
	if errors.Is(err, context.Canceled) && c.Request.Context().Err() != nil {
		return // nobody is there to read it
	}
	f := failureOf(err)
	if f.kind == kindInternal || f.kind == kindAway {
		slog.ErrorContext(c, "request failed", "operation", operationOf(c), "error", err)
	}
	if c.Writer.Written() {
		return
	}
	text, err := json.Marshal(f.problem())
	if err != nil {
		slog.ErrorContext(c, "writing a problem", "error", err)
	}
	if f.kind == kindUnknownToken {
		c.Header("WWW-Authenticate", "Bearer")
	}
	if after := f.wait(); after > 0 {
		c.Header("Retry-After", formatSeconds(after))
	}
	c.Header("Cache-Control", "no-store")
	c.Data(f.kind.status, "application/problem+json", text)
}

// refused lists why results cannot be published.
func refused(refusals db.Refusals) []Complaint {
	list := make([]Complaint, len(refusals))
	for i, r := range refusals {
		list[i] = Complaint{Message: r.Text}
	}
	return list
}

// pointed turns the complaints about a document into those of a problem.
func pointed(complaints document.Complaints) []Complaint {
	list := make([]Complaint, len(complaints))
	for i, c := range complaints {
		list[i] = Complaint{Pointer: pointer(c.Place), Message: c.Text}
	}
	return list
}

// pointer turns a place (categories[0].flights[3].pilot) into a JSON pointer
// (/categories/0/flights/3/pilot); the whole document is the empty one.
func pointer(place string) string {
	if place == "" {
		return ""
	}
	steps := strings.NewReplacer("~", "~0", "/", "~1", "[", "/", "]", "", ".", "/").Replace(place)
	return "/" + strings.TrimPrefix(steps, "/")
}
