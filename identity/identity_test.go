package identity

import (
	"strings"
	"testing"
	"time"
)

func TestSecretsDiffer(t *testing.T) {
	t.Parallel()
	a, b := NewSecret(), NewSecret()
	if a == b || len(a) != 43 || strings.ContainsAny(a, "+/=") {
		t.Errorf("%q and %q", a, b)
	}
	if HashSecret(a) == HashSecret(b) || HashSecret(a) != HashSecret(a) {
		t.Error("the hashes do not tell secrets apart")
	}
}

func TestPasswordIsItsHashsAlone(t *testing.T) {
	t.Parallel()
	const password = "a crow on every fence post"
	hash := HashPassword(password)
	if !strings.HasPrefix(hash, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Errorf("the hash is %s", hash)
	}
	if !CheckPassword(hash, password) {
		t.Error("the password is not its own")
	}
	for _, other := range []string{"", "A crow on every fence post", password + " "} {
		if CheckPassword(hash, other) {
			t.Errorf("%q is taken too", other)
		}
	}
	if HashPassword(password) == hash {
		t.Error("two hashes have one salt")
	}
}

// The ways of writing ü: one character, or a u with two dots put on it.
func TestPasswordIsTheSameOnEveryKeyboard(t *testing.T) {
	t.Parallel()
	if !CheckPassword(HashPassword("m\u00fcde kr\u00e4hen im wind"), "mu\u0308de kra\u0308hen im wind") {
		t.Error("the same characters are another password")
	}
}

func TestNoHashIsNobodys(t *testing.T) {
	t.Parallel()
	for _, hash := range []string{
		"", "plain", "$argon2id$v=19$m=19456,t=2,p=1$AAAA", "$argon2i$v=19$m=19456,t=2,p=1$AAAA$AAAA",
		"$argon2id$v=19$m=19456,t=0,p=1$AAAA$AAAA", "$argon2id$v=19$m=19456,t=2,p=1$!$AAAA", "$argon2id$v=19$m=19456,t=2,p=1$AAAA$!",
	} {
		if CheckPassword(hash, "") || CheckPassword(hash, "plain") {
			t.Errorf("%q is somebody's", hash)
		}
	}
}

// The time of an answer must not tell whether there is an account: both ways
// hash once. Only the order of magnitude is held, on a machine that others use.
func TestNobodyTakesAsLong(t *testing.T) {
	t.Parallel()
	hash := HashPassword("a crow on every fence post")
	took := func(hash string) time.Duration {
		least := time.Hour
		for range 5 {
			start := time.Now()
			CheckPassword(hash, "wrong")
			least = min(least, time.Since(start))
		}
		return least
	}
	if somebody, none := took(hash), took(""); none < somebody/3 || somebody < none/3 {
		t.Errorf("an account takes %v, none %v", somebody, none)
	}
}

func TestFaultsOfPasswords(t *testing.T) {
	t.Parallel()
	for password, want := range map[string]string{
		"eleven char":                  "has 11 characters",
		strings.Repeat("äbcdefgh", 33): "has 264 characters",
		"aaaaaaaaaaaabbb":              "too few different",
		"Password1234":                 "everybody tries",
		"QWERTYUIOP123":                "everybody tries",
		"halfpoint2026":                "little more than a name",
		"mara.quist@example.org":       "little more than a name",
		"Quist-Mara-1984":              "little more than a name",
		"twelve chars":                 "",
		"kräheäpfel12":                 "",
		"a crow on every fence post":   "",
		"mara and twelve crows":        "",
	} {
		got := FaultOf(password, "mara.quist@example.org", "Mara Quist")
		if (want == "") != (got == "") || !strings.Contains(got, want) {
			t.Errorf("%q: %q, want %q", password, got, want)
		}
	}
}

func TestCommonPasswordsAreWritten(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for line := range strings.Lines(common) {
		word := strings.TrimSuffix(line, "\n")
		if len(word) < LeastPassword || word != strings.ToLower(word) || seen[word] {
			t.Errorf("%q is short anyway, not in lower case, or there twice", word)
		}
		seen[word] = true
	}
}
