package main

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

const fieldName = "judging.test"

// TestOwnCertificatesAreTrusted: a tablet that trusts the certificate which the
// service offers reaches it under its name, and nobody else does.
func TestOwnCertificatesAreTrusted(t *testing.T) {
	t.Parallel()
	c := &config{data: filepath.Join(t.TempDir(), "data"), tlsOwn: fieldName}
	e, err := c.encrypt(time.Now())
	if err != nil {
		t.Fatal(err)
	}
	listener, err := new(net.ListenConfig).Listen(t.Context(), "tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{Handler: e.pages(http.NotFoundHandler()), TLSConfig: e.config, ReadHeaderTimeout: headerTime}
	go func() { _ = serveOn(server, listener) }() // ends with the test
	t.Cleanup(func() { _ = server.Close() })

	address := "https://" + fieldName + certificatePath
	careless := clientOf(listener, &tls.Config{InsecureSkipVerify: true}) // as a tablet that trusts nothing yet
	der := get(t, careless, address)
	root, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	trusting := x509.NewCertPool()
	trusting.AddCert(root)
	if again := get(t, clientOf(listener, &tls.Config{RootCAs: trusting}), address); !bytes.Equal(again, der) {
		t.Error("another certificate was offered")
	}
	if response, err := clientOf(listener, &tls.Config{}).Get(address); err == nil {
		response.Body.Close()
		t.Error("it is trusted by whoever does not trust its authority")
	}
}

// clientOf reaches a listener under any name.
func clientOf(listener net.Listener, config *tls.Config) *http.Client {
	dial := func(ctx context.Context, network, _ string) (net.Conn, error) {
		return new(net.Dialer).DialContext(ctx, network, listener.Addr().String())
	}
	return &http.Client{Transport: &http.Transport{DialContext: dial, TLSClientConfig: config}}
}

func get(t *testing.T, client *http.Client, url string) []byte {
	t.Helper()
	response, err := client.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	body, err := io.ReadAll(response.Body)
	if err != nil || response.StatusCode != http.StatusOK {
		t.Fatalf("%d, %v", response.StatusCode, err)
	}
	return body
}

// TestCertificatesOfTheInternetAreKept: one that was got before is used without
// the Internet, and none is got for another name.
func TestCertificatesOfTheInternetAreKept(t *testing.T) {
	t.Parallel()
	c := &config{data: t.TempDir(), tlsName: fieldName}
	kept := filepath.Join(c.data, "tls", "internet")
	if err := os.MkdirAll(kept, 0o700); err != nil {
		t.Fatal(err)
	}
	der := writeKept(t, filepath.Join(kept, fieldName))
	e, err := c.encrypt(time.Now())
	if err != nil {
		t.Fatal(err)
	}
	hello := &tls.ClientHelloInfo{
		ServerName: fieldName, SignatureSchemes: []tls.SignatureScheme{tls.ECDSAWithP256AndSHA256},
		SupportedCurves: []tls.CurveID{tls.CurveP256}, CipherSuites: []uint16{tls.TLS_ECDHE_ECDSA_WITH_AES_128_GCM_SHA256},
	}
	got, err := e.config.GetCertificate(hello)
	if err != nil || !bytes.Equal(got.Certificate[0], der) {
		t.Errorf("the certificate that was kept is not used: %v", err)
	}
	hello.ServerName = "elsewhere.test"
	if _, err := e.config.GetCertificate(hello); err == nil {
		t.Error("a certificate is got for another name")
	}
}

// writeKept writes a key and a certificate as autocert keeps them, and returns
// the certificate.
func writeKept(t *testing.T, path string) []byte {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{
		SerialNumber: big.NewInt(1), DNSNames: []string{fieldName},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(60 * 24 * time.Hour),
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalECPrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	text := slices.Concat(
		pem.EncodeToMemory(&pem.Block{Type: "EC PRIVATE KEY", Bytes: secret}),
		pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}),
	)
	if err := os.WriteFile(path, text, 0o600); err != nil {
		t.Fatal(err)
	}
	return der
}

func TestLinksHaveTheNameThatTabletsUse(t *testing.T) {
	t.Parallel()
	for want, args := range map[string][]string{
		"https://judging.test:8443": {"--tls-own", "Judging.test"},
		"https://contest.example":   {"--tls-name", "contest.example"},
		"http://127.0.0.1:8080":     {"--host", "contest.example"},
	} {
		c, err := configFrom(t, args, nil)
		if err != nil {
			t.Fatal(err)
		}
		local := map[bool]string{true: "https://127.0.0.1:8443", false: "http://127.0.0.1:8080"}[c.isSecure()]
		if c.tlsName != "" {
			local = "https://127.0.0.1:443"
		}
		if got := c.address(local); got != want {
			t.Errorf("%v: links begin with %s, want %s", args, got, want)
		}
	}
}
