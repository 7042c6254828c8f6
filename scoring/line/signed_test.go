package line

import (
	"encoding/base64"
	"path/filepath"
	"testing"
)

func TestSignedRecords(t *testing.T) {
	var file struct {
		Contest   string `json:"contest"`
		PublicKey string `json:"public_key"`
		Records   []struct {
			Name   string `json:"name"`
			Record Record `json:"record"`
			Text   string `json:"text"`
		} `json:"records"`
	}
	readStrict(t, filepath.Join(vectorDir, "signed.json"), &file)
	key, err := base64.RawURLEncoding.DecodeString(file.PublicKey)
	if err != nil || !IsPublicKey(key) {
		t.Fatalf("the key: %v", err)
	}
	for _, v := range file.Records {
		if got := string(RecordText(file.Contest, v.Record)); got != v.Text {
			t.Errorf("%s: text %q, want %q", v.Name, got, v.Text)
		}
		if !v.Record.SignedBy(key, file.Contest) {
			t.Errorf("%s: the signature does not hold", v.Name)
		}
		if v.Record.SignedBy(key, "another contest") {
			t.Errorf("%s: the signature holds in another contest", v.Name)
		}
		other := v.Record
		other.Reason += "!"
		if other.SignedBy(key, file.Contest) {
			t.Errorf("%s: the signature holds for another record", v.Name)
		}
		other = v.Record
		other.Seq++
		if !other.SignedBy(key, file.Contest) {
			t.Errorf("%s: the signature is of the delivery too", v.Name)
		}
	}
}

func TestWhatIsNoSignature(t *testing.T) {
	point := make([]byte, 65)
	for _, signature := range []string{"", "AAAA", "not base64url!", base64.RawURLEncoding.EncodeToString(make([]byte, signatureBytes))} {
		if (Record{Signature: signature}).SignedBy(point, "C") {
			t.Errorf("%q is a signature", signature)
		}
	}
	if IsPublicKey(nil) || IsPublicKey(point) {
		t.Error("a point that is not on the curve is a key")
	}
}
