package db

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/publication"
)

// An Audit is what was found out about a contest's journal and all that it
// speaks of.
type Audit struct {
	Contest  ContestInfo
	Findings []publication.Finding
}

// Audit walks a contest's journal: whether each row is bound to all before it,
// whether the records of the line, the publications and the protests are those
// that it says, and where the server was restored from a backup, so that what was signed
// before has another journal behind it.
func (db *DB) Audit(ctx context.Context, contest uuid.UUID) (a *Audit, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		w := newAuditor(contest)
		for _, step := range []func(context.Context, pgx.Tx) error{
			w.walk, w.checkRestores, w.checkRecords, w.checkImports, w.checkKept, w.checkPublications, w.checkProtests,
		} {
			if err := step(ctx, tx); err != nil {
				return err
			}
		}
		a = &w.audit
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("checking a journal: %w", err)
	}
	return a, nil
}

// auditor walks once.
type auditor struct {
	audit   Audit
	contest uuid.UUID

	hashes    []publication.Hash         // of the rows, by number less 1
	records   map[string]saidOfRecord    // what the journal says of each record, by id
	imports   map[uuid.UUID]importedAct  // by store
	devices   map[string]pairedAct       // by id
	published map[string]publishedAct    // by hash of the statement; those that were not found yet
	protests  map[uuid.UUID]protestedAct // by id; those that were not found yet
	decisions map[uuid.UUID]decidedAct   // by protest; those that were not found yet
	restores  []restore
}

func newAuditor(contest uuid.UUID) *auditor {
	return &auditor{
		contest: contest, records: map[string]saidOfRecord{}, imports: map[uuid.UUID]importedAct{}, devices: map[string]pairedAct{},
		published: map[string]publishedAct{}, protests: map[uuid.UUID]protestedAct{}, decisions: map[uuid.UUID]decidedAct{},
	}
}

// saidOfRecord is what the journal says of a record: the SHA-256 of its bytes and
// who brought them in.
type saidOfRecord struct{ sum, by string }

// restore is a row that says that the server was restored.
type restore struct {
	row int64
	at  time.Time
	restoredAct
}

// checkRestores names where the journal was taken up again from a backup.
func (w *auditor) checkRestores(context.Context, pgx.Tx) error {
	for _, r := range w.restores {
		w.say(true, "at row %d, on %s, the server was restored from a backup of %s: what was written after row %d before that is not here, unless devices sent it again",
			r.row, r.at.Format(time.RFC3339), r.BackupOf.Format(time.RFC3339), r.row-1)
	}
	return nil
}

func (w *auditor) say(agrees bool, format string, args ...any) {
	w.audit.Findings = append(w.audit.Findings, publication.Finding{Agrees: agrees, Text: fmt.Sprintf(format, args...)})
}

// walk reads the journal and checks its chain.
func (w *auditor) walk(ctx context.Context, tx pgx.Tx) (err error) {
	if w.audit.Contest, err = readContestInfo(ctx, tx, w.contest); err != nil {
		return err
	}
	head, err := readHead(ctx, tx, w.contest)
	if err != nil {
		return err
	}
	journal, err := readJournal(ctx, tx, w.contest)
	if err != nil {
		return err
	}
	if err := CheckJournal(head, journal); err != nil {
		w.say(false, "%v", err)
	} else {
		w.say(true, "the journal has %d rows, each bound to all before it", len(journal))
	}
	for _, row := range journal {
		w.hashes = append(w.hashes, publication.Hash(row.Hash))
		w.note(&row)
	}
	return nil
}

// note keeps what a row says that can be held against the rest.
func (w *auditor) note(row *JournalRow) {
	var said struct {
		What    string          `json:"what"`
		At      time.Time       `json:"at"`
		By      string          `json:"by"`
		Details json.RawMessage `json:"details"`
	}
	err := json.Unmarshal(row.Body, &said)
	if err == nil {
		switch said.What {
		case actImported:
			err = w.noteImport(said.Details)
		case actRecords:
			err = w.noteRecords(said.By, said.Details)
		case actDecided:
			err = errors.Join(w.noteRecords(said.By, said.Details), w.noteDecided(said.Details))
		case actProtested:
			err = w.noteProtested(said.Details)
		case actPaired:
			err = w.notePaired(said.Details)
		case actPublished, actTakenBack:
			err = w.notePublished(said.Details)
		case actRestored:
			r := restore{row: row.Number, at: said.At}
			err = json.Unmarshal(said.Details, &r.restoredAct)
			w.restores = append(w.restores, r)
		}
	}
	if err != nil {
		w.say(false, "row %d of the journal cannot be read: %v", row.Number, err)
	}
}

func (w *auditor) noteImport(details []byte) error {
	var said importedAct
	err := json.Unmarshal(details, &said)
	w.imports[said.Store] = said
	return err
}

func (w *auditor) noteRecords(by string, details []byte) error {
	var said recordsAct
	err := json.Unmarshal(details, &said)
	for _, r := range said.Records {
		w.records[r.ID] = saidOfRecord{r.SHA256, by}
	}
	return err
}

func (w *auditor) notePublished(details []byte) error {
	var said publishedAct
	err := json.Unmarshal(details, &said)
	w.published[said.Statement] = said
	return err
}

// checkRecords holds the records of the line to the hashes in the journal.
func (w *auditor) checkRecords(ctx context.Context, tx pgx.Tx) error {
	stores := make([]uuid.UUID, 0, len(w.imports))
	for store := range w.imports {
		stores = append(stores, store)
	}
	there, err := readRecordSums(ctx, tx, w.contest, stores)
	if err != nil {
		return err
	}
	good, named := 0, len(w.records)
	for _, r := range there {
		switch stated, ok := w.records[r.ID.String()]; {
		case !ok:
			w.say(false, "the journal does not name record %s of the line", r.ID)
		case stated.sum != hex.EncodeToString(r.SHA256):
			w.say(false, "record %s of the line is not the one that the journal names", r.ID)
		default:
			good++
		}
	}
	w.say(good == named, "%d of the %d records that the journal names are those of the line", good, named)
	return nil
}

// recordSum is what the database has of a record: its bytes' SHA-256.
type recordSum struct {
	ID     uuid.UUID
	SHA256 []byte
}

// readRecordSums reads those of a contest but of some stores.
func readRecordSums(ctx context.Context, tx pgx.Tx, contest uuid.UUID, but []uuid.UUID) ([]recordSum, error) {
	return rows[recordSum](ctx, tx, `
		SELECT
			record_id AS id,
			sha256(body) AS sha256
		FROM line_record
		WHERE contest_id = @contest
			AND store <> ALL (@but)`,
		pgx.StrictNamedArgs{"contest": contest, "but": but})
}

// checkImports holds the records of imports to the journal, all of one at once.
func (w *auditor) checkImports(ctx context.Context, tx pgx.Tx) error {
	for store, said := range w.imports {
		bodies, err := values[[]byte](ctx, tx, `
			SELECT body
			FROM line_record
			WHERE contest_id = @contest
				AND store = @store
			ORDER BY seq`,
			pgx.StrictNamedArgs{"contest": w.contest, "store": store})
		if err != nil {
			return err
		}
		sum := sha256.New()
		for _, b := range bodies {
			sum.Write(b)
		}
		same := len(bodies) == said.Records && hex.EncodeToString(sum.Sum(nil)) == said.RecordsSHA256
		w.say(same, "the %d records that were imported are%s those that the journal names", len(bodies), notWhere(!same))
	}
	return nil
}

func notWhere(not bool) string {
	if not {
		return " not"
	}
	return ""
}

// checkPublications checks every publication, its place in the journal and the
// chain of the statements.
func (w *auditor) checkPublications(ctx context.Context, tx pgx.Tx) error {
	list, err := readPublications(ctx, tx, publicationQuery{contest: w.contest})
	if err != nil {
		return err
	}
	byHash := map[publication.Hash]int64{}
	for _, info := range list {
		stored, err := readPublication(ctx, tx, info.ID)
		if err != nil {
			return err
		}
		w.checkPublication(stored, byHash)
		byHash[info.Statement] = info.Number
	}
	w.missPublications()
	return nil
}

func (w *auditor) checkPublication(p *StoredPublication, before map[publication.Hash]int64) {
	report := p.Check("")
	for _, f := range report.Findings {
		if !f.Agrees {
			w.say(false, "publication %d: %s", p.Info.Number, f.Text)
		}
	}
	s := report.Statement
	if s == nil {
		return
	}
	if report.Agrees() {
		w.say(true, "publication %d is signed, and its results follow from its bundle", s.Number)
	}
	w.checkListing(&p.Info, s)
	if _, known := before[s.Preceding]; !known && s.Preceding != (publication.Hash{}) {
		w.say(len(w.restores) > 0, "the publication before publication %d is not here", s.Number)
	}
	w.checkPlace(s)
}

// checkPlace finds the row of the journal at which a statement was signed. Where
// the server was restored since, another journal had that row.
func (w *auditor) checkPlace(s *publication.Statement) {
	n := s.JournalNumber
	if n == 0 || n <= int64(len(w.hashes)) && w.hashes[n-1] == s.JournalHash {
		return
	}
	for _, r := range w.restores {
		if r.row <= n && r.at.After(s.Published) {
			w.say(true, "publication %d was signed at row %d of the journal as it was before the server was restored: the two part after row %d",
				s.Number, n, r.row-1)
			return
		}
	}
	w.say(false, "publication %d was signed at row %d of another journal than this one", s.Number, n)
}
