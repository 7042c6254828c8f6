package db

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"maps"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"golang.org/x/text/unicode/norm"

	"halfpoint/scoring/line"
	"halfpoint/scoring/publication"
)

// The journal binds the bytes of records and the signed statements. What is
// computed with and listed stands in columns beside them, so that these are held
// to the bytes here.

func (w *auditor) notePaired(details []byte) error {
	var said pairedAct
	err := json.Unmarshal(details, &said)
	w.devices[said.Device.String()] = said
	return err
}

func (w *auditor) noteProtested(details []byte) error {
	var said protestedAct
	err := json.Unmarshal(details, &said)
	w.protests[said.Protest] = said
	return err
}

func (w *auditor) noteDecided(details []byte) error {
	var said decidedAct
	err := json.Unmarshal(details, &said)
	w.decisions[said.Protest] = said
	return err
}

// checkKept holds what counts of each record to its bytes, and its author to the
// journal.
func (w *auditor) checkKept(ctx context.Context, tx pgx.Tx) error {
	kept, err := readAllRecords(ctx, tx, w.contest)
	if err != nil {
		return err
	}
	written, err := readWritten(ctx, tx, w.contest)
	if err != nil {
		return err
	}
	for i := range kept {
		r := &kept[i]
		if !isAsWritten(r.Record, written[r.ID]) {
			w.say(false, "record %s of the line counts as something else than was written", r.ID)
		}
		if !w.isAuthor(r) {
			w.say(false, "record %s of the line has another author than the journal says", r.ID)
		}
	}
	return nil
}

// readWritten reads the bytes of a contest's records, by id.
func readWritten(ctx context.Context, tx pgx.Tx, contest uuid.UUID) (map[string][]byte, error) {
	type written struct {
		ID   uuid.UUID
		Body []byte
	}
	list, err := rows[written](ctx, tx, `
		SELECT
			record_id AS id,
			body
		FROM line_record
		WHERE contest_id = @contest`,
		pgx.StrictNamedArgs{"contest": contest})
	byID := make(map[string][]byte, len(list))
	for _, r := range list {
		byID[r.ID.String()] = r.Body
	}
	return byID, err
}

// isAsWritten tells whether a record as it counts is what its bytes say.
func isAsWritten(kept line.Record, body []byte) bool {
	var written line.Record
	if err := json.Unmarshal(body, &written); err != nil {
		return false
	}
	written = used(written)
	kept.Remark = norm.NFC.String(kept.Remark) // what was stored before remarks were brought into it
	if written.Kind != line.KindPenalty {
		written.Penalty = nil
	}
	return kept.Same(written)
}

// isAuthor tells whether the journal says the same of who made a record: by which
// device or account it came, and what that device was paired for. It names those of
// an import all at once.
func (w *auditor) isAuthor(r *line.Stored) bool {
	said, named := w.records[r.ID]
	if !named {
		return r.Author == importAuthor
	}
	if said.by != r.Author.Device {
		return false
	}
	device, paired := w.devices[r.Author.Device]
	return !paired || device.Role == r.Author.Role && idOrEmpty(device.Judge) == r.Author.Seat
}

func idOrEmpty(id *uuid.UUID) string {
	if id == nil {
		return ""
	}
	return id.String()
}

// checkListing holds what is listed of a publication to what is signed, and both to
// the journal.
func (w *auditor) checkListing(p *PublicationInfo, s *publication.Statement) {
	said, named := w.published[p.Statement.String()]
	delete(w.published, p.Statement.String())
	if !named {
		w.say(false, "the journal does not name publication %d", s.Number)
	}
	if named && said.Publication != p.ID || !isListedAsSigned(p, s) {
		w.say(false, "publication %d is listed as something else than was signed", s.Number)
	}
}

func isListedAsSigned(p *PublicationInfo, s *publication.Statement) bool {
	scope := publication.Scope{Kind: p.Kind(), ID: p.Category.ID.String()}
	if p.Programme != nil {
		scope.ID = p.Programme.ID.String()
	}
	return p.Contest.String() == s.Contest && scope == s.Scope && p.Number == s.Number && p.State == s.State && p.KeyID == s.Key &&
		p.PublishedAt.Equal(s.Published) && timeOrZero(p.ProtestUntil).Equal(s.ProtestUntil)
}

func timeOrZero(t *time.Time) time.Time {
	if t == nil {
		return time.Time{}
	}
	return *t
}

// missPublications names those that the journal names and that were not found.
func (w *auditor) missPublications() {
	byNumber := func(a, b publishedAct) int { return cmp.Compare(a.Number, b.Number) }
	for _, said := range slices.SortedFunc(maps.Values(w.published), byNumber) {
		w.say(false, "publication %d, which the journal names, is not here", said.Number)
	}
}

// checkProtests holds protests and their decisions to the journal.
func (w *auditor) checkProtests(ctx context.Context, tx pgx.Tx) error {
	there, err := readProtests(ctx, tx, Scope{Contest: w.contest})
	if err != nil {
		return err
	}
	for _, p := range there {
		w.checkProtest(&p)
		delete(w.protests, p.ID)
		delete(w.decisions, p.ID)
	}
	for _, id := range slices.SortedFunc(maps.Keys(w.protests), func(a, b uuid.UUID) int { return bytes.Compare(a[:], b[:]) }) {
		w.say(false, "protest %s, which the journal names, is not here", id)
	}
	return nil
}

func (w *auditor) checkProtest(p *Protest) {
	if said := (protestedAct{p.ID, p.Programme, p.Publication, p.Pilot.ID, p.Text}); w.protests[p.ID] != said {
		w.say(false, "protest %s is not the one that the journal names", p.ID)
	}
	said, decided := w.decisions[p.ID]
	if d := p.Decision; decided != (d != nil) || d != nil && (d.Upheld != said.Upheld || d.Text != said.Text || !sameID(d.Reopened, said.Reopen)) {
		w.say(false, "the decision about protest %s is not the one that the journal names", p.ID)
	}
}
