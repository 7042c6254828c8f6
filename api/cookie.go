package api

import (
	"net/http"
	"net/url"
	"strings"
	"time"
)

// A session's cookie has a name that a browser takes over HTTPS only, from this
// very host and for all of it; over plain HTTP, which does not leave the
// machine, it cannot have that name.
const (
	secureCookie = "__Host-halfpoint"
	plainCookie  = "halfpoint"
)

// cookieOf is the secret of a request's session; empty where it has none, or
// where others could have read it. Over HTTPS the plain name is not taken: pages of
// other names and of plain HTTP could have set it.
func cookieOf(r *http.Request) string {
	if !isPrivate(r) {
		return ""
	}
	names := []string{secureCookie, plainCookie}
	if isSecure(r) {
		names = names[:1]
	}
	for _, name := range names {
		if cookie, err := r.Cookie(name); err == nil && cookie.Value != "" {
			return cookie.Value
		}
	}
	return ""
}

// cookieFor writes the cookie of a session that ends at a time. It lasts as
// long as the session, so that a tablet that was switched off is still paired.
func cookieFor(r *http.Request, secret string, expires time.Time) string {
	cookie := &http.Cookie{
		Name: plainCookie, Value: secret, Path: "/", Expires: expires,
		MaxAge: int(time.Until(expires).Seconds()), HttpOnly: true, SameSite: http.SameSiteLaxMode,
	}
	if isSecure(r) {
		cookie.Name, cookie.Secure = secureCookie, true
	}
	return cookie.String()
}

// noCookie takes the cookie of a session away.
func noCookie(r *http.Request) string {
	return cookieFor(r, "", time.Unix(0, 0))
}

// isSecure tells whether the browser sees HTTPS: here, or at a proxy on this
// machine, by the origin of the page that asks.
func isSecure(r *http.Request) bool {
	if r.TLS != nil {
		return true
	}
	return strings.HasPrefix(r.Header.Get("Origin"), "https://")
}

// isOwnOrigin tells whether the page that sent a request is ours. A proxy on
// this machine may have taken HTTPS off.
func isOwnOrigin(r *http.Request) bool {
	origin, err := url.Parse(r.Header.Get("Origin"))
	if err != nil || !strings.EqualFold(origin.Host, r.Host) {
		return false
	}
	if r.TLS != nil {
		return origin.Scheme == "https"
	}
	return origin.Scheme == "http" || origin.Scheme == "https"
}

// isUnsafe tells whether a method may change something.
func isUnsafe(method string) bool {
	return method != http.MethodGet && method != http.MethodHead && method != http.MethodOptions
}
