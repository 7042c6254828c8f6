package api

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"net/http"
	"runtime"
	"strings"
	"sync"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/ready"
)

// Options are what a service is made of.
type Options struct {
	DB          *db.DB
	Standby     *db.DB           // what spectators read of publications from; may be nil
	OfficeToken string           // a program that shows it may do what the owner may; empty for none
	Hosts       []string         // names served beside this machine's own addresses
	Addresses   []string         // where tablets reach the service, the best first; none where they do not, or nobody knows
	Signer      db.Signer        // of publications
	Shelf       Shelf            // keeps publications beside the database; may be nil
	LastBackup  func() time.Time // when the newest backup was begun; nil where none are written

	// Pages makes the browser's part, which answers everything that is not the
	// service's and may ask the service; nil for none.
	Pages func(service http.Handler) http.Handler
}

// A Service answers HTTP requests.
type Service struct {
	http.Handler
	server *server
}

type server struct {
	db       *db.DB
	standby  *standby // nil for none
	signer   db.Signer
	shelf    Shelf
	contract *contract
	metrics  *metrics
	limiter  addresses
	guards   *guards
	hashing  hashing
	hub      *hub
	office   [sha256.Size]byte // of the office's token
	reached  []string          // addresses at which tablets reach the service

	heads      *heads
	contests   *cache[*db.Contest]
	lists      *cache[*db.PublicationList] // of each contest
	texts      *ready.Shelf[textKey]       // of publications
	programmes *cache[*scoredProgramme]
	categories *cache[*scoredCategory]
	closed     closed
	published  *maker[*readPublication]
	analyses   *cache[*analysis]
	devices    sync.Map // what each device was paired for
	flights    sync.Map // the programme of each flight that was asked for
	tables     *tables
	places     sync.Map // the contest of each thing that was asked for
}

// New makes a service. It follows what changes in the database only while
// [Service.Follow] runs.
func New(o Options) (*Service, error) {
	k, err := loadContract()
	if err != nil {
		return nil, err
	}
	page, err := writeDocs(k)
	if err != nil {
		return nil, err
	}
	s := newServer(o, o.DB, k, newMetrics(o))
	if o.Standby != nil {
		s.standby = &standby{server: newServer(o, o.Standby, k, s.metrics), primary: o.DB}
	}
	if o.OfficeToken == "" {
		rand.Read(s.office[:]) // a hash that no token has; it never fails
	}
	handler, err := packing(s.mount(o, page))
	if err != nil {
		return nil, err
	}
	return &Service{Handler: handler, server: s}, nil
}

// newServer makes what answers out of one database.
func newServer(o Options, d *db.DB, k *contract, m *metrics) *server {
	h := newHeads(d)
	return &server{
		db: d, signer: o.Signer, shelf: o.Shelf, contract: k, metrics: m, limiter: newAddresses(), guards: newGuards(), hub: newHub(),
		hashing: make(hashing, max(1, runtime.GOMAXPROCS(0)-1)),
		office:  sha256.Sum256([]byte(o.OfficeToken)), tables: newTables(), reached: o.Addresses,
		heads: h, texts: ready.NewShelf[textKey](maxTexts),
		contests: newCache(h, func(c *db.Contest) db.Head { return c.Head }, d.Contest),
		lists: newCache(h, func(l *db.PublicationList) db.Head { return l.Head },
			func(ctx context.Context, contest uuid.UUID) (*db.PublicationList, error) {
				return d.Publications(ctx, db.Scope{Contest: contest})
			}),
		programmes: newProgrammes(h, m, "programme", d.ProgrammeBundle),
		categories: newCategories(h, m, "category", d.CategoryBundle),
		closed:     newClosed(h, m, d),
		published:  newMaker(mostParsed, readPublished(d)),
		analyses: newCache(h, func(a *analysis) db.Head { return a.part.Head },
			timed(m, "analysis", newAnalyst(d).analyse)),
	}
}

// Follow passes on what changes in the database until ctx is done, and then
// ends every event stream. It is to run once, beside the handler.
func (s *Service) Follow(ctx context.Context) {
	defer s.server.hub.close()
	if s.server.standby != nil {
		var watching sync.WaitGroup
		watching.Go(func() { s.server.standby.watch(ctx) })
		defer watching.Wait()
	}
	s.server.db.Listen(ctx, func(change db.Change) {
		s.server.heads.forget(change.Contest)
		s.server.hub.raise(change)
	})
}

// mount puts everything in its place: what every request passes, in order,
// then what answers.
func (s *server) mount(o Options, page []byte) http.Handler {
	gin.SetMode(gin.ReleaseMode)
	e := gin.New()
	e.ContextWithFallback = true // or a request called off would not reach the database
	e.HandleMethodNotAllowed = true
	e.RedirectTrailingSlash = false
	e.Use(
		s.contract.find, s.metrics.observe, rescue, secureHeaders, lowered(o.Hosts).allow,
		s.limiter.allow, sameOrigin(http.NewCrossOriginProtection()), s.allow, boundBody, validate, boundTime,
	)
	strict := NewStrictHandlerWithOptions(s, nil, StrictGinServerOptions{
		RequestErrorHandlerFunc:  func(c *gin.Context, err error) { refuse(c, &failure{kind: kindMalformed}) },
		HandlerErrorFunc:         refuse,
		ResponseErrorHandlerFunc: refuse,
	})
	RegisterHandlersWithOptions(e, strict, GinServerOptions{
		ErrorHandler: func(c *gin.Context, err error, _ int) { refuse(c, &failure{kind: kindMalformed}) },
	})
	e.GET("/metrics", s.metrics.handler())
	e.GET(jsonPath, serve("application/json", s.contract.json))
	e.GET(docsPath, serve("text/html; charset=utf-8", page))
	e.GET(stylePath, serve("text/css; charset=utf-8", docsStyle))
	answerHeads(e)
	e.NoMethod(func(c *gin.Context) { refuse(c, fail(kindMethod, "")) })
	e.NoRoute(elsewhere(o.Pages, e))
	return e
}

// elsewhere answers what is not the service's: with the browser's part, or
// that there is no such thing.
func elsewhere(make func(http.Handler) http.Handler, service http.Handler) gin.HandlerFunc {
	var pages http.Handler
	if make != nil {
		pages = make(service)
	}
	return func(c *gin.Context) {
		if pages == nil || strings.HasPrefix(c.Request.URL.Path, "/api/") {
			refuse(c, fail(kindNotFound, ""))
			return
		}
		c.Writer.WriteHeader(http.StatusOK) // gin has noted 404
		pages.ServeHTTP(c.Writer, c.Request)
	}
}

func lowered(names []string) hosts {
	list := make(hosts, len(names))
	for i, name := range names {
		list[i] = strings.ToLower(name)
	}
	return list
}

// answerHeads has HEAD answered wherever GET is, so that caches can ask what has
// changed; but for streams, which have no end. The server leaves the body out.
func answerHeads(e *gin.Engine) {
	for _, r := range e.Routes() {
		if r.Method == http.MethodGet && !isStream(r.Path) {
			e.HEAD(r.Path, r.HandlerFunc)
		}
	}
}
