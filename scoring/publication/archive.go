package publication

import (
	"archive/zip"
	"bytes"
	"crypto/ed25519"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"time"

	"halfpoint/scoring"
)

// The files of a publication, in an archive or a folder.
const (
	fileStatement = "statement.txt"
	fileSignature = "statement.sig"
	fileKey       = "key.pem"
	fileReason    = "reason.txt"
	fileBundle    = "bundle.json"
	fileResults   = "results.json"
)

var fileNames = []string{fileStatement, fileSignature, fileKey, fileReason, fileBundle, fileResults}

// maxFile is how many bytes of a file are read; results are several times as
// long as their bundle.
const maxFile = 4 * scoring.MaxBundleBytes

// Archive is the publication as a ZIP file of six files, which openssl and
// sha256sum can check. The files are dated by the statement.
func (p *Publication) Archive() ([]byte, error) {
	var text bytes.Buffer
	archive, dated := zip.NewWriter(&text), time.Time{}
	if s, err := Read(string(p.Statement)); err == nil {
		dated = s.Published
	}
	for _, f := range p.files() {
		w, err := archive.CreateHeader(&zip.FileHeader{Name: f.name, Method: zip.Deflate, Modified: dated})
		if err == nil {
			_, err = w.Write(f.text)
		}
		if err != nil {
			return nil, fmt.Errorf("packing a publication: %w", err)
		}
	}
	if err := archive.Close(); err != nil {
		return nil, fmt.Errorf("packing a publication: %w", err)
	}
	return text.Bytes(), nil
}

type file struct {
	name string
	text []byte
}

func (p *Publication) files() []file {
	return []file{
		{fileStatement, p.Statement},
		{fileSignature, p.Signature},
		{fileKey, WriteKey(p.PublicKey)},
		{fileReason, []byte(p.Reason)},
		{fileBundle, p.Bundle},
		{fileResults, p.Results},
	}
}

// ReadArchive reads a publication as Archive packs it. With another file in it, or
// one twice, what is checked would not be all that others unpack.
func ReadArchive(text []byte) (*Publication, error) {
	archive, err := zip.NewReader(bytes.NewReader(text), int64(len(text)))
	if err != nil {
		return nil, fmt.Errorf("a ZIP file was expected: %w", err)
	}
	if err := checkNames(archive.File); err != nil {
		return nil, err
	}
	return ReadFolder(archive)
}

func checkNames(files []*zip.File) error {
	var seen []string
	for _, f := range files {
		if !slices.Contains(fileNames, f.Name) {
			return fmt.Errorf("%q in the archive is no file of a publication", f.Name)
		}
		if slices.Contains(seen, f.Name) {
			return fmt.Errorf("%s is in the archive twice", f.Name)
		}
		seen = append(seen, f.Name)
	}
	return nil
}

// ReadFolder reads a publication from its files.
func ReadFolder(folder fs.FS) (p *Publication, err error) {
	read := func(name string) []byte {
		text, readErr := readFile(folder, name)
		if err == nil {
			err = readErr
		}
		return text
	}
	key := read(fileKey)
	p = &Publication{
		Statement: read(fileStatement), Signature: read(fileSignature), Reason: string(read(fileReason)),
		Bundle: read(fileBundle), Results: read(fileResults),
	}
	if err != nil {
		return nil, fmt.Errorf("reading a publication: %w", err)
	}
	if p.PublicKey, err = ReadKey(key); err != nil {
		return nil, fmt.Errorf("%s: %w", fileKey, err)
	}
	if len(p.Signature) != ed25519.SignatureSize {
		return nil, fmt.Errorf("%s has %d bytes; a signature has %d", fileSignature, len(p.Signature), ed25519.SignatureSize)
	}
	return p, nil
}

func readFile(folder fs.FS, name string) ([]byte, error) {
	f, err := folder.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }() // it was only read
	text, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	if err == nil && len(text) > maxFile {
		err = fmt.Errorf("%s is larger than %d MiB", name, maxFile>>20)
	}
	return text, err
}
