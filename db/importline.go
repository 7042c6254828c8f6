package db

import (
	"slices"
	"time"

	"golang.org/x/text/unicode/norm"

	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// importAuthor made the records of imported contests.
var importAuthor = line.Author{Role: line.RoleOffice, Device: "import"}

const importReason = "imported"

// importedFlight turns what a bundle says of a flight into records of the line.
type importedFlight struct {
	*importer
	id     string
	digest string // of its sequence
	flight *scoring.Flight
	seen   []string // ids of what a closing covers
}

// record makes all records of the flight, judged by so many seats. A flown
// flight is closed where every seat has signed or was absent; where grades are
// missing it has landed, and they can still come.
func (f *importedFlight) record(seats int) error {
	whole := 0
	for n := range f.flight.Sheets {
		done, err := f.sheet(&f.flight.Sheets[n])
		if err != nil {
			return err
		}
		if done {
			whole++
		}
	}
	if err := f.decisions(); err != nil {
		return err
	}
	return f.status(whole == seats)
}

// status makes the record of what became of the flight, whose sheets are all
// whole or not.
func (f *importedFlight) status(whole bool) error {
	status := line.Record{Kind: line.KindStatus, Status: f.flight.Status}
	switch {
	case f.flight.Status == scoring.Scheduled:
		return nil
	case f.flight.Status == scoring.Flown && whole:
		status.Status, status.Covers = line.StatusClosed, f.seen
	case f.flight.Status == scoring.Flown:
		status.Status = line.StatusLanded
	}
	_, err := f.add(status)
	return err
}

// sheet tells whether nothing more is to come from the seat: it was absent, or
// its sheet is complete and therefore signed.
func (f *importedFlight) sheet(s *scoring.Sheet) (done bool, err error) {
	if s.Absent {
		absent := true
		if err := f.addSeen(line.Record{Kind: line.KindAbsent, Judge: f.judges[s.Judge].String(), Absent: &absent}); err != nil {
			return false, err
		}
	}
	grades, entries, err := f.grades(s)
	if err != nil {
		return false, err
	}
	if s.Absent || !isComplete(s) {
		f.seen = append(f.seen, grades...)
		return s.Absent, nil
	}
	sign := line.Record{Kind: line.KindSign, Covers: grades, Sequence: f.digest, Reason: importReason}
	sign.Judge, sign.By = f.judges[s.Judge].String(), f.by(s)
	sign.Digest = line.SheetDigest(f.contest.String(), f.id, sign.Judge, f.digest, entries)
	return true, f.addSeen(sign)
}

func isComplete(s *scoring.Sheet) bool {
	return len(s.Grades) > 0 && !slices.Contains(s.Grades, scoring.NotEntered)
}

func (f *importedFlight) by(s *scoring.Sheet) string {
	if s.By == "" {
		return ""
	}
	return f.judges[s.By].String()
}

// grades makes a record of each cell that has a grade or a remark, and says
// what the sheet is signed for.
func (f *importedFlight) grades(s *scoring.Sheet) (ids []string, entries []line.Entry, err error) {
	cells := max(len(s.Grades), len(s.Remarks)) // an absent seat may have remarks alone
	for n := range cells {
		r := line.Record{Kind: line.KindGrade, Item: n + 1, Sequence: f.digest}
		if n < len(s.Grades) {
			r.Grade = s.Grades[n].String()
		}
		if n < len(s.Remarks) {
			r.Remark = norm.NFC.String(s.Remarks[n])
		}
		entries = append(entries, line.Entry{Grade: r.Grade, Remark: r.Remark})
		if r.Grade == "" && r.Remark == "" {
			continue
		}
		r.Judge, r.By = f.judges[s.Judge].String(), f.by(s)
		id, err := f.add(r)
		if err != nil {
			return nil, nil, err
		}
		ids = append(ids, id)
	}
	return ids, entries, nil
}

// decisions makes records of rulings and penalties.
func (f *importedFlight) decisions() error {
	for _, r := range f.flight.Rulings {
		record := line.Record{Kind: line.KindRuling, Item: r.Item, Ruling: r.Ruling, Sequence: f.digest}
		if r.Grade != nil {
			record.Grade = r.Grade.String()
		}
		if err := f.addSeen(record); err != nil {
			return err
		}
	}
	for _, p := range f.flight.Penalties {
		f.penaltyKind(p)
		if p.Count == 0 {
			continue // did not occur
		}
		penalty := line.Penalty{Kind: p.Kind, Count: p.Count, Points: p.Points}
		if err := f.addSeen(line.Record{Kind: line.KindPenalty, Penalty: &penalty}); err != nil {
			return err
		}
	}
	return nil
}

// penaltyKind offers a kind of penalty to the officials, once.
func (i *importer) penaltyKind(p scoring.Penalty) {
	if !i.penaltyKinds[p.Kind] {
		i.penaltyKinds[p.Kind] = true
		i.penalties.add(i.contest, p.Kind, len(i.penaltyKinds), p.Points)
	}
}

func (f *importedFlight) addSeen(r line.Record) error {
	id, err := f.add(r)
	f.seen = append(f.seen, id)
	return err
}

// add makes a record and returns its id.
func (f *importedFlight) add(r line.Record) (string, error) {
	f.seq++
	r.Seq, r.ID, r.Flight, r.EnteredAt = f.seq, newID().String(), f.id, f.now.Format(time.RFC3339)
	row, err := recordRow(f.contest, f.store, importAuthor, &Received{Record: r})
	if err != nil {
		return "", err
	}
	f.bodies.Write(row[bodyColumn].([]byte))
	f.records.add(row...)
	return r.ID, nil
}
