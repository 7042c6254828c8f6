// Package identity is what proves who somebody is: secrets that are shown once
// and kept as a hash, passwords, and the codes of a second factor. It stores
// nothing and asks no clock.
package identity

import (
	"crypto/sha256"
	"encoding/base64"
)

// A Hash is all that is kept of a secret.
type Hash = [sha256.Size]byte

// NewSecret makes 256 random bits, written in 43 characters that stand in a
// link or a cookie as they are.
func NewSecret() string {
	return base64.RawURLEncoding.EncodeToString(randomBytes(32))
}

// HashSecret is what a secret is found by. A secret has more bits than anyone
// can try, so that a plain hash is enough.
func HashSecret(secret string) Hash { return sha256.Sum256([]byte(secret)) }
