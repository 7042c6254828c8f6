// Package authority makes an installation's own certificates, for a field
// without the Internet.
//
// A root signs one intermediate and is gone: what tablets come to trust can sign
// nothing ever again. The intermediate is kept, and may speak for one name and
// for private addresses alone; it signs the server's certificates, which are
// short-lived and renewed by themselves.
package authority

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"strings"
	"time"

	"halfpoint/identity"
)

// lasts is how long an authority is good: from setting up the tablets until a
// season is over.
const lasts = 180 * 24 * time.Hour

// before is how long ago a certificate began when it is made: a tablet's clock
// may be slow.
const before = 24 * time.Hour

// An Authority signs the server's certificates under one name.
type Authority struct {
	name         string
	root         *x509.Certificate // its key is gone
	intermediate *x509.Certificate
	key          *ecdsa.PrivateKey // the intermediate's
	server       server
}

// The files of an authority, in a folder of their own.
const (
	rootFile         = "authority.pem"
	intermediateFile = "intermediate.pem"
	keyFile          = "intermediate-key.pem"
)

// Open opens the authority that a folder holds, and makes one where there is
// none. It fails where the folder's is for another name or its time is over:
// tablets have to trust another one then, which is for a person to decide.
func Open(folder, name string, now time.Time) (*Authority, error) {
	if err := checkName(name); err != nil {
		return nil, err
	}
	a, err := find(folder, name, now)
	if err == nil {
		err = a.check(folder, now)
	}
	if err != nil {
		return nil, fmt.Errorf("the installation's own authority: %w", err)
	}
	return a, nil
}

func find(folder, name string, now time.Time) (*Authority, error) {
	_, err := os.Stat(filepath.Join(folder, rootFile))
	if !errors.Is(err, fs.ErrNotExist) {
		return read(folder, name)
	}
	a, err := create(name, now)
	if err != nil {
		return nil, err
	}
	return a, a.write(folder)
}

// checkName refuses what is no host name of two parts or more, in small letters.
func checkName(name string) error {
	isLetter := func(r rune) bool { return r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' }
	parts := strings.Split(name, ".")
	for _, part := range parts {
		if part == "" || strings.Trim(part, "-") != part || strings.ContainsFunc(part, func(r rune) bool { return !isLetter(r) }) {
			return fmt.Errorf("%q is no host name in small letters, such as judging.home.arpa", name)
		}
	}
	if len(parts) < 2 || net.ParseIP(name) != nil {
		return fmt.Errorf("%q: a name of two parts or more is needed, such as judging.home.arpa", name)
	}
	return nil
}

func (a *Authority) check(folder string, now time.Time) error {
	another := fmt.Sprintf("; take the folder %s away to make another, which every tablet has to trust anew", folder)
	if a.intermediate.PermittedDNSDomains[0] != a.name {
		return fmt.Errorf("it is for %s and not for %s%s", a.intermediate.PermittedDNSDomains[0], a.name, another)
	}
	if now.After(a.intermediate.NotAfter) {
		return fmt.Errorf("its time was over on %s%s", a.intermediate.NotAfter.Format(time.DateOnly), another)
	}
	return nil
}

// Name is the name for which it speaks.
func (a *Authority) Name() string { return a.name }

// Ends is when the authority's time is over.
func (a *Authority) Ends() time.Time { return a.intermediate.NotAfter }

// Root is the certificate that tablets trust, in DER.
func (a *Authority) Root() []byte { return a.root.Raw }

// Fingerprint is the SHA-256 of the root's certificate as devices show it: pairs
// of capital hexadecimal digits with colons between them.
func (a *Authority) Fingerprint() string {
	sum := sha256.Sum256(a.root.Raw)
	pairs := make([]string, len(sum))
	for i, b := range sum {
		pairs[i] = fmt.Sprintf("%02X", b)
	}
	return strings.Join(pairs, ":")
}

// Words are the fingerprint's first bits as six words, for people to compare.
func (a *Authority) Words() string { return identity.Words(sha256.Sum256(a.root.Raw)) }

// create makes a root and the intermediate that it signs, and forgets the root's
// key.
func create(name string, now time.Time) (*Authority, error) {
	rootKey, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	a := &Authority{name: name, key: key}
	root := template("Halfpoint at "+name, now, lasts)
	root.IsCA, root.MaxPathLen = true, 1
	if a.root, err = sign(root, root, &rootKey.PublicKey, rootKey); err != nil {
		return nil, err
	}
	intermediate := template("Halfpoint at "+name+", server certificates", now, lasts)
	intermediate.IsCA, intermediate.MaxPathLenZero = true, true
	constrain(intermediate, name)
	a.intermediate, err = sign(intermediate, a.root, &key.PublicKey, rootKey)
	return a, err
}

// template is what all certificates have in common. Those of an authority sign
// others and nothing else.
func template(name string, now time.Time, lasts time.Duration) *x509.Certificate {
	return &x509.Certificate{
		Subject:               pkix.Name{CommonName: name},
		NotBefore:             now.Add(-before),
		NotAfter:              now.Add(lasts),
		KeyUsage:              x509.KeyUsageCertSign | x509.KeyUsageCRLSign,
		BasicConstraintsValid: true,
	}
}

// constrain lets a certificate speak for servers of one name and of private
// addresses alone (RFC 5280, 4.2.1.10). Whoever does not understand that must
// refuse it.
func constrain(c *x509.Certificate, name string) {
	c.PermittedDNSDomainsCritical = true
	c.PermittedDNSDomains = []string{name, "localhost"}
	c.PermittedIPRanges = privateRanges()
	c.ExtKeyUsage = []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}
}

// privateRanges are those of RFC 1918, RFC 4193, and of the machine itself.
func privateRanges() []*net.IPNet {
	texts := []string{"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "127.0.0.0/8", "fc00::/7", "::1/128"}
	ranges := make([]*net.IPNet, len(texts))
	for i, text := range texts {
		_, ranges[i], _ = net.ParseCIDR(text) // they are all right
	}
	return ranges
}

// serialBits is how much chance a serial number has: CA/Browser Forum asks for
// 64 bits at least.
const serialBits = 120

// sign makes a certificate of a template.
func sign(c, by *x509.Certificate, public *ecdsa.PublicKey, key *ecdsa.PrivateKey) (*x509.Certificate, error) {
	serial, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), serialBits))
	if err != nil {
		return nil, err
	}
	c.SerialNumber = serial
	der, err := x509.CreateCertificate(rand.Reader, c, by, public, key)
	if err != nil {
		return nil, err
	}
	return x509.ParseCertificate(der)
}

// write keeps the authority in a folder that only its owner may enter.
func (a *Authority) write(folder string) error {
	if err := os.MkdirAll(filepath.Dir(folder), 0o711); err != nil { // a private Postgres may run below it
		return err
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return err
	}
	key, err := x509.MarshalPKCS8PrivateKey(a.key)
	if err != nil {
		return err
	}
	// The root comes last: without it there is no authority yet.
	return errors.Join(
		writePEM(filepath.Join(folder, keyFile), "PRIVATE KEY", key),
		writePEM(filepath.Join(folder, intermediateFile), "CERTIFICATE", a.intermediate.Raw),
		writePEM(filepath.Join(folder, rootFile), "CERTIFICATE", a.root.Raw),
	)
}
