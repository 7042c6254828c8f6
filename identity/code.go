package identity

import (
	"crypto/hmac"
	"crypto/sha1" //nolint:gosec // what authenticator apps compute, and HMAC does not rest on collisions
	"crypto/subtle"
	"encoding/base32"
	"encoding/binary"
	"fmt"
	"math"
	"net/url"
	"time"
)

// A second factor is a code of the time (TOTP, RFC 6238) as every
// authenticator app computes it.
const (
	codeDigits  = 6
	codeStep    = 30 // seconds
	codeKeySize = 20 // bytes, as RFC 4226 recommends
	codeSlack   = 1  // steps that a clock may be off
)

var codeText = base32.StdEncoding.WithPadding(base32.NoPadding)

// NewCodeKey makes the key of a second factor.
func NewCodeKey() []byte { return randomBytes(codeKeySize) }

// CodeKeyText is a key as it is typed into an app.
func CodeKeyText(key []byte) string { return codeText.EncodeToString(key) }

// CodeURI is a key as an app reads it from a QR code.
func CodeURI(key []byte, account string) string {
	const issuer = "Halfpoint"
	query := url.Values{"secret": {CodeKeyText(key)}, "issuer": {issuer}}
	return "otpauth://totp/" + url.PathEscape(issuer+":"+account) + "?" + query.Encode()
}

// Code is the code of a key at a time.
func Code(key []byte, at time.Time) string {
	return codeAt(key, uint64(at.Unix()/codeStep), codeDigits)
}

// CheckCode tells whether a code is one of the key's at a time, give or take a
// step, and of which step. A step must be taken once only: whoever looks over a
// shoulder could use its code again.
func CheckCode(key []byte, code string, at time.Time) (step int64, ok bool) {
	now := at.Unix() / codeStep
	for s := now - codeSlack; s <= now+codeSlack; s++ {
		if subtle.ConstantTimeCompare([]byte(codeAt(key, uint64(s), codeDigits)), []byte(code)) == 1 {
			step, ok = s, true
		}
	}
	return step, ok
}

// codeAt is HOTP, RFC 4226, section 5.3.
func codeAt(key []byte, counter uint64, digits int) string {
	mac := hmac.New(sha1.New, key)
	mac.Write(binary.BigEndian.AppendUint64(nil, counter))
	sum := mac.Sum(nil)
	offset := sum[len(sum)-1] & 0xf
	number := binary.BigEndian.Uint32(sum[offset:]) & math.MaxInt32
	return fmt.Sprintf("%0*d", digits, int(number)%int(math.Pow10(digits)))
}
