package identity

import (
	"crypto/rand"
	"encoding/base64"
	"strings"
)

// The code of a pairing is typed from a screen or from paper, in the wind: its
// characters are those that nobody takes for another one.
const (
	pairingAlphabet = "34679ACDEFGHJKMNPQRTUWXY"
	pairingLength   = 8
	linkSize        = 16 // bytes
)

// NewPairingCode makes a code of 8 characters, of 24 that do not look alike:
// 36 bits, enough for what is good once and for minutes where wrong codes slow
// down.
func NewPairingCode() string {
	code := make([]byte, 0, pairingLength)
	const even = 256 / len(pairingAlphabet) * len(pairingAlphabet) // above, some would come more often
	for len(code) < pairingLength {
		drawn := make([]byte, pairingLength)
		rand.Read(drawn) // it never fails
		for _, b := range drawn {
			if int(b) < even && len(code) < pairingLength {
				code = append(code, pairingAlphabet[int(b)%len(pairingAlphabet)])
			}
		}
	}
	return string(code)
}

// ReadPairingCode is a code as [NewPairingCode] makes it, however it was typed:
// in small letters, with spaces or dashes.
func ReadPairingCode(typed string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' {
			return -1
		}
		return r
	}, strings.ToUpper(typed))
}

// NewPairingLink makes 128 random bits, written in 22 characters that stand in
// the fragment of a link as they are.
func NewPairingLink() string {
	return base64.RawURLEncoding.EncodeToString(randomBytes(linkSize))
}
