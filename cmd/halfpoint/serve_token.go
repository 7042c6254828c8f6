package main

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
)

// officeToken is the token of whoever is the office: the configured one, or the
// one in the data folder, which is made where there is none.
func officeToken(c *config) (string, error) {
	if c.token != "" {
		return c.token, nil
	}
	path := filepath.Join(c.data, "office-token")
	token, err := readToken(path)
	if errors.Is(err, fs.ErrNotExist) {
		token, err = makeToken(path)
	}
	if err != nil {
		return "", fmt.Errorf("the office's token: %w", err)
	}
	slog.Info("the office's token is in a file", "path", path)
	return token, nil
}

func readToken(path string) (string, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	token := strings.TrimSpace(string(text))
	if len(token) < leastToken {
		return "", fmt.Errorf("%s holds fewer than %d characters; delete it, and another one is made", path, leastToken)
	}
	return token, nil
}

// makeToken writes a new token to a file that only its owner may read. Where
// another process has just done so, its token is the one.
func makeToken(path string) (string, error) {
	token := rand.Text()
	err := writeSecret(path, []byte(token+"\n"))
	if errors.Is(err, fs.ErrExist) {
		return readToken(path)
	}
	return token, err
}
