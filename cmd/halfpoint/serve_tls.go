package main

import (
	"crypto/tls"
	"fmt"
	"log/slog"
	"net/http"
	"path/filepath"
	"time"

	"golang.org/x/crypto/acme/autocert"

	"halfpoint/identity/authority"
	"halfpoint/webui"
)

// An encryption is how connections are encrypted.
type encryption struct {
	config *tls.Config // nil where they are not
	own    *authority.Authority
}

// isSecure tells whether the service speaks HTTPS.
func (c *config) isSecure() bool { return c.cert != "" || c.tlsName != "" || c.tlsOwn != "" }

// encrypt prepares the certificates: from files, from an authority on the
// Internet, or from the installation's own.
func (c *config) encrypt(now time.Time) (encryption, error) {
	switch {
	case c.cert != "":
		return fromFiles(c.cert, c.key)
	case c.tlsName != "":
		return encryption{config: c.fromInternet().TLSConfig()}, nil
	case c.tlsOwn != "":
		own, err := authority.Open(filepath.Join(c.data, "tls", "own"), c.tlsOwn, now)
		if err != nil {
			return encryption{}, err
		}
		return encryption{config: &tls.Config{GetCertificate: own.Certificate}, own: own}, nil
	}
	return encryption{}, nil
}

func fromFiles(cert, key string) (encryption, error) {
	pair, err := tls.LoadX509KeyPair(cert, key)
	if err != nil {
		return encryption{}, fmt.Errorf("the certificate: %w", err)
	}
	return encryption{config: &tls.Config{Certificates: []tls.Certificate{pair}}}, nil
}

// fromInternet gets certificates by ACME (RFC 8555) over the port of HTTPS. It
// keeps them, so that they are good for weeks without the Internet.
func (c *config) fromInternet() *autocert.Manager {
	return &autocert.Manager{
		Prompt:     autocert.AcceptTOS,
		HostPolicy: autocert.HostWhitelist(c.tlsName),
		Cache:      autocert.DirCache(filepath.Join(c.data, "tls", "internet")),
	}
}

// Where the certificate is to be had that tablets trust, and the page that says
// how.
const (
	trustPath       = "/trust"
	certificatePath = "/authority.crt"
)

// trustSoon is how long before the end of an authority the log reminds of it.
const trustSoon = 21 * 24 * time.Hour

// pages serves the certificate to trust beside the pages, where there is one.
func (e encryption) pages(service http.Handler) http.Handler {
	pages := webui.Handler(service)
	if e.own == nil {
		return pages
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != certificatePath {
			pages.ServeHTTP(w, r)
			return
		}
		w.Header().Set("Content-Type", "application/x-x509-ca-cert")
		w.Header().Set("Content-Disposition", `attachment; filename="halfpoint.crt"`)
		w.Header().Set("Halfpoint-Name", e.own.Name()) // this machine itself may have opened the page by another
		w.Header().Set("Halfpoint-Words", e.own.Words())
		_, _ = w.Write(e.own.Root()) // whoever asked may be gone
	})
}

// announce says in the log what tablets have to trust. What is compared with
// stands there and not on a page that others could forge.
func (e encryption) announce(address string) {
	if e.own == nil {
		return
	}
	slog.Info("tablets trust this installation's own certificate", "how", address+trustPath,
		"words", e.own.Words(), "sha256", e.own.Fingerprint(), "until", e.own.Ends().Format(time.DateOnly))
	if time.Until(e.own.Ends()) < trustSoon {
		slog.Warn("the installation's own authority ends soon", "on", e.own.Ends().Format(time.DateOnly))
	}
}
