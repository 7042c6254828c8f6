package identity

import (
	"crypto/sha256"
	"math/big"
	"strings"

	"github.com/tyler-smith/go-bip39/wordlists"
)

// A fingerprint in words has sixWords of them, each for wordBits bits: 66 in
// all, which nobody finds by trying before a contest is over.
const (
	sixWords = 6
	wordBits = 11
)

// Words are the first 66 bits of a SHA-256, eleven a word, in the English list
// of BIP-39, whose 2,048 words differ in their first four letters: for two people
// to compare aloud.
func Words(sum [sha256.Size]byte) string {
	bits := new(big.Int).SetBytes(sum[:])
	words := make([]string, sixWords)
	for i := range words {
		shift := uint(8*sha256.Size - wordBits*(i+1))
		place := new(big.Int).Rsh(bits, shift).Uint64() & (1<<wordBits - 1)
		words[i] = wordlists.English[place]
	}
	return strings.Join(words, " ")
}
