package identity

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"
)

// TestWords: the vectors of BIP-39 for entropy of 128 bits
// (https://github.com/trezor/python-mnemonic, vectors.json); of each the first six
// words, which are of its first 66 bits alone.
func TestWords(t *testing.T) {
	t.Parallel()
	for entropy, want := range map[string]string{
		"00000000000000000000000000000000": "abandon abandon abandon abandon abandon abandon",
		"7f7f7f7f7f7f7f7f7f7f7f7f7f7f7f7f": "legal winner thank year wave sausage",
		"80808080808080808080808080808080": "letter advice cage absurd amount doctor",
		"ffffffffffffffffffffffffffffffff": "zoo zoo zoo zoo zoo zoo",
		"9e885d952ad362caeb4efe34a8e91bd2": "ozone drill grab fiber curtain grace",
	} {
		sum, err := hex.DecodeString(entropy + strings.Repeat("00", sha256.Size/2))
		if err != nil {
			t.Fatal(err)
		}
		if got := Words([sha256.Size]byte(sum)); got != want {
			t.Errorf("%s: %q, want %q", entropy, got, want)
		}
	}
}
