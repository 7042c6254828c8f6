package publication

import (
	"archive/zip"
	"bytes"
	"crypto/ed25519"
	"encoding/hex"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfpoint/scoring"
)

var update = flag.Bool("update", false, "write the golden files")

const example = "../../testdata/publication"

// exampleKey is the key of TEST 1 in RFC 8032, section 7.1. Everyone knows it.
func exampleKey(t testing.TB) ed25519.PrivateKey {
	t.Helper()
	seed, err := hex.DecodeString("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
	if err != nil {
		t.Fatal(err)
	}
	return ed25519.NewKeyFromSeed(seed)
}

// exampleStatement has values that are all made up.
func exampleStatement() Statement {
	return Statement{
		Contest: "0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7", Scope: Scope{OfProgramme, "0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b8"},
		Number: 3, State: Provisional,
		Published:    time.Date(2026, 6, 12, 10, 14, 3, 120_000_000, time.UTC),
		ProtestUntil: time.Date(2026, 6, 12, 12, 14, 3, 120_000_000, time.UTC),
		Program:      "halfpoint 1.0.0", Preceding: HashOf("the one before"), JournalNumber: 152, JournalHash: HashOf("row 152"),
	}
}

func signed(t testing.TB, s Statement) *Publication {
	t.Helper()
	read := func(name string) []byte {
		text, err := os.ReadFile(filepath.Join(example, name))
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	bundle, err := scoring.DecodeBundle(read(fileBundle))
	if err != nil {
		t.Fatal(err)
	}
	return Sign(exampleKey(t), s, string(read(fileReason)), read(fileBundle), scoring.Score(bundle).Encode())
}

// TestExample holds the files of the worked example in docs/publications.md,
// whose bundle and reason are written by hand.
func TestExample(t *testing.T) {
	t.Parallel()
	p := signed(t, exampleStatement())
	for _, f := range p.files() {
		path := filepath.Join(example, f.name)
		if *update {
			if err := os.WriteFile(path, f.text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil || !bytes.Equal(f.text, want) {
			t.Errorf("%s is not what is there, %v; -update writes it", f.name, err)
		}
	}
	read, err := ReadFolder(os.DirFS(example))
	if err != nil {
		t.Fatal(err)
	}
	if r := read.Check(Fingerprint(p.PublicKey)); !r.Agrees() {
		t.Errorf("%+v", r.Findings)
	}
}

func TestStatementReadsBack(t *testing.T) {
	t.Parallel()
	first := exampleStatement()
	first.Key, first.Preceding, first.ProtestUntil, first.JournalHash = HashOf("key").String(), Hash{}, time.Time{}, Hash{}
	first.JournalNumber = 0
	category := exampleStatement()
	category.Key, category.Scope.Kind, category.State = first.Key, OfCategory, Official
	category.Programmes = []Source{{first.Contest, HashOf("a")}, {first.Scope.ID, HashOf("b")}}
	for _, want := range []Statement{first, category} {
		got, err := Read(want.Text())
		if err != nil || got.Text() != want.Text() || len(got.Programmes) != len(want.Programmes) {
			t.Errorf("%+v, %v\nwant %+v", got, err, want)
		}
	}
}

func TestBadStatementsAreRefused(t *testing.T) {
	t.Parallel()
	s := exampleStatement()
	s.Key = HashOf("key").String()
	text := s.Text()
	for name, c := range map[string]struct{ old, by, says string }{
		"another format":     {"publication/1", "publication/2", "line 1 "},
		"another scope":      {"programme ", "pilot ", "line 4 "},
		"number 0":           {"\n3\n", "\n0\n", "line 5 "},
		"a leading zero":     {"\n3\n", "\n03\n", "line 5 "},
		"an unknown state":   {"provisional", "final", "line 6 "},
		"seconds only":       {"03.120000Z\n2026-06-12T12", "03Z\n2026-06-12T12", "line 7 "},
		"another zone":       {"2026-06-12T12:14:03.120000Z", "2026-06-12T12:14:03.120000+00:00", "line 8 "},
		"upper case":         {s.Preceding.String(), strings.ToUpper(s.Preceding.String()), "line 13 "},
		"a hash of zeros":    {s.Preceding.String(), Hash{}.String(), "line 13 "},
		"no last LF":         {s.JournalHash.String() + "\n", s.JournalHash.String(), "15 lines"},
		"CR":                 {"\n", "\r\n", "line 1 "},
		"a line too many":    {s.JournalHash.String() + "\n", s.JournalHash.String() + "\n\n", "line 16 "},
		"a bell":             {"halfpoint 1", "halfpoint \a1", "line 10 "},
		"a line is left out": {"halfpoint 1.0.0\n", "", "lines or more"},
	} {
		if _, err := Read(strings.Replace(text, c.old, c.by, 1)); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, which does not say %q", name, err, c.says)
		}
	}
}

// FuzzRead holds that what is read is what was written, to the byte.
func FuzzRead(f *testing.F) {
	s := exampleStatement()
	s.Key = HashOf("key").String()
	f.Add(s.Text())
	s.Scope.Kind, s.Programmes = OfCategory, []Source{{s.Contest, HashOf("a")}}
	f.Add(s.Text())
	f.Fuzz(func(t *testing.T, text string) {
		if s, err := Read(text); err == nil && s.Text() != text {
			t.Errorf("%q was read and is written %q", text, s.Text())
		}
	})
}

func TestArchiveReadsBack(t *testing.T) {
	t.Parallel()
	want := signed(t, exampleStatement())
	text, err := want.Archive()
	if err != nil {
		t.Fatal(err)
	}
	got, err := ReadArchive(text)
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range got.files() {
		if !bytes.Equal(f.text, want.files()[i].text) {
			t.Errorf("%s differs", f.name)
		}
	}
	if _, err := ReadArchive(text[:len(text)/2]); err == nil {
		t.Error("half an archive was read")
	}
	if _, err := ReadFolder(os.DirFS(t.TempDir())); err == nil || !strings.Contains(err.Error(), fileKey) {
		t.Errorf("an empty folder: %v", err)
	}
}

// TestArchiveHoldsAPublicationAlone: of a name that is there twice one program
// unpacks the first file and another one the last.
func TestArchiveHoldsAPublicationAlone(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{
		"bundle.json":     "bundle.json is in the archive twice",
		"read-me.txt":     `"read-me.txt" in the archive is no file of a publication`,
		"../results.json": `"../results.json" in the archive is no file of a publication`,
	} {
		var text bytes.Buffer
		archive := zip.NewWriter(&text)
		for _, f := range append(signed(t, exampleStatement()).files(), file{name, []byte("{}")}) {
			w, err := archive.Create(f.name)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := w.Write(f.text); err != nil {
				t.Fatal(err)
			}
		}
		if err := archive.Close(); err != nil {
			t.Fatal(err)
		}
		if _, err := ReadArchive(text.Bytes()); err == nil || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// TestCheckSaysWhatDoesNotAgree changes one thing at a time.
func TestCheckSaysWhatDoesNotAgree(t *testing.T) {
	t.Parallel()
	good := signed(t, exampleStatement())
	other := ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize)).Public().(ed25519.PublicKey)
	for name, c := range map[string]struct {
		change func(p *Publication)
		says   string
	}{
		"a letter of the statement": {func(p *Publication) { p.Statement = bytes.Replace(p.Statement, []byte("\n3\n"), []byte("\n4\n"), 1) }, "signature is not"},
		"another key":               {func(p *Publication) { p.PublicKey = other }, "signature is not"},
		"the bundle":                {func(p *Publication) { p.Bundle = append(bytes.Clone(p.Bundle), '\n') }, "bundle.json is not the stated one"},
		"the reason":                {func(p *Publication) { p.Reason = "" }, "reason.txt is not the stated one"},
		"a score": {func(p *Publication) {
			p.Results = bytes.Replace(p.Results, []byte(`"score":`), []byte(`"score":1`), 1)
		}, "programmes known, flights p1, score: published is 12"},
		"a rank": {func(p *Publication) {
			p.Results = bytes.Replace(p.Results, []byte(`"rank":1`), []byte(`"rank":2`), 1)
		}, "rank: published is 2, computed is 1"},
		"no results": {func(p *Publication) { p.Results = nil }, "the results cannot be read"},
		"a bundle of other sheets": {func(p *Publication) {
			p.Bundle = bytes.Replace(p.Bundle, []byte(`["8.0","7.5","7.0"]`), []byte(`["8.0"]`), 1)
		}, "the bundle cannot be scored"},
		"no statement": {func(p *Publication) { p.Statement = nil }, "a statement has 15 lines"},
	} {
		p := *good
		c.change(&p)
		r := p.Check("")
		var said strings.Builder
		for _, f := range r.Findings {
			if !f.Agrees {
				said.WriteString(f.Text + "\n")
			}
		}
		if r.Agrees() || !strings.Contains(said.String(), c.says) {
			t.Errorf("%s: %q does not say %q", name, said.String(), c.says)
		}
	}
	if r := good.Check(Fingerprint(other)); r.Agrees() {
		t.Error("a key that was not asked for is taken")
	}
}

// TestCloseResultsAgree: two machines may differ in the last digits of what is
// not rounded.
func TestCloseResultsAgree(t *testing.T) {
	t.Parallel()
	text := `{"panel_score":1000,"score":10,"p_first":0.5}`
	for changed, want := range map[string]int{
		`{"panel_score":1000.0000001,"score":10,"p_first":0.5009}`: 0,
		`{"panel_score":1000.00001,"score":10,"p_first":0.5}`:      1,
		`{"panel_score":1000,"score":10.0000000001,"p_first":0.5}`: 1,
		`{"panel_score":1000,"score":10,"p_first":0.502}`:          1,
		`{"panel_score":1000,"score":null}`:                        2,
		`{"panel_score":[],"score":{},"p_first":"0.5"}`:            3,
	} {
		got, err := compare([]byte(changed), []byte(text))
		if err != nil || len(got) != want {
			t.Errorf("%s: %q, %v; want %d differences", changed, got, err, want)
		}
	}
}

func TestKeyReadsBack(t *testing.T) {
	t.Parallel()
	key := exampleKey(t).Public().(ed25519.PublicKey)
	if got, err := ReadKey(WriteKey(key)); err != nil || !got.Equal(key) {
		t.Errorf("%x, %v", got, err)
	}
	for _, text := range []string{"", "-----BEGIN PUBLIC KEY-----\nAAAA\n-----END PUBLIC KEY-----\n"} {
		if _, err := ReadKey([]byte(text)); err == nil {
			t.Errorf("%q is read as a key", text)
		}
	}
}
