package identity

import (
	"strings"
	"testing"
)

func TestPairingCodes(t *testing.T) {
	t.Parallel()
	seen, counts := map[string]bool{}, map[rune]int{}
	for range 3000 {
		code := NewPairingCode()
		if len(code) != 8 || seen[code] {
			t.Fatalf("%q is not of 8 characters, or came before", code)
		}
		seen[code] = true
		for _, r := range code {
			counts[r]++
		}
	}
	if len(counts) != 24 {
		t.Errorf("%d characters are used, want 24", len(counts))
	}
	for r, n := range counts {
		if strings.ContainsRune("0O1IL2Z5S8BV", r) || n < 800 || n > 1200 { // 1000 each, by far more than chance
			t.Errorf("%c came %d times of 24000", r, n)
		}
	}
}

func TestPairingCodesAsTyped(t *testing.T) {
	t.Parallel()
	for _, typed := range []string{"ACDE3467", "acde3467", "acde-3467", " ACDE 3467 "} {
		if got := ReadPairingCode(typed); got != "ACDE3467" {
			t.Errorf("%q is %q", typed, got)
		}
	}
}

func TestPairingLinks(t *testing.T) {
	t.Parallel()
	if a, b := NewPairingLink(), NewPairingLink(); a == b || len(a) != 22 || strings.ContainsAny(a, "+/=") {
		t.Errorf("%q and %q", a, b)
	}
}
