package scoring

import (
	"fmt"
	"io"

	"halfpoint/scoring/document"
)

// ReadBundle reads a whole bundle. What is wrong with it comes back as
// document.Complaints, all of it at once; any other error is the reader's own.
func ReadBundle(from io.Reader) (*Bundle, error) {
	text, err := io.ReadAll(io.LimitReader(from, MaxBundleBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading a bundle: %w", err)
	}
	return DecodeBundle(text)
}

// DecodeBundle reads a bundle from its text. What is wrong with it comes back
// as document.Complaints.
func DecodeBundle(text []byte) (*Bundle, error) {
	var report document.Report
	if len(text) > MaxBundleBytes {
		report.Add("", "the document is larger than %d MiB", MaxBundleBytes>>20)
		return nil, report.Err()
	}
	v, ok := document.Parse(text, &report)
	if !ok {
		return nil, report.Err()
	}
	b := readBundle(v)
	if err := report.Err(); err != nil {
		return nil, err
	}
	return b, nil
}

func readBundle(v document.Value) *Bundle {
	b := &Bundle{Format: BundleFormat}
	o, ok := v.Object("format", "contest", "judges", "pilots", "categories")
	if !ok {
		return b
	}
	r := bundleReader{judges: newRegister("judge"), pilots: newRegister("pilot"), categories: newRegister("category")}
	required(o, "format", readFormat)
	b.Contest = required(o, "contest", readContest)
	b.Judges = required(o, "judges", listOf(r.judge))
	b.Pilots = required(o, "pilots", listOf(r.pilot))
	b.Categories = required(o, "categories", listOf(r.category))
	return b
}

func readFormat(v document.Value) string {
	text, ok := v.Text()
	if ok && text != BundleFormat {
		v.Complain("%q where %q was expected", text, BundleFormat)
	}
	return text
}

func readContest(v document.Value) (c Contest) {
	o, ok := v.Object("name", "place", "starts", "ends")
	if !ok {
		return c
	}
	return Contest{
		Name: optional(o, "name", "", readText), Place: optional(o, "place", "", readText),
		Starts: optional(o, "starts", "", readDate), Ends: optional(o, "ends", "", readDate),
	}
}

// A bundleReader knows what the bundle declares.
type bundleReader struct{ judges, pilots, categories register }

func (r *bundleReader) judge(v document.Value) (j Judge) {
	o, ok := v.Object("id", "name", "affiliation")
	if !ok {
		return j
	}
	return Judge{
		ID: required(o, "id", r.judges.declare), Name: optional(o, "name", "", readText),
		Affiliation: optional(o, "affiliation", "", readText),
	}
}

func (r *bundleReader) pilot(v document.Value) (p Pilot) {
	o, ok := v.Object("id", "name", "affiliation", "aircraft", "note")
	if !ok {
		return p
	}
	return Pilot{
		ID: required(o, "id", r.pilots.declare), Name: optional(o, "name", "", readText),
		Affiliation: optional(o, "affiliation", "", readText), Aircraft: optional(o, "aircraft", "", readText),
		Note: optional(o, "note", "", readText),
	}
}
