package db

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
	"halfpoint/scoring/publication"
)

// A Protest is a pilot's against published results.
type Protest struct {
	ID          uuid.UUID
	Programme   uuid.UUID
	Publication uuid.UUID // that stood when it was filed
	Pilot       Named
	Text        string
	FiledBy     string
	FiledAt     time.Time
	Decision    *Decision // nil while it is open
}

// A Decision is the director's about a protest.
type Decision struct {
	Upheld    bool
	Text      string
	Reopened  *uuid.UUID // the flight that it opened again
	DecidedBy string
	DecidedAt time.Time
}

// ProtestList is all that was protested of a programme.
type ProtestList struct {
	Head     Head
	Contest  ContestInfo
	Protests []Protest // the first filed first
}

// Protests lists the protests against a programme's results.
func (db *DB) Protests(ctx context.Context, programme uuid.UUID) (list *ProtestList, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		scope, err := findScope(ctx, tx, Scope{Programme: programme})
		if err != nil {
			return err
		}
		list = &ProtestList{}
		if list.Head, err = readHead(ctx, tx, scope.Contest); err != nil {
			return err
		}
		if list.Contest, err = readContestInfo(ctx, tx, scope.Contest); err != nil {
			return err
		}
		list.Protests, err = readProtests(ctx, tx, scope)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing protests: %w", err)
	}
	return list, nil
}

// readProtests reads the protests against a programme, all in a category, or all
// in a contest.
func readProtests(ctx context.Context, tx pgx.Tx, of Scope) ([]Protest, error) {
	read, err := rows[protestRow](ctx, tx, `
		SELECT
			r.protest_id AS id,
			r.programme_id AS programme,
			r.publication_id AS publication,
			r.pilot_id,
			p.name AS pilot_name,
			r.text,
			r.filed_by,
			r.filed_at,
			d.upheld,
			d.text AS decision,
			d.flight_id,
			d.decided_by,
			d.decided_at
		FROM protest r
		JOIN pilot p USING (contest_id, pilot_id)
		JOIN programme o USING (contest_id, programme_id)
		LEFT JOIN protest_decision d USING (contest_id, protest_id)
		WHERE r.contest_id = @contest
			AND (@category::uuid IS NULL OR o.category_id = @category)
			AND (@programme::uuid IS NULL OR r.programme_id = @programme)
		ORDER BY r.protest_id`,
		pgx.StrictNamedArgs{"contest": of.Contest, "category": nilIsNull(of.Category), "programme": nilIsNull(of.Programme)})
	protests := make([]Protest, len(read))
	for i := range read {
		protests[i] = read[i].protest()
	}
	return protests, err
}

type protestRow struct {
	ID          uuid.UUID
	Programme   uuid.UUID
	Publication uuid.UUID
	PilotID     uuid.UUID
	PilotName   string
	Text        string
	FiledBy     string
	FiledAt     time.Time
	Upheld      *bool
	Decision    *string
	FlightID    *uuid.UUID
	DecidedBy   *string
	DecidedAt   *time.Time
}

func (r *protestRow) protest() Protest {
	p := Protest{
		ID: r.ID, Programme: r.Programme, Publication: r.Publication, Pilot: Named{r.PilotID, r.PilotName},
		Text: r.Text, FiledBy: r.FiledBy, FiledAt: r.FiledAt,
	}
	if r.Upheld != nil {
		p.Decision = &Decision{Upheld: *r.Upheld, Text: *r.Decision, Reopened: r.FlightID, DecidedBy: *r.DecidedBy, DecidedAt: *r.DecidedAt}
	}
	return p
}

// A NewProtest is one that is filed.
type NewProtest struct {
	Pilot uuid.UUID
	Text  string
	By    string // the account
}

// NotInTime refuses a protest: there is nothing provisional, or its time is over.
type NotInTime struct {
	Until *time.Time // when the time was over; nil where there was none
}

func (e *NotInTime) Error() string {
	if e.Until == nil {
		return "no provisional results with a time for protests are published"
	}
	return "the time for protests was over at " + e.Until.UTC().Format(time.RFC3339)
}

// File files a protest against the results of a programme as they are published.
// Fresh is false where the pilot's protest in the same words is open already. A
// protest out of time is refused with NotInTime.
func (db *DB) File(ctx context.Context, programme uuid.UUID, n NewProtest) (id uuid.UUID, fresh bool, err error) {
	if err := n.check(); err != nil {
		return uuid.Nil, false, err
	}
	scope, err := db.scopeOf(ctx, Scope{Programme: programme})
	if err != nil {
		return uuid.Nil, false, fmt.Errorf("filing a protest: %w", err)
	}
	_, err = db.change(ctx, scope.Contest, func(tx pgx.Tx) (act *act, err error) {
		id, act, err = file(ctx, tx, scope, n)
		fresh = act != nil
		return act, err
	})
	if err != nil {
		return uuid.Nil, false, fmt.Errorf("filing a protest: %w", err)
	}
	return id, fresh, nil
}

func (n *NewProtest) check() error {
	var report document.Report
	TextBound.Check(&report, "text", n.Text)
	return report.Err()
}

func file(ctx context.Context, tx pgx.Tx, scope Scope, n NewProtest) (uuid.UUID, *act, error) {
	if err := lockProgrammes(ctx, tx, scope); err != nil {
		return uuid.Nil, nil, err
	}
	there, err := readProtests(ctx, tx, scope)
	if err != nil {
		return uuid.Nil, nil, err
	}
	for _, p := range there {
		if p.Pilot.ID == n.Pilot && p.Text == n.Text && p.Decision == nil {
			return p.ID, nil, nil
		}
	}
	now, err := readClock(ctx, tx)
	if err != nil {
		return uuid.Nil, nil, err
	}
	against, err := readProtestable(ctx, tx, scope, now)
	if err != nil {
		return uuid.Nil, nil, err
	}
	if err := checkFlies(ctx, tx, scope, n.Pilot); err != nil {
		return uuid.Nil, nil, err
	}
	id := newID()
	return id, newAct(actProtested, n.By, protestedAct{id, scope.Programme, against, n.Pilot, n.Text}),
		insertProtest(ctx, tx, scope, protestRow{ID: id, Publication: against, PilotID: n.Pilot, Text: n.Text, FiledBy: n.By, FiledAt: now})
}

// protestedAct is what the journal says of a protest.
type protestedAct struct {
	Protest     uuid.UUID `json:"protest"`
	Programme   uuid.UUID `json:"programme"`
	Publication uuid.UUID `json:"publication"`
	Pilot       uuid.UUID `json:"pilot"`
	Text        string    `json:"text"`
}

// readProtestable finds the publication of a scope that can be protested now.
func readProtestable(ctx context.Context, tx pgx.Tx, of Scope, now time.Time) (uuid.UUID, error) {
	latest, err := readLatest(ctx, tx, of)
	switch {
	case err != nil:
		return uuid.Nil, err
	case latest == nil || latest.State != publication.Provisional || latest.ProtestUntil == nil:
		return uuid.Nil, &NotInTime{}
	case now.After(*latest.ProtestUntil):
		return uuid.Nil, &NotInTime{latest.ProtestUntil}
	}
	return latest.ID, nil
}

// checkFlies complains about a pilot who does not fly the programme.
func checkFlies(ctx context.Context, tx pgx.Tx, of Scope, pilot uuid.UUID) error {
	flies, err := value[bool](ctx, tx, `
		SELECT EXISTS (
			SELECT
			FROM flight
			WHERE contest_id = @contest
				AND programme_id = @programme
				AND pilot_id = @pilot
		)`,
		pgx.StrictNamedArgs{"contest": of.Contest, "programme": of.Programme, "pilot": pilot})
	if err == nil && !flies {
		err = document.Complaints{{Place: "pilot", Text: "does not fly the programme"}}
	}
	return err
}

func insertProtest(ctx context.Context, tx pgx.Tx, of Scope, p protestRow) error {
	_, err := tx.Exec(ctx, `
		INSERT INTO protest (
			contest_id,
			protest_id,
			programme_id,
			publication_id,
			pilot_id,
			text,
			filed_by,
			filed_at
		)
		VALUES (
			@contest,
			@protest,
			@programme,
			@publication,
			@pilot,
			@text,
			@filed_by,
			@filed_at
		)`,
		pgx.StrictNamedArgs{
			"contest": of.Contest, "protest": p.ID, "programme": of.Programme, "publication": p.Publication,
			"pilot": p.PilotID, "text": p.Text, "filed_by": p.FiledBy, "filed_at": p.FiledAt,
		})
	return err
}

// A NewDecision decides a protest.
type NewDecision struct {
	Upheld bool
	Text   string
	// Reopen is a closed flight of the programme that is opened again; only
	// where the protest is upheld.
	Reopen *uuid.UUID
	By     string // the account
}

// Decide decides a protest, once: what was decided stays, and the same decision
// again does nothing. Another one is ErrConflict.
func (db *DB) Decide(ctx context.Context, protest uuid.UUID, n NewDecision) (decided *Protest, err error) {
	if err := n.check(); err != nil {
		return nil, err
	}
	scope, err := db.scopeOfProtest(ctx, protest)
	if err != nil {
		return nil, fmt.Errorf("deciding a protest: %w", err)
	}
	_, err = db.change(ctx, scope.Contest, func(tx pgx.Tx) (act *act, err error) {
		d := &decider{scope: scope, protest: protest, decision: n}
		act, err = d.decide(ctx, tx)
		if err != nil {
			return nil, err
		}
		decided, err = readProtest(ctx, tx, scope, protest)
		return act, err
	})
	if err != nil {
		return nil, fmt.Errorf("deciding a protest: %w", err)
	}
	return decided, nil
}

func (n *NewDecision) check() error {
	var report document.Report
	TextBound.Check(&report, "text", n.Text)
	if n.Reopen != nil && !n.Upheld {
		report.Add("reopen", "only an upheld protest opens a flight again")
	}
	return report.Err()
}

func (db *DB) scopeOfProtest(ctx context.Context, protest uuid.UUID) (scope Scope, err error) {
	err = db.read(ctx, func(tx pgx.Tx) error {
		scope, err = row[Scope](ctx, tx, `
			SELECT
				p.contest_id AS contest,
				p.category_id AS category,
				p.programme_id AS programme
			FROM protest r
			JOIN programme p USING (contest_id, programme_id)
			WHERE r.protest_id = @protest`,
			pgx.StrictNamedArgs{"protest": protest})
		return err
	})
	return scope, err
}

func readProtest(ctx context.Context, tx pgx.Tx, scope Scope, id uuid.UUID) (*Protest, error) {
	all, err := readProtests(ctx, tx, scope)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(all, func(p Protest) bool { return p.ID == id })
	if at < 0 {
		return nil, pgx.ErrNoRows
	}
	return &all[at], nil
}

// decider decides once.
type decider struct {
	scope    Scope
	protest  uuid.UUID
	decision NewDecision
}

// decidedAct is what the journal says of a decision.
type decidedAct struct {
	Protest uuid.UUID    `json:"protest"`
	Upheld  bool         `json:"upheld"`
	Text    string       `json:"text"`
	Reopen  *uuid.UUID   `json:"reopened,omitempty"`
	Records []recordHash `json:"records,omitempty"` // of the line, by which the flight was opened
	Store   *uuid.UUID   `json:"store,omitempty"`   // of those
}

func (d *decider) decide(ctx context.Context, tx pgx.Tx) (*act, error) {
	if err := lockProgrammes(ctx, tx, d.scope); err != nil {
		return nil, err
	}
	there, err := readProtest(ctx, tx, d.scope, d.protest)
	if err != nil {
		return nil, err
	}
	if done := there.Decision; done != nil {
		if done.Upheld == d.decision.Upheld && done.Text == d.decision.Text && sameID(done.Reopened, d.decision.Reopen) {
			return nil, nil
		}
		return nil, fmt.Errorf("%w: the protest is decided", ErrConflict)
	}
	details := &decidedAct{Protest: d.protest, Upheld: d.decision.Upheld, Text: d.decision.Text, Reopen: d.decision.Reopen}
	if err := d.reopen(ctx, tx, details); err != nil {
		return nil, err
	}
	return newAct(actDecided, d.decision.By, details), d.insert(ctx, tx)
}

func sameID(a, b *uuid.UUID) bool { return a == nil && b == nil || a != nil && b != nil && *a == *b }

func (d *decider) insert(ctx context.Context, tx pgx.Tx) error {
	n := &d.decision
	_, err := tx.Exec(ctx, `
		INSERT INTO protest_decision (
			contest_id,
			protest_id,
			upheld,
			text,
			flight_id,
			decided_by,
			decided_at
		)
		VALUES (
			@contest,
			@protest,
			@upheld,
			@text,
			@flight,
			@by,
			clock_timestamp()
		)`,
		pgx.StrictNamedArgs{"contest": d.scope.Contest, "protest": d.protest, "upheld": n.Upheld, "text": n.Text, "flight": n.Reopen, "by": n.By})
	return err
}

// reopen opens the flight again, by a record of the line: it has landed, as
// before it was closed.
func (d *decider) reopen(ctx context.Context, tx pgx.Tx, details *decidedAct) error {
	if d.decision.Reopen == nil {
		return nil
	}
	flight, err := d.closedFlight(ctx, tx)
	if err != nil {
		return err
	}
	record := line.Record{
		Seq: 1, ID: newID().String(), Kind: line.KindStatus, Flight: flight.Flight, Attempt: flight.Counting,
		Status: line.StatusLanded, Replaces: flight.StatusHeads, Reason: "protest upheld",
		EnteredAt: time.Now().UTC().Format(time.RFC3339),
	}
	store := newID()
	author := line.Author{Role: line.RoleDirector, Device: d.decision.By}
	row, err := recordRow(d.scope.Contest, store, author, &Received{Record: record})
	if err != nil {
		return err
	}
	if _, err := tx.Exec(ctx, insertRecord, row...); err != nil {
		return fmt.Errorf("storing a record: %w", err)
	}
	details.Store, details.Records = &store, []recordHash{{record.ID, publication.HashOf(row[bodyColumn].([]byte)).String()}}
	return nil
}

// closedFlight locks the flight to be opened and reads its state.
func (d *decider) closedFlight(ctx context.Context, tx pgx.Tx) (*line.Flight, error) {
	id := *d.decision.Reopen
	locked, err := tx.Exec(ctx, `
		SELECT
		FROM flight
		WHERE contest_id = @contest
			AND programme_id = @programme
			AND flight_id = @flight
		FOR UPDATE`,
		pgx.StrictNamedArgs{"contest": d.scope.Contest, "programme": d.scope.Programme, "flight": id})
	if err != nil {
		return nil, err
	}
	if locked.RowsAffected() == 0 {
		return nil, document.Complaints{{Place: "reopen", Text: "is no flight of the programme"}}
	}
	resolved, err := readLine(ctx, tx, d.scope.Contest, []uuid.UUID{id})
	if err != nil {
		return nil, err
	}
	flight := resolved.flights[id.String()]
	if flight.Status != line.StatusClosed {
		return nil, fmt.Errorf("%w: the flight is not closed", ErrConflict)
	}
	return flight, nil
}
