package authority

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const name = "judging.test"

func open(t *testing.T, folder string) *Authority {
	t.Helper()
	a, err := Open(folder, name, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// verify holds a chain against the root, as a tablet that trusts it does.
func verify(t *testing.T, a *Authority, chain [][]byte, host string) error {
	t.Helper()
	roots, between := x509.NewCertPool(), x509.NewCertPool()
	roots.AddCert(a.root)
	leaf, err := x509.ParseCertificate(chain[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, der := range chain[1:] {
		c, err := x509.ParseCertificate(der)
		if err != nil {
			t.Fatal(err)
		}
		between.AddCert(c)
	}
	_, err = leaf.Verify(x509.VerifyOptions{
		Roots: roots, Intermediates: between, DNSName: host, KeyUsages: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	})
	return err
}

func TestTheServerIsTrustedUnderItsNames(t *testing.T) {
	t.Parallel()
	a := open(t, filepath.Join(t.TempDir(), "tls"))
	c, err := a.Certificate(&tls.ClientHelloInfo{ServerName: name})
	if err != nil {
		t.Fatal(err)
	}
	for _, host := range []string{name, "localhost", "127.0.0.1"} {
		if err := verify(t, a, c.Certificate, host); err != nil {
			t.Errorf("%s: %v", host, err)
		}
	}
	if err := verify(t, a, c.Certificate, "elsewhere.test"); err == nil {
		t.Error("it is trusted under another name")
	}
}

// TestItCannotSpeakForOthers: whoever steals the intermediate's key has nothing
// that tablets trust for any other name.
func TestItCannotSpeakForOthers(t *testing.T) {
	t.Parallel()
	a := open(t, filepath.Join(t.TempDir(), "tls"))
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	for _, host := range []string{"bank.example", "8.8.8.8"} {
		c := template("", time.Now(), time.Hour)
		c.KeyUsage, c.ExtKeyUsage = x509.KeyUsageDigitalSignature, []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}
		if ip := net.ParseIP(host); ip != nil {
			c.IPAddresses = []net.IP{ip}
		} else {
			c.DNSNames = []string{host}
		}
		leaf, err := sign(c, a.intermediate, &key.PublicKey, a.key)
		if err != nil {
			t.Fatal(err)
		}
		if err := verify(t, a, [][]byte{leaf.Raw, a.intermediate.Raw}, host); err == nil {
			t.Errorf("it can speak for %s", host)
		}
	}
	if !a.intermediate.MaxPathLenZero || !a.intermediate.PermittedDNSDomainsCritical {
		t.Error("the intermediate may make others, or its bounds may be overlooked")
	}
}

func TestAnAuthorityIsKept(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "data", "tls")
	first := open(t, folder)
	again := open(t, folder)
	if first.Fingerprint() != again.Fingerprint() {
		t.Error("another authority was made")
	}
	files, err := os.ReadDir(folder)
	if err != nil || len(files) != 3 {
		t.Fatalf("%v, %v; want the root's and the intermediate's certificate and the latter's key alone", files, err)
	}
	for _, f := range files {
		if info, err := f.Info(); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s may be read by others: %v %v", f.Name(), info.Mode(), err)
		}
	}
	if c, err := again.Certificate(&tls.ClientHelloInfo{}); err != nil {
		t.Error(err)
	} else if err := verify(t, first, c.Certificate, name); err != nil {
		t.Error(err)
	}
}

func TestWhatCannotBeOpened(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "tls")
	open(t, folder)
	late := time.Now().Add(lasts + time.Hour)
	for want, open := range map[string]func() (*Authority, error){
		"not for other.test": func() (*Authority, error) { return Open(folder, "other.test", time.Now()) },
		"time was over":      func() (*Authority, error) { return Open(folder, name, late) },
		"no host name":       func() (*Authority, error) { return Open(folder, "Judging Field", time.Now()) },
		"two parts":          func() (*Authority, error) { return Open(folder, "judging", time.Now()) },
		"two parts or more":  func() (*Authority, error) { return Open(folder, "10.0.0.1", time.Now()) },
		"intermediate-key":   func() (*Authority, error) { return Open(without(t, keyFile), name, time.Now()) },
	} {
		if _, err := open(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not say %q", err, want)
		}
	}
}

// without is the folder of an authority that misses a file.
func without(t *testing.T, file string) string {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "tls")
	open(t, folder)
	if err := os.Remove(filepath.Join(folder, file)); err != nil {
		t.Fatal(err)
	}
	return folder
}

func TestCertificatesAreRenewed(t *testing.T) {
	t.Parallel()
	a := open(t, filepath.Join(t.TempDir(), "tls"))
	now, ends := time.Now(), a.Ends()
	c, err := a.issue(now, net.IPv4(192, 168, 7, 7))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []struct {
		name string
		at   time.Time
		here net.IP
		want bool
	}{
		{"new", now, nil, true},
		{"at its address", now, net.IPv4(192, 168, 7, 7), true},
		{"at another address", now, net.IPv4(192, 168, 7, 8), false},
		{"reached through a public address", now, net.IPv4(8, 8, 8, 8), true},
		{"late", now.Add(serverLasts - renewBefore + time.Hour), nil, false},
	} {
		if got := isGood(c.Leaf, w.at, ends, w.here); got != w.want {
			t.Errorf("%s: good is %t", w.name, got)
		}
	}
	first, err := a.Certificate(&tls.ClientHelloInfo{})
	if err != nil {
		t.Fatal(err)
	}
	if again, err := a.Certificate(&tls.ClientHelloInfo{}); err != nil || again != first {
		t.Errorf("a certificate that is good was made anew: %v", err)
	}
}
