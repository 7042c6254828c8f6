package identity

import (
	"testing"
	"time"
)

// vectorKey is the key of the test vectors of RFC 4226 and, for SHA-1, of RFC
// 6238.
var vectorKey = []byte("12345678901234567890")

// TestCodesByCounter holds the table of RFC 4226, appendix D.
func TestCodesByCounter(t *testing.T) {
	t.Parallel()
	for counter, want := range []string{
		"755224", "287082", "359152", "969429", "338314", "254676", "287922", "162583", "399871", "520489",
	} {
		if got := codeAt(vectorKey, uint64(counter), 6); got != want {
			t.Errorf("counter %d: %s, want %s", counter, got, want)
		}
	}
}

// TestCodesByTime holds the rows for SHA-1 of RFC 6238, appendix B.
func TestCodesByTime(t *testing.T) {
	t.Parallel()
	for seconds, want := range map[int64]string{
		59: "94287082", 1111111109: "07081804", 1111111111: "14050471",
		1234567890: "89005924", 2000000000: "69279037", 20000000000: "65353130",
	} {
		if got := codeAt(vectorKey, uint64(seconds/codeStep), 8); got != want {
			t.Errorf("at %d: %s, want %s", seconds, got, want)
		}
	}
}

func TestCodesMayBeAStepOff(t *testing.T) {
	t.Parallel()
	key, at := NewCodeKey(), time.Unix(1_780_000_000, 0)
	for steps, want := range map[int64]bool{-2: false, -1: true, 0: true, 1: true, 2: false} {
		shown := at.Add(time.Duration(steps) * codeStep * time.Second)
		step, ok := CheckCode(key, Code(key, shown), at)
		if ok != want || ok && step != shown.Unix()/codeStep {
			t.Errorf("%d steps off: %d, %v, want %v", steps, step, ok, want)
		}
	}
	for _, wrong := range []string{"", "12345", "abcdef"} {
		if _, ok := CheckCode(key, wrong, at); ok {
			t.Errorf("%q is a code", wrong)
		}
	}
}

func TestKeyAsAppsReadIt(t *testing.T) {
	t.Parallel()
	// RFC 4648, section 10, has MZXW6YTBOI====== for foobar.
	const want = "otpauth://totp/Halfpoint:mara@example.org?issuer=Halfpoint&secret=MZXW6YTBOI"
	if got := CodeURI([]byte("foobar"), "mara@example.org"); got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
