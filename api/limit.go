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
	maxNumbers  = 2 << 20 // of a table of catalogue numbers
	requestTime = 10 * time.Second
	uploadTime  = time.Minute // to send a bundle
)

// A limit is what one operation may take.
type limit struct {
	body   int64         // bytes
	upload time.Duration // to send the body, where it is not the server's own bound
	work   time.Duration // to answer; none where 0
}

// limits are those of the operations that differ from standard.
var limits = map[string]limit{
	"importBundle": {body: scoring.MaxBundleBytes, upload: uploadTime, work: requestTime},
	"streamEvents": {body: maxBody},
	"putNumbers":   {body: maxNumbers, work: requestTime},
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
	ctx, cancel := context.WithTimeout(c.Request.Context(), own.work)
	defer cancel()
	c.Request = c.Request.WithContext(ctx)
	c.Next()
}

// What one address may ask. Everyone at a field may come through one address,
// and reads again at every event, so it is far above what they do.
const (
	perSecond    = 200.0
	atOnce       = 2000.0
	wrongToken   = 100.0 // what a wrong token costs, in requests
	maxAddresses = 10000
)

// A limiter bounds the requests of each address: a bucket that fills with
// time.
type limiter struct {
	mu      sync.Mutex
	now     func() time.Time
	buckets map[netip.Prefix]bucket
}

type bucket struct {
	left float64
	at   time.Time
}

func newLimiter() *limiter {
	return &limiter{now: time.Now, buckets: map[netip.Prefix]bucket{}}
}

// allow refuses an address that has asked too much.
func (l *limiter) allow(c *gin.Context) {
	if wait := l.take(addressOf(c.Request), 1); wait > 0 {
		c.Header("Retry-After", formatSeconds(wait))
		refuse(c, fail(kindTooMany, ""))
	}
}

// punish slows down the address of a request with a wrong token.
func (l *limiter) punish(r *http.Request) { l.take(addressOf(r), wrongToken) }

// take takes cost out of an address's bucket and returns how long to wait
// where there was less than one request left.
func (l *limiter) take(from netip.Prefix, cost float64) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	b, ok := l.buckets[from]
	if !ok {
		l.forget(now)
		b = bucket{atOnce, now}
	}
	left := b.filled(now)
	if left < 1 {
		return time.Duration((1 - left) / perSecond * float64(time.Second))
	}
	l.buckets[from] = bucket{max(left-cost, 0), now}
	return 0
}

func (b bucket) filled(now time.Time) float64 {
	return min(b.left+now.Sub(b.at).Seconds()*perSecond, atOnce)
}

// forget drops the addresses whose buckets are full again once there are many,
// and all of them where that is not enough.
func (l *limiter) forget(now time.Time) {
	if len(l.buckets) < maxAddresses {
		return
	}
	for from, b := range l.buckets {
		if b.filled(now) >= atOnce {
			delete(l.buckets, from)
		}
	}
	if len(l.buckets) >= maxAddresses {
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
