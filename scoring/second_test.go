package scoring

import (
	"bytes"
	"encoding/json"
	"strconv"
	"testing"
)

// TestSecondImplementationAgrees holds odd little contests against what a second
// implementation of the method makes of them: see testdata/second/README.md.
func TestSecondImplementationAgrees(t *testing.T) {
	contests := bytes.Split(bytes.TrimSpace(readFile(t, "../testdata/second/contests.jsonl")), []byte("\n"))
	for n, line := range contests {
		t.Run(strconv.Itoa(n), func(t *testing.T) {
			var c struct{ Bundle, Results json.RawMessage }
			if err := json.Unmarshal(line, &c); err != nil {
				t.Fatal(err)
			}
			b, err := DecodeBundle(c.Bundle)
			if err != nil {
				t.Fatal(err)
			}
			compare(t, "", parse(t, Score(b).Encode()), parse(t, c.Results))
		})
	}
}
