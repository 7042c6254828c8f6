package api

import (
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"

	"github.com/gin-gonic/gin"
)

// securityHeaders go with every answer. Nothing is loaded from elsewhere, no
// script or style stands in a page, no other site may frame us. They are those of
// OWASP's HTTP Headers Cheat Sheet; a page that has a link's secret behind its #
// tells nobody where it came from.
var securityHeaders = map[string]string{
	"Content-Security-Policy": "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'",
	"X-Content-Type-Options":  "nosniff",
	"X-Frame-Options":         "DENY",
	"Referrer-Policy":         "same-origin",
	"Permissions-Policy":      "accelerometer=(), bluetooth=(), camera=(self), display-capture=(), geolocation=(), gyroscope=(), magnetometer=(), microphone=(), midi=(), payment=(), serial=(), usb=()",

	"X-Permitted-Cross-Domain-Policies": "none",

	"Cross-Origin-Embedder-Policy": "require-corp",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Cross-Origin-Resource-Policy": "same-origin",
}

// secureHeaders writes them; over TLS also that it stays so for a month, which
// is longer than a contest and short enough to forget a name.
func secureHeaders(c *gin.Context) {
	for name, value := range securityHeaders {
		c.Header(name, value)
	}
	if c.Request.TLS != nil {
		c.Header("Strict-Transport-Security", "max-age=2592000")
	}
}

// hosts are the names that are served, in lower case.
type hosts []string

// allow refuses a request for a host that is not ours: a name that an attacker
// has pointed here would make his pages our own origin.
func (h hosts) allow(c *gin.Context) {
	if !h.serve(c.Request) {
		refuse(c, fail(kindOtherHost, "names are allowed by --host"))
	}
}

// serve tells whether a request is for one of the names, for this machine
// itself, or for the address at which it came in.
func (h hosts) serve(r *http.Request) bool {
	name := strings.ToLower(strings.Trim(hostOf(r.Host), "[]"))
	if name == "localhost" || slices.Contains(h, name) {
		return true
	}
	address, err := netip.ParseAddr(name)
	if err != nil {
		return false
	}
	if address.IsLoopback() {
		return true
	}
	local, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if !ok {
		return false
	}
	here, err := netip.ParseAddrPort(local.String())
	return err == nil && here.Addr().Unmap() == address.Unmap()
}

func hostOf(hostPort string) string {
	if host, _, err := net.SplitHostPort(hostPort); err == nil {
		return host
	}
	return hostPort
}

// sameOrigin refuses what a page of another origin sends, for every method
// that changes something. A browser says where its page is from; what comes with
// a session's cookie and does not say it is refused too.
func sameOrigin(protection *http.CrossOriginProtection) gin.HandlerFunc {
	return func(c *gin.Context) {
		r := c.Request
		cookie := isUnsafe(r.Method) && r.Header.Get("Authorization") == "" && cookieOf(r) != ""
		if protection.Check(r) != nil || cookie && !isOwnOrigin(r) {
			refuse(c, fail(kindForeign, ""))
		}
	}
}
