package line

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"math/big"
	"strconv"
	"strings"
)

// RecordText is the text that a device signs with its key: UTF-8 lines ended by
// LF, `halfpoint-record/1`, the contest, then for each field of the record that
// is not empty its JSON name, a tab and its value, in the order of [Record] but
// for the attempt, which is always there. Ids in a list have spaces between
// them; a penalty has kind, count and points with tabs between. Backslash, tab,
// CR and LF are escaped as in [SheetText]. How the record is delivered (Seq)
// and the signature itself are not in it.
func RecordText(contest string, r Record) []byte {
	w := recordWriter{text: []byte("halfpoint-record/1\n" + contest + "\n")}
	w.field("id", r.ID)
	w.field("kind", string(r.Kind))
	w.field("flight", r.Flight)
	w.field("attempt", strconv.Itoa(r.attempt()))
	w.field("judge", r.Judge)
	w.field("by", r.By)
	w.field("item", number(r.Item))
	w.field("grade", r.Grade)
	w.field("remark", r.Remark)
	w.field("sequence", r.Sequence)
	w.field("replaces", strings.Join(r.Replaces, " "))
	w.field("adopts", strings.Join(r.Adopts, " "))
	w.field("covers", strings.Join(r.Covers, " "))
	w.field("after", strings.Join(r.After, " "))
	w.field("digest", r.Digest)
	w.field("ruling", r.Ruling)
	if p := r.Penalty; p != nil {
		w.field("penalty", p.Kind, strconv.Itoa(p.Count), decimal(p.Points))
	}
	if r.Absent != nil {
		w.field("absent", strconv.FormatBool(*r.Absent))
	}
	w.field("status", r.Status)
	w.field("wind", r.Wind)
	w.field("reason", r.Reason)
	w.field("entered_at", r.EnteredAt)
	return w.text
}

type recordWriter struct{ text []byte }

// field writes a field, or nothing where its first value is empty.
func (w *recordWriter) field(name string, values ...string) {
	if values[0] == "" {
		return
	}
	w.text = append(w.text, name...)
	for _, v := range values {
		w.text = append(append(w.text, '\t'), escape.Replace(v)...)
	}
	w.text = append(w.text, '\n')
}

func number(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// decimal writes a number as ECMAScript does, which is how JSON does.
func decimal(n float64) string {
	text, err := json.Marshal(n)
	if err != nil { // no number: such a record is malformed
		return "-"
	}
	return string(text)
}

// signatureBytes is the length of a signature: r and s, 32 bytes each.
const signatureBytes = 64

// SignedBy tells whether the record's signature is that of a device: ECDSA on
// P-256 with SHA-256 over [RecordText], r and s in base64url without padding.
// The public key is a point in uncompressed form, 65 bytes.
func (r Record) SignedBy(publicKey []byte, contest string) bool {
	key, err := ecdsa.ParseUncompressedPublicKey(elliptic.P256(), publicKey)
	if err != nil {
		return false
	}
	signature, err := base64.RawURLEncoding.DecodeString(r.Signature)
	if err != nil || len(signature) != signatureBytes {
		return false
	}
	sum := sha256.Sum256(RecordText(contest, r))
	half := signatureBytes / 2
	return ecdsa.Verify(key, sum[:], new(big.Int).SetBytes(signature[:half]), new(big.Int).SetBytes(signature[half:]))
}

// IsPublicKey tells whether bytes are a device's public key as [Record.SignedBy]
// takes it.
func IsPublicKey(publicKey []byte) bool {
	_, err := ecdsa.ParseUncompressedPublicKey(elliptic.P256(), publicKey)
	return err == nil
}
