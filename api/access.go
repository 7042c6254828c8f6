package api

import (
	"context"
	"crypto/sha256"
	"crypto/subtle"
	"net"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"
)

// A role is who asks.
type role int

const (
	anyone role = iota // without a token
	office             // with the office's token
	roles              // how many there are
)

// A reach is how far a role may go in an operation.
type reach int

const (
	nowhere    reach = iota // refused
	opened                  // in contests that are opened at all: their facts, nothing of results
	live                    // in contests that are opened live
	everywhere              // in every contest, or where no contest is asked for
)

// access is the one table of who may do what.
var access = map[string][roles]reach{
	"listContests":             {anyone: opened, office: everywhere},
	"getContest":               {anyone: opened, office: everywhere},
	"getProgramme":             {anyone: opened, office: everywhere},
	"getProgrammeResults":      {anyone: live, office: everywhere},
	"getCategoryResults":       {anyone: live, office: everywhere},
	"getFlightResult":          {anyone: live, office: everywhere},
	"getJudgeSheet":            {anyone: live, office: everywhere},
	"streamEvents":             {anyone: live, office: everywhere},
	"checkSequence":            {anyone: opened, office: everywhere},
	"getLimits":                {anyone: opened, office: everywhere},
	"putLimits":                {anyone: nowhere, office: everywhere},
	"getNumbers":               {anyone: nowhere, office: everywhere},
	"putNumbers":               {anyone: nowhere, office: everywhere},
	"getProgrammeSequence":     {anyone: opened, office: everywhere},
	"putProgrammeSequence":     {anyone: nowhere, office: everywhere},
	"signOffProgrammeSequence": {anyone: nowhere, office: everywhere},
	"releaseProgrammeSequence": {anyone: nowhere, office: everywhere},
	"listSequences":            {anyone: nowhere, office: everywhere},
	"getFlightSequence":        {anyone: opened, office: everywhere},
	"putFlightSequence":        {anyone: nowhere, office: everywhere},
	"signOffFlightSequence":    {anyone: nowhere, office: everywhere},
	"importBundle":             {anyone: nowhere, office: everywhere},
	"exportBundle":             {anyone: nowhere, office: everywhere},
	"getHealth":                {anyone: everywhere, office: everywhere},
	"getReadiness":             {anyone: everywhere, office: everywhere},
	"getSetup":                 {anyone: nowhere, office: everywhere},
	"changeSetup":              {anyone: nowhere, office: everywhere},
}

// reachKey is where the context keeps how far the request may go.
const reachKey = "reach"

// allow finds who asks and how far they may go in the operation.
func (s *server) allow(c *gin.Context) {
	who, err := s.roleOf(c.Request)
	if err != nil {
		s.limiter.punish(c.Request)
		refuse(c, err)
		return
	}
	route := routeOf(c)
	if route == nil {
		return
	}
	far := access[route.Operation.OperationID][who]
	if far == nowhere {
		refuse(c, fail(kindRefused, ""))
		return
	}
	c.Set(reachKey, far)
}

// reachOf is how far the request of a context may go.
func reachOf(ctx context.Context) reach {
	far, _ := ctx.Value(reachKey).(reach)
	return far
}

// roleOf finds the role of whoever sent the request. A token that is not known
// is an error, not a request of anyone's.
func (s *server) roleOf(r *http.Request) (role, error) {
	header := r.Header.Get("Authorization")
	if header == "" {
		return anyone, nil
	}
	if !isPrivate(r) {
		return anyone, fail(kindInsecure, "")
	}
	token, ok := strings.CutPrefix(header, "Bearer ")
	sent := sha256.Sum256([]byte(token))
	if !ok || subtle.ConstantTimeCompare(sent[:], s.office[:]) != 1 {
		return anyone, fail(kindUnknownToken, "")
	}
	return office, nil
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

// mayRead tells whether a request may read of a contest what the operation
// gives, by how the contest is opened. A closed contest is not there at all.
func mayRead(far reach, is Opened) error {
	switch {
	case far == everywhere:
		return nil
	case is != Published && is != Live:
		return fail(kindNotFound, "")
	case far == opened, far == live && is == Live:
		return nil
	}
	return fail(kindRefused, "")
}
