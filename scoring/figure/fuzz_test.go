package figure

import (
	"bytes"
	"encoding/json"
	"testing"

	"halfpoint/scoring/document"
)

func FuzzSequence(f *testing.F) {
	f.Add([]byte(`{"items":[{"kind":"figure","k":14.5,"elements":["5.2.1.1"],"element_k":[14.5],"words":{"name":"x"},"moves":[{"arc":225},{"line":[{"kind":"flick","turns":1.5,"left":true}]},{"arc":45}]},{"kind":"overall","k":1}],"limits":{"max_k":9,"repeat_allowed":["9.1"],"require":[{"any":["5."]}]},"entry":{"inverted":true}}`))
	f.Add([]byte(`{"items":[{"kind":"figure","k":1,"moves":[{"spin":1.25},{"line":[]},{"pivot":true},{"slide":"canopy-up"},{"turn":90,"rolls":2}]}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := ReadSequence(text, nil)
		if err != nil {
			return
		}
		for _, item := range s.Items {
			rereadMoves(t, item)
		}
		checked := Check(s, Table{"5.2.1.1": 140})
		if _, err := json.Marshal(checked); err != nil {
			t.Error(err)
		}
	})
}

// rereadMoves writes moves and reads them again.
func rereadMoves(t *testing.T, item Item) {
	t.Helper()
	if len(item.MoveErrors) > 0 || len(item.Moves) == 0 {
		return
	}
	first, err := json.Marshal(item.Moves)
	if err != nil {
		t.Fatal(err)
	}
	var report document.Report
	v, _ := document.Parse(first, &report)
	second, err := json.Marshal(ReadMoves(v))
	if err != nil || report.Err() != nil || !bytes.Equal(first, second) {
		t.Errorf("%s came back as %s (%v, %v)", first, second, err, report.Err())
	}
}

func FuzzTable(f *testing.F) {
	f.Add("number,k\n5.2.1.1,17\n")
	f.Fuzz(func(_ *testing.T, text string) {
		_, _ = ReadTable([]byte(text))
	})
}
