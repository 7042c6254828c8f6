package scoring

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// Encode writes the bundle as compact JSON with every option written out.
// What it writes reads back as the same bundle, and the same bundle is always
// written in the same way.
func (b *Bundle) Encode() ([]byte, error) {
	whole := *b
	whole.Format = BundleFormat
	whole.Judges = append([]Judge{}, b.Judges...)
	whole.Pilots = append([]Pilot{}, b.Pilots...)
	whole.Categories = append([]Category{}, b.Categories...)
	text, err := encode(&whole)
	if err != nil {
		return nil, fmt.Errorf("writing a bundle: %w", err)
	}
	return text, nil
}

// encode writes JSON without escaping <, > and &, with a newline at its end.
func encode(v any) ([]byte, error) {
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	err := encoder.Encode(v)
	return text.Bytes(), err
}
