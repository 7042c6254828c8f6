package backup_test

import (
	"archive/tar"
	"bytes"
	"crypto/ed25519"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/backup"
	"halfpoint/db/dbtest"
	"halfpoint/db/shelf"
	"halfpoint/scoring"
	"halfpoint/scoring/publication"
)

func TestMain(m *testing.M) { dbtest.Main(m) }

var signer = db.Signer{Key: ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize)), Program: "halfpoint test"}

// A site is a database with an invented contest.
type site struct {
	t         *testing.T
	url       string
	db        *db.DB
	contest   uuid.UUID
	programme db.Scope
}

func newSite(t *testing.T) *site {
	t.Helper()
	text, err := os.ReadFile("../../testdata/cases/108.bundle.json")
	if err != nil {
		t.Fatal(err)
	}
	bundle, err := scoring.DecodeBundle(text)
	if err != nil {
		t.Fatal(err)
	}
	s := &site{t: t, url: dbtest.URL(t)}
	s.db = s.open(s.url)
	if s.contest, err = s.db.Import(t.Context(), bundle, db.ImportOptions{Opened: db.Published}); err != nil {
		t.Fatal(err)
	}
	c, err := s.db.Contest(t.Context(), s.contest)
	if err != nil {
		t.Fatal(err)
	}
	s.programme = db.Scope{Programme: c.Categories[0].Programmes[0].ID}
	return s
}

func (s *site) open(url string) *db.DB {
	s.t.Helper()
	d, err := db.Open(s.t.Context(), url)
	if err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(d.Close)
	return d
}

// publish publishes for a reason, in a database.
func (s *site) publish(in *db.DB, reason string) *db.StoredPublication {
	s.t.Helper()
	id, _, err := in.Publish(s.t.Context(), s.programme, db.Publishing{State: publication.Provisional, Reason: reason}, signer)
	if err != nil {
		s.t.Fatal(err)
	}
	p, err := in.Publication(s.t.Context(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	return p
}

// write writes a backup.
func (s *site) write(passphrase string) (path string) {
	s.t.Helper()
	secret := filepath.Join(s.t.TempDir(), "key")
	if err := os.WriteFile(secret, []byte("a secret"), 0o600); err != nil {
		s.t.Fatal(err)
	}
	path = filepath.Join(s.t.TempDir(), "backups", "one.backup")
	from := backup.Source{URL: s.url, Program: "halfpoint test", Secrets: map[string]string{"signing-key.pem": secret}}
	if _, err := backup.Write(s.t.Context(), path, from, passphrase); err != nil {
		s.t.Fatal(err)
	}
	return path
}

// restore brings a backup back into an empty database.
func (s *site) restore(path, passphrase string) *db.DB {
	s.t.Helper()
	b, err := backup.Open(path, passphrase)
	if err != nil {
		s.t.Fatal(err)
	}
	defer b.Close()
	url := dbtest.Empty(s.t)
	if err := b.Restore(s.t.Context(), url); err != nil {
		s.t.Fatal(err)
	}
	return s.open(url)
}

func (s *site) inventory(of *db.DB) *db.Inventory {
	s.t.Helper()
	i, err := of.Inventory(s.t.Context())
	if err != nil {
		s.t.Fatal(err)
	}
	return i
}

func TestRestoredIsWhatWasBackedUp(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	s.publish(s.db, "First.")
	s.publish(s.db, "Second.")
	path := s.write("correct horse")
	b, err := backup.Open(path, "correct horse")
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	url := dbtest.Empty(t)
	if err := b.Restore(t.Context(), url); err != nil {
		t.Fatal(err)
	}
	if i := s.inventory(s.open(url)); len(i.Contests) != 1 || len(i.Contests[0].Publications) != 2 {
		t.Errorf("%+v", i)
	}
	if text, err := os.ReadFile(path); err != nil || bytes.Contains(text, []byte("a secret")) || bytes.Contains(text, []byte("PGDMP")) {
		t.Errorf("the file can be read without the passphrase, %v", err)
	}
	if text, err := b.Secret("signing-key.pem"); err != nil || string(text) != "a secret" {
		t.Errorf("the key is %q, %v", text, err)
	}
	if _, err := backup.Open(path, "battery staple"); !errors.Is(err, backup.ErrPassphrase) {
		t.Errorf("with another passphrase: %v", err)
	}
	if left, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".*")); err != nil || len(left) > 0 {
		t.Errorf("%v were left behind", left)
	}
}

// A backup without a passphrase has no secrets in it.
func TestOpenBackupHasNoSecrets(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	path := s.write("")
	b, err := backup.Open(path, "")
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if _, err := b.Secret("signing-key.pem"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the key is in it: %v", err)
	}
	if words := s.inventory(s.db).Differences(s.inventory(s.restore(path, ""))); words != nil {
		t.Error(words)
	}
}

func TestDamagedBackupsAreFound(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	path := s.write("")
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	flipped := bytes.Clone(whole)
	flipped[len(flipped)*2/3] ^= 1 // somewhere in the dump, which Postgres may well take as it is
	for name, text := range map[string][]byte{
		"half of it":      whole[:len(whole)/2],
		"nothing":         nil,
		"a flipped bit":   flipped,
		"another version": bytes.Replace(whole, []byte(`"version": 1`), []byte(`"version": 2`), 1),
	} {
		damaged := filepath.Join(t.TempDir(), "damaged.backup")
		if err := os.WriteFile(damaged, text, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := backup.Check(t.Context(), damaged, ""); err == nil {
			t.Errorf("%s is taken for a backup", name)
		}
	}
}

// TestWhatIsNoManifestIsNamed has archives that hold one file, which says nothing
// of a backup.
func TestWhatIsNoManifestIsNamed(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		`null`:                            "manifest.json is not that of a halfpoint-backup/1",
		`{"format":"halfpoint-backup/2"}`: "manifest.json is not that of a halfpoint-backup/1",
		`{"format":"halfpoint-backup/1"}`: "manifest.json is not that of a halfpoint-backup/1",
		`half`:                            "manifest.json: invalid character",
	} {
		path := filepath.Join(t.TempDir(), "one.backup")
		if err := os.WriteFile(path, archived(t, "manifest.json", text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := backup.Open(path, ""); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// archived is a TAR of one file.
func archived(t *testing.T, name, text string) []byte {
	t.Helper()
	var packed bytes.Buffer
	w := tar.NewWriter(&packed)
	err := w.WriteHeader(&tar.Header{Name: name, Mode: 0o600, Size: int64(len(text))})
	if err == nil {
		_, err = w.Write([]byte(text))
	}
	if err := errors.Join(err, w.Close()); err != nil {
		t.Fatal(err)
	}
	return packed.Bytes()
}

// TestLostServer loses a server after a publication that the backup does not
// have. The shelf has it; the restored server takes it back, goes on with the
// next number, and says where the journals part.
func TestLostServer(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	kept, err := shelf.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	s.publish(s.db, "In the backup.")
	path := s.write("")
	if err := s.db.SetOpened(t.Context(), s.contest, db.Live, ""); err != nil {
		t.Fatal(err)
	}
	s.publish(s.db, "After the backup.")
	for range 2 { // the second time there is nothing to do
		if err := kept.Fill(t.Context(), s.db); err != nil {
			t.Fatal(err)
		}
	}

	restored := s.restore(path, "")
	if err := restored.Restored(t.Context(), time.Now()); err != nil {
		t.Fatal(err)
	}
	if got, was := s.inventory(restored).Epoch, s.inventory(s.db).Epoch; got == was {
		t.Error("the epoch is the same")
	}
	all, err := kept.All()
	if err != nil || len(all) != 2 {
		t.Fatalf("%d on the shelf, %v", len(all), err)
	}
	var taken []bool
	for _, k := range all {
		back, err := restored.TakeBack(t.Context(), k.ID, k.Publication)
		if err != nil {
			t.Error(err)
		}
		taken = append(taken, back)
	}
	if taken[0] || !taken[1] {
		t.Errorf("taken back: %v, want the second alone", taken)
	}
	compare(t, s.inventory(s.db).Contests[0].Publications, s.inventory(restored).Contests[0].Publications)
	if next := s.publish(restored, "After the restore."); next.Info.Number != 3 {
		t.Errorf("the next publication is number %d, want 3", next.Info.Number)
	}
	s.audit(restored, "was signed at row 3 of the journal as it was before the server was restored: the two part after row 2")
}

func compare(t *testing.T, want, got []db.InventoryPublication) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d publications, want %d", len(got), len(want))
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("publication %d is %+v, want %+v", i+1, got[i], want[i])
		}
	}
}

// audit holds that the journal is sound and that something is said of it.
func (s *site) audit(in *db.DB, says string) {
	s.t.Helper()
	a, err := in.Audit(s.t.Context(), s.contest)
	if err != nil {
		s.t.Fatal(err)
	}
	var said []string
	for _, f := range a.Findings {
		if said = append(said, f.Text); !f.Agrees {
			s.t.Errorf("the journal does not agree: %s", f.Text)
		}
	}
	if !strings.Contains(strings.Join(said, "\n"), says) {
		s.t.Errorf("%q is not said in\n%s", says, strings.Join(said, "\n"))
	}
}
