package authority

import (
	"crypto/ecdsa"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"os"
	"path/filepath"
)

// read reads an authority from its folder.
func read(folder, name string) (a *Authority, err error) {
	a = &Authority{name: name}
	if a.root, err = readCertificate(filepath.Join(folder, rootFile)); err != nil {
		return nil, err
	}
	if a.intermediate, err = readCertificate(filepath.Join(folder, intermediateFile)); err != nil {
		return nil, err
	}
	if a.key, err = readKey(filepath.Join(folder, keyFile)); err != nil {
		return nil, err
	}
	if !a.key.PublicKey.Equal(a.intermediate.PublicKey) || len(a.intermediate.PermittedDNSDomains) == 0 {
		return nil, fmt.Errorf("the files in %s do not belong together", folder)
	}
	return a, nil
}

func readCertificate(path string) (*x509.Certificate, error) {
	der, err := readPEM(path, "CERTIFICATE")
	if err != nil {
		return nil, err
	}
	return x509.ParseCertificate(der)
}

func readKey(path string) (*ecdsa.PrivateKey, error) {
	der, err := readPEM(path, "PRIVATE KEY")
	if err != nil {
		return nil, err
	}
	read, err := x509.ParsePKCS8PrivateKey(der)
	if err != nil {
		return nil, err
	}
	key, ok := read.(*ecdsa.PrivateKey)
	if !ok {
		return nil, fmt.Errorf("%s holds another key than one of ECDSA", path)
	}
	return key, nil
}

func readPEM(path, kind string) ([]byte, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	block, _ := pem.Decode(text)
	if block == nil || block.Type != kind {
		return nil, fmt.Errorf("%s holds no %s in PEM", path, kind)
	}
	return block.Bytes, nil
}

// writePEM writes a file for its owner alone.
func writePEM(path, kind string, der []byte) error {
	return os.WriteFile(path, pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der}), 0o600)
}
