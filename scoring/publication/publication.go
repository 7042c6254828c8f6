// Package publication is what published results are: the bytes that were
// scored, the bytes that came out, and a signed statement that binds them to
// a contest, a time and a place in its journal. Anyone can check one without
// us: docs/publications.md shows how.
//
// [Statement] is the signed text, [Publication] all that belongs to one,
// [Publication.Check] what anyone can find out about it, and [Differences] what
// one changed of another.
package publication

import (
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
)

// A Publication is all that anyone needs to check published results.
type Publication struct {
	Statement []byte // as signed
	Signature []byte // Ed25519, 64 bytes
	PublicKey ed25519.PublicKey
	Reason    string // may be empty
	Bundle    []byte // what was scored
	Results   []byte // what came out
}

// A Hash is a SHA-256. As text it is lower-case hexadecimal.
type Hash [sha256.Size]byte

// HashOf is the hash of a text.
func HashOf[T ~string | ~[]byte](text T) Hash { return sha256.Sum256([]byte(text)) }

func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// ParseHash reads a hash as String writes it.
func ParseHash(text string) (h Hash, err error) {
	read, err := hex.DecodeString(text)
	if err != nil || len(read) != len(h) || hex.EncodeToString(read) != text {
		return h, fmt.Errorf("%q is no SHA-256: 64 lower-case hexadecimal digits", text)
	}
	copy(h[:], read)
	return h, nil
}
