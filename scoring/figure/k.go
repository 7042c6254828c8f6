package figure

import (
	"fmt"
	"math"
	"strconv"

	"halfpoint/scoring/document"
)

// K is a difficulty coefficient, or a sum of them, in tenths.
type K int

// maxK bounds what is read, so that no sum comes near the end of an int.
const maxK = 1_000_000

// ReadK reads a positive number with at most one decimal.
func ReadK(v document.Value) (K, bool) {
	k, ok := readTenths(v)
	if ok && k <= 0 {
		v.Complain("%s is not a positive number", k)
		return 0, false
	}
	return k, ok
}

// readTenths reads a number with at most one decimal.
func readTenths(v document.Value) (K, bool) {
	text, ok := v.Number()
	if !ok {
		return 0, false
	}
	k, ok := parseK(text)
	if !ok {
		v.Complain("%s is not a number with at most one decimal, up to %d", text, maxK)
	}
	return k, ok
}

func parseK(text string) (K, bool) {
	f, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(f) || math.Abs(f) > maxK {
		return 0, false
	}
	tenths := math.Round(f * 10)
	return K(tenths), tenths/10 == f
}

// String writes the number with its decimal where it has one.
func (k K) String() string { return string(k.append(nil)) }

func (k K) append(b []byte) []byte {
	if k < 0 {
		return (-k).append(append(b, '-'))
	}
	b = strconv.AppendInt(b, int64(k/10), 10)
	if k%10 != 0 {
		b = append(b, '.', byte('0'+k%10))
	}
	return b
}

// MarshalJSON writes a JSON number.
func (k K) MarshalJSON() ([]byte, error) { return k.append(nil), nil }

// UnmarshalJSON reads a JSON number with at most one decimal.
func (k *K) UnmarshalJSON(text []byte) error {
	read, ok := parseK(string(text))
	if !ok {
		return fmt.Errorf("%s is not a number with at most one decimal, up to %d", text, maxK)
	}
	*k = read
	return nil
}
