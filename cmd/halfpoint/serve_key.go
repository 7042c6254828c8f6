package main

import (
	"cmp"
	"crypto/ed25519"
	"crypto/rand"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"halfpoint/db/whole"
	"halfpoint/scoring/publication"
)

// pemPrivate is the type of the PEM block of a private key.
const pemPrivate = "PRIVATE KEY"

// keyFile is where the key is that publications are signed with.
func keyFile(path, data string) string { return cmp.Or(path, filepath.Join(data, "signing-key.pem")) }

// signingKey reads the key that publications are signed with, and makes one
// where there is none. Every process of an installation uses the same file.
func signingKey(path string) (ed25519.PrivateKey, error) {
	key, err := readSigningKey(path)
	if errors.Is(err, fs.ErrNotExist) {
		key, err = makeSigningKey(path)
	}
	if err != nil {
		return nil, fmt.Errorf("the key for publications: %w", err)
	}
	return key, nil
}

// mayOthersRead are the rights that nobody but the owner may have to the file.
const mayOthersRead = 0o077

func readSigningKey(path string) (ed25519.PrivateKey, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.Mode().Perm()&mayOthersRead != 0 {
		return nil, fmt.Errorf("others than its owner may read or write %s: chmod 600 it, or where others had it, publish with a new one", path)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	return parseSigningKey(path, text)
}

func parseSigningKey(path string, text []byte) (ed25519.PrivateKey, error) {
	block, _ := pem.Decode(text)
	if block == nil || block.Type != pemPrivate {
		return nil, fmt.Errorf("%s holds no private key in PEM", path)
	}
	read, err := x509.ParsePKCS8PrivateKey(block.Bytes)
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", path, err)
	}
	key, ok := read.(ed25519.PrivateKey)
	if !ok {
		return nil, fmt.Errorf("%s holds another key than one of Ed25519", path)
	}
	return key, nil
}

// makeSigningKey writes a new key to a file that only its owner may read. The
// file has its name once it is whole; where another process was faster, its key
// is the one.
func makeSigningKey(path string) (ed25519.PrivateKey, error) {
	_, key, err := ed25519.GenerateKey(rand.Reader)
	if err != nil {
		return nil, err
	}
	der, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	text := pem.EncodeToMemory(&pem.Block{Type: pemPrivate, Bytes: der})
	if err := writeSecret(path, text); errors.Is(err, fs.ErrExist) {
		return readSigningKey(path)
	} else if err != nil {
		return nil, err
	}
	return key, nil
}

// writeSecret writes a file that is not there yet, whole or not at all, for its
// owner alone.
func writeSecret(path string, text []byte) error {
	// The private Postgres may run as another user below this folder.
	if err := os.MkdirAll(filepath.Dir(path), 0o711); err != nil {
		return err
	}
	return whole.Make(path, text, 0o600)
}

// fingerprint names a key as prints and verify do.
func fingerprint(key ed25519.PrivateKey) string {
	return publication.Fingerprint(key.Public().(ed25519.PublicKey))
}
