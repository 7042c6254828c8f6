package identity

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"strings"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/unicode/norm"
)

// What a hash costs: the least that OWASP's Password Storage Cheat Sheet asks
// of argon2id, so that a small machine at a field signs people in at once.
const (
	passes   = 2
	memory   = 19 * 1024 // KiB
	threads  = 1
	saltSize = 16 // bytes
	keySize  = 32 // bytes
)

// phc is how a hash is written: the string format of the Password Hashing
// Competition.
const phc = "$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s"

// HashPassword hashes a password with a salt of its own by argon2id (RFC 9106).
func HashPassword(password string) string {
	salt := randomBytes(saltSize)
	return written(salt, argon2.IDKey(normal(password), salt, passes, memory, threads, keySize))
}

// written is how a salt and the key made with it are kept.
func written(salt, key []byte) string {
	encode := base64.RawStdEncoding.EncodeToString
	return fmt.Sprintf(phc, argon2.Version, memory, passes, threads, encode(salt), encode(key))
}

func randomBytes(n int) []byte {
	b := make([]byte, n)
	rand.Read(b) // it never fails
	return b
}

// nobody's hash is compared with where there is no account, or none with a
// password, so that the time of an answer does not tell. It is of no password:
// its key is drawn, since to hash one would take a tenth of a second at every
// start of the program.
var nobody = written(randomBytes(saltSize), randomBytes(keySize))

// CheckPassword tells whether a password is the one that was hashed. An empty
// hash takes as long, and is nobody's.
func CheckPassword(hash, password string) bool {
	known := hash != ""
	if !known {
		hash = nobody
	}
	p, err := parse(hash)
	if err != nil {
		return false
	}
	key := argon2.IDKey(normal(password), p.salt, p.passes, p.memory, p.threads, uint32(len(p.key)))
	return subtle.ConstantTimeCompare(key, p.key) == 1 && known
}

type parsed struct {
	memory, passes uint32
	threads        uint8
	salt, key      []byte
}

// parse reads a hash that HashPassword wrote, today or with other costs.
func parse(hash string) (p parsed, err error) {
	parts := strings.Split(hash, "$")
	if len(parts) != 6 {
		return p, fmt.Errorf("a password's hash has %d parts", len(parts))
	}
	var version int
	if _, err = fmt.Sscanf(parts[2]+" "+parts[3], "v=%d m=%d,t=%d,p=%d", &version, &p.memory, &p.passes, &p.threads); err != nil {
		return p, fmt.Errorf("the costs of a password's hash: %w", err)
	}
	if parts[1] != "argon2id" || version != argon2.Version || p.passes < 1 || p.threads < 1 {
		return p, fmt.Errorf("a password's hash is of the kind %s, version %d", parts[1], version)
	}
	if p.salt, err = base64.RawStdEncoding.DecodeString(parts[4]); err != nil {
		return p, fmt.Errorf("the salt of a password's hash: %w", err)
	}
	if p.key, err = base64.RawStdEncoding.DecodeString(parts[5]); err != nil {
		return p, fmt.Errorf("the key of a password's hash: %w", err)
	}
	return p, nil
}

// normal is the text that is hashed: the same for every keyboard that writes
// the same characters in another way (NIST SP 800-63B, section 5.1.1.2).
func normal(password string) []byte { return norm.NFKC.Bytes([]byte(password)) }
