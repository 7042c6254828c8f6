package publication

import (
	"crypto/ed25519"
	"crypto/sha256"
	"crypto/x509"
	"encoding/hex"
	"encoding/pem"
	"errors"
	"fmt"
)

// pemPublic is the type of the PEM block of a public key.
const pemPublic = "PUBLIC KEY"

// Fingerprint names a key: the SHA-256 of its SubjectPublicKeyInfo (RFC 8410),
// in lower-case hexadecimal. It is what
//
//	openssl pkey -pubin -in key.pem -outform DER | sha256sum
//
// prints.
func Fingerprint(key ed25519.PublicKey) string {
	sum := sha256.Sum256(spki(key))
	return hex.EncodeToString(sum[:])
}

func spki(key ed25519.PublicKey) []byte {
	der, err := x509.MarshalPKIXPublicKey(key)
	if err != nil {
		panic(err) // no key of this type is an error
	}
	return der
}

// WriteKey writes a public key as PEM.
func WriteKey(key ed25519.PublicKey) []byte {
	return pem.EncodeToMemory(&pem.Block{Type: pemPublic, Bytes: spki(key)})
}

// ReadKey reads a public key of PEM.
func ReadKey(text []byte) (ed25519.PublicKey, error) {
	block, _ := pem.Decode(text)
	if block == nil || block.Type != pemPublic {
		return nil, errors.New("a public key in PEM was expected")
	}
	read, err := x509.ParsePKIXPublicKey(block.Bytes)
	if err != nil {
		return nil, fmt.Errorf("reading a public key: %w", err)
	}
	key, ok := read.(ed25519.PublicKey)
	if !ok {
		return nil, errors.New("the public key is not one of Ed25519")
	}
	return key, nil
}

// Sign makes a publication: it fills in whose key signs and the hashes of the
// reason, the bundle and the results.
func Sign(key ed25519.PrivateKey, s Statement, reason string, bundle, results []byte) *Publication {
	public := key.Public().(ed25519.PublicKey)
	s.Key = Fingerprint(public)
	s.Reason, s.Bundle, s.Results = HashOf(reason), HashOf(bundle), HashOf(results)
	text := []byte(s.Text())
	return &Publication{
		Statement: text, Signature: ed25519.Sign(key, text), PublicKey: public,
		Reason: reason, Bundle: bundle, Results: results,
	}
}
