package api

import (
	"context"
	"math"
	"net/http"
	"net/netip"
	"strconv"
	"sync"
	"time"

	"github.com/gin-gonic/gin"

	"halfpoint/scoring"
)

// The bounds of a request.
const (
	maxBody     = 1 << 20 // bytes
	maxTable    = 2 << 20 // of a table
	requestTime = 10 * time.Second
	uploadTime  = time.Minute     // to send a bundle
	auditTime   = 5 * time.Minute // to compute every publication of a contest again
)

// A limit is what one operation may take.
type limit struct {
	body   int64         // bytes
	upload time.Duration // to send the body, where it is not the server's own bound
	work   time.Duration // to answer; none where 0
	heavy  int64         // bytes of the body that cost as much as a request more; none where 0
}

// limits are those of the operations that differ from standard.
var limits = map[string]limit{
	"importBundle":  {body: scoring.MaxBundleBytes, upload: uploadTime, work: requestTime},
	"streamEvents":  {body: maxBody},
	"checkSequence": {body: maxBody, work: requestTime, heavy: 2 << 10}, // ten figures; 1 MiB is half a second's work
	"putNumbers":    {body: maxTable, work: requestTime},
	"auditContest":  {body: maxBody, work: auditTime},

	"readPilotTable":    {body: maxTable, work: requestTime},
	"readOfficialTable": {body: maxTable, work: requestTime},
}

var standard = limit{body: maxBody, work: requestTime}

func limitOf(c *gin.Context) limit {
	if own, ok := limits[operationOf(c)]; ok {
		return own
	}
	return standard
}

// boundBody bounds the size of the body and, for large ones, the time to send
// it.
func boundBody(c *gin.Context) {
	own := limitOf(c)
	if own.upload > 0 {
		// A connection that takes no deadline keeps the server's own.
		_ = http.NewResponseController(c.Writer).SetReadDeadline(time.Now().Add(own.upload))
	}
	c.Request.Body = http.MaxBytesReader(c.Writer, c.Request.Body, own.body)
}

// boundTime bounds the time to answer.
func boundTime(c *gin.Context) {
	own := limitOf(c)
	if own.work == 0 {
		return
	}
	if own.work > requestTime {
		// Longer than the server gives all others; a connection that takes no deadline keeps that.
		_ = http.NewResponseController(c.Writer).SetWriteDeadline(time.Now().Add(own.work))
	}
	ctx, cancel := context.WithTimeout(c.Request.Context(), own.work)
	defer cancel()
	c.Request = c.Request.WithContext(ctx)
	c.Next()
}

// What one address may ask. Everyone at a field may come through one address,
// and reads again at every event, so it is far above what they do.
const (
	perSecond  = 200.0
	atOnce     = 2000.0
	wrongToken = 100.0 // what a wrong token costs, in requests
	maxKeys    = 10000 // of a limiter
)

// A limiter bounds what each of its keys may do: a bucket that fills with time.
type limiter[K comparable] struct {
	perSecond, atOnce float64

	mu      sync.Mutex
	now     func() time.Time
	buckets map[K]bucket
}

type bucket struct {
	left float64
	at   time.Time
}

func newLimiter[K comparable](perSecond, atOnce float64) *limiter[K] {
	return &limiter[K]{perSecond: perSecond, atOnce: atOnce, now: time.Now, buckets: map[K]bucket{}}
}

// addresses bounds the requests of each address.
type addresses struct{ *limiter[netip.Prefix] }

func newAddresses() addresses { return addresses{newLimiter[netip.Prefix](perSecond, atOnce)} }

// allow refuses an address that has asked too much.
func (a addresses) allow(c *gin.Context) {
	if wait := a.take(addressOf(c.Request), costOf(c)); wait > 0 {
		refuse(c, &failure{kind: kindTooMany, after: wait})
	}
}

// costOf is what a request takes, in requests.
func costOf(c *gin.Context) float64 {
	own := limitOf(c)
	if own.heavy == 0 {
		return 1
	}
	size := c.Request.ContentLength
	if size < 0 || size > own.body { // it is not said, or will be refused
		size = own.body
	}
	return 1 + float64(size)/float64(own.heavy)
}

// punish slows down the address of a request with a wrong token.
func (a addresses) punish(r *http.Request) { a.drain(addressOf(r), wrongToken) }

// take takes cost out of a key's bucket and returns how long to wait where
// there was less left.
func (l *limiter[K]) take(key K, cost float64) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	left := l.left(key, now)
	if left < cost {
		return time.Duration((cost - left) / l.perSecond * float64(time.Second))
	}
	l.buckets[key] = bucket{left - cost, now}
	return 0
}

// drain takes as much as cost out of a key's bucket, all where there is less.
func (l *limiter[K]) drain(key K, cost float64) {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	l.buckets[key] = bucket{max(l.left(key, now)-cost, 0), now}
}

// left is what is left in a key's bucket.
func (l *limiter[K]) left(key K, now time.Time) float64 {
	b, ok := l.buckets[key]
	if !ok {
		l.forget(now)
		return l.atOnce
	}
	return l.filled(b, now)
}

// give gives back one that was taken.
func (l *limiter[K]) give(key K) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if b, ok := l.buckets[key]; ok {
		b.left++
		l.buckets[key] = b
	}
}

func (l *limiter[K]) filled(b bucket, now time.Time) float64 {
	return min(b.left+now.Sub(b.at).Seconds()*l.perSecond, l.atOnce)
}

// forget drops the keys whose buckets are full again once there are many, and
// all of them where that is not enough.
func (l *limiter[K]) forget(now time.Time) {
	if len(l.buckets) < maxKeys {
		return
	}
	for key, b := range l.buckets {
		if l.filled(b, now) >= l.atOnce {
			delete(l.buckets, key)
		}
	}
	if len(l.buckets) >= maxKeys {
		clear(l.buckets)
	}
}

// addressOf is who asks: an address, or for IPv6 the network of one customer.
func addressOf(r *http.Request) netip.Prefix {
	from, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return netip.Prefix{}
	}
	address := from.Addr().Unmap()
	bits := 32
	if address.Is6() {
		bits = 64
	}
	prefix, err := address.Prefix(bits)
	if err != nil {
		return netip.Prefix{}
	}
	return prefix
}

func formatSeconds(d time.Duration) string {
	return strconv.Itoa(int(math.Ceil(d.Seconds())))
}
