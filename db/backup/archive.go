package backup

import (
	"archive/tar"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"filippo.io/age"
)

// The names in a backup.
const (
	fileManifest = "manifest.json"
	fileDump     = "database.dump"
	folderFiles  = "files/" // of the data folder
)

// magic begins every age file.
const magic = "age-encryption.org/"

// pack writes the archive.
func (s *Source) pack(path string, m *Manifest, dump, passphrase string) (err error) {
	to, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, to.Sync(), to.Close()) }()
	if passphrase == "" {
		return s.packInto(to, m, dump, nil)
	}
	recipient, err := age.NewScryptRecipient(passphrase)
	if err != nil {
		return err
	}
	sealed, err := age.Encrypt(to, recipient)
	if err != nil {
		return err
	}
	return errors.Join(s.packInto(sealed, m, dump, s.Secrets), sealed.Close())
}

func (s *Source) packInto(to io.Writer, m *Manifest, dump string, secrets map[string]string) error {
	m.Files = slices.Sorted(maps.Keys(secrets))
	if err := m.digest(dump, secrets); err != nil {
		return err
	}
	text, err := m.text()
	if err != nil {
		return err
	}
	archive := tar.NewWriter(to)
	header := &tar.Header{Name: fileManifest, Mode: 0o600, Size: int64(len(text)), ModTime: m.Taken}
	if err := archive.WriteHeader(header); err != nil {
		return err
	}
	if _, err := archive.Write(text); err != nil {
		return err
	}
	for _, name := range m.Files {
		if err := packFile(archive, folderFiles+name, secrets[name]); err != nil {
			return err
		}
	}
	return errors.Join(packFile(archive, fileDump, dump), archive.Close())
}

// digest notes what every file that goes into a backup is.
func (m *Manifest) digest(dump string, secrets map[string]string) error {
	sum, err := digestOf(dump)
	if err != nil {
		return err
	}
	m.Digests = map[string]string{fileDump: sum}
	for name, path := range secrets {
		if m.Digests[folderFiles+name], err = digestOf(path); err != nil {
			return err
		}
	}
	return nil
}

func digestOf(path string) (string, error) {
	from, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer from.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, from); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

func packFile(archive *tar.Writer, name, path string) error {
	from, err := os.Open(path)
	if err != nil {
		return err
	}
	defer from.Close()
	info, err := from.Stat()
	if err != nil {
		return err
	}
	if err := archive.WriteHeader(&tar.Header{Name: name, Mode: 0o600, Size: info.Size(), ModTime: info.ModTime()}); err != nil {
		return err
	}
	_, err = io.Copy(archive, from)
	return err
}

// A Backup is one that was opened.
type Backup struct {
	Manifest *Manifest
	dir      string // where its files are, until it is closed
}

// ErrPassphrase: the file is encrypted, and not with this passphrase.
var ErrPassphrase = errors.New("the backup is encrypted with another passphrase")

// Open unpacks a backup. It must be closed.
func Open(path, passphrase string) (*Backup, error) {
	from, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer from.Close()
	b := &Backup{}
	if b.dir, err = os.MkdirTemp("", "halfpoint-backup-"); err != nil {
		return nil, err
	}
	if err := b.unpack(from, passphrase); err != nil {
		b.Close()
		return nil, fmt.Errorf("opening the backup %s: %w", path, err)
	}
	return b, nil
}

// Close removes what was unpacked.
func (b *Backup) Close() { os.RemoveAll(b.dir) }

func (b *Backup) unpack(from io.ReadSeeker, passphrase string) error {
	opened, err := unseal(from, passphrase)
	if err != nil {
		return err
	}
	if err := b.unpackFiles(tar.NewReader(opened)); err != nil {
		return err
	}
	if err := b.readManifest(); err != nil {
		return err
	}
	return b.verify()
}

func (b *Backup) unpackFiles(archive *tar.Reader) error {
	for {
		header, err := archive.Next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if err := b.unpackFile(header.Name, archive); err != nil {
			return err
		}
	}
}

func (b *Backup) readManifest() error {
	text, err := os.ReadFile(filepath.Join(b.dir, fileManifest))
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, &b.Manifest); err != nil {
		return fmt.Errorf("%s: %w", fileManifest, err)
	}
	if m := b.Manifest; m == nil || m.Format != Format || m.Inventory == nil {
		return fmt.Errorf("%s is not that of a %s", fileManifest, Format)
	}
	return nil
}

// verify holds what was unpacked against the manifest.
func (b *Backup) verify() error {
	for name, want := range b.Manifest.Digests {
		if !filepath.IsLocal(name) {
			return fmt.Errorf("%q is no name of a file in a backup", name)
		}
		got, err := digestOf(filepath.Join(b.dir, name))
		if err != nil {
			return err
		}
		if got != want {
			return fmt.Errorf("%s is damaged: its SHA-256 is %s, and was %s", name, got, want)
		}
	}
	return nil
}

// unseal decrypts a file that is encrypted.
func unseal(from io.ReadSeeker, passphrase string) (io.Reader, error) {
	begin := make([]byte, len(magic))
	if _, err := io.ReadFull(from, begin); err != nil {
		return nil, err
	}
	if _, err := from.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	if !bytes.Equal(begin, []byte(magic)) {
		return from, nil
	}
	if passphrase == "" {
		return nil, fmt.Errorf("%w: none was given", ErrPassphrase)
	}
	identity, err := age.NewScryptIdentity(passphrase)
	if err != nil {
		return nil, err
	}
	opened, err := age.Decrypt(from, identity)
	if _, ok := errors.AsType[*age.NoIdentityMatchError](err); ok {
		return nil, ErrPassphrase
	}
	return opened, err
}

// unpackFile writes one file below the backup's folder, and nowhere else.
func (b *Backup) unpackFile(name string, from io.Reader) error {
	if !filepath.IsLocal(name) {
		return fmt.Errorf("%q is no name of a file in a backup", name)
	}
	path := filepath.Join(b.dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	to, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(to, from)
	return errors.Join(err, to.Close())
}

// Secret reads a file of the data folder; its error is fs.ErrNotExist where the
// backup has none of that name.
func (b *Backup) Secret(name string) ([]byte, error) {
	return os.ReadFile(filepath.Join(b.dir, strings.TrimSuffix(folderFiles, "/"), name))
}
