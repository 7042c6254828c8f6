package authority

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"net"
	"net/netip"
	"slices"
	"sync"
	"time"
)

// A server's certificate lasts serverLasts, and is made anew when less than
// renewBefore is left of it, which is far more than a contest.
const (
	serverLasts = 45 * 24 * time.Hour
	renewBefore = 15 * 24 * time.Hour
)

// server is the certificate in use.
type server struct {
	mu    sync.Mutex
	shown *tls.Certificate
}

// Certificate is the server's certificate for a connection; it is what
// [tls.Config.GetCertificate] wants. One is made where there is none, where its
// time runs out, and where the machine has another address than it had.
func (a *Authority) Certificate(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
	a.server.mu.Lock()
	defer a.server.mu.Unlock()
	now, here := time.Now(), addressOf(hello.Conn)
	if shown := a.server.shown; shown != nil && isGood(shown.Leaf, now, a.intermediate.NotAfter, here) {
		return shown, nil
	}
	made, err := a.issue(now, here)
	if err == nil {
		a.server.shown = made
	}
	return made, err
}

// isGood tells whether a certificate can be shown at an address.
func isGood(c *x509.Certificate, now, ends time.Time, here net.IP) bool {
	if now.After(c.NotAfter.Add(-renewBefore)) && c.NotAfter.Before(ends) {
		return false
	}
	return here == nil || !isPrivate(here) || slices.ContainsFunc(c.IPAddresses, here.Equal)
}

// issue signs a certificate for the name, for this machine itself and for its
// private addresses.
func (a *Authority) issue(now time.Time, here net.IP) (*tls.Certificate, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	c := template("", now, min(serverLasts, a.intermediate.NotAfter.Sub(now)))
	c.KeyUsage = x509.KeyUsageDigitalSignature
	c.ExtKeyUsage = []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}
	c.DNSNames, c.IPAddresses = []string{a.name, "localhost"}, addresses(here)
	leaf, err := sign(c, a.intermediate, &key.PublicKey, a.key)
	if err != nil {
		return nil, err
	}
	return &tls.Certificate{Certificate: [][]byte{leaf.Raw, a.intermediate.Raw}, PrivateKey: key, Leaf: leaf}, nil
}

// addresses are the private ones of this machine and the one at which it was
// reached.
func addresses(here net.IP) []net.IP {
	list := []net.IP{net.IPv4(127, 0, 0, 1), net.IPv6loopback}
	add := func(ip net.IP) {
		if ip != nil && isPrivate(ip) && !slices.ContainsFunc(list, ip.Equal) {
			list = append(list, ip)
		}
	}
	add(here)
	found, err := net.InterfaceAddrs()
	if err != nil {
		return list // it is still reached by name
	}
	for _, one := range found {
		if n, ok := one.(*net.IPNet); ok {
			add(n.IP)
		}
	}
	return list
}

func isPrivate(ip net.IP) bool {
	return slices.ContainsFunc(privateRanges(), func(r *net.IPNet) bool { return r.Contains(ip) })
}

// addressOf is the address of this machine at which a connection came in.
func addressOf(c net.Conn) net.IP {
	if c == nil {
		return nil
	}
	here, err := netip.ParseAddrPort(c.LocalAddr().String())
	if err != nil {
		return nil
	}
	return here.Addr().Unmap().AsSlice()
}
