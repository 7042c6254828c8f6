package scoring

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

// caseFiles lists the bundles of the worked cases.
func caseFiles(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../testdata/cases/*.bundle.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	return files
}

func readFile(t testing.TB, path string) []byte {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func readCase(t testing.TB, path string) *Bundle {
	t.Helper()
	b, err := DecodeBundle(readFile(t, path))
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return b
}

func TestWhatIsEncodedDecodesToTheSame(t *testing.T) {
	for _, path := range caseFiles(t) {
		holdsOverEncoding(t, readCase(t, path))
	}
}

func holdsOverEncoding(t *testing.T, b *Bundle) {
	t.Helper()
	text, err := b.Encode()
	if err != nil {
		t.Fatal(err)
	}
	again, err := DecodeBundle(text)
	if err != nil {
		t.Fatalf("what was encoded is refused: %v", err)
	}
	if !reflect.DeepEqual(b, again) {
		t.Errorf("encoded and decoded differ:\n%+v\n%+v", b, again)
	}
	if second, _ := again.Encode(); !bytes.Equal(text, second) {
		t.Error("the same bundle was encoded in two ways")
	}
}
