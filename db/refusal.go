package db

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring"
	"halfpoint/scoring/line"
	"halfpoint/scoring/publication"
)

// Refusals say why results cannot be published, all reasons at once.
type Refusals []Refusal

// A Refusal is one reason why results cannot be published.
type Refusal struct {
	Text   string
	Flight uuid.UUID // that it is about; Nil where it is about none
	Final  bool      // the director's reason does not change it
}

func (r Refusals) Error() string {
	texts := make([]string, len(r))
	for i, one := range r {
		texts[i] = one.Text
	}
	return "the results cannot be published: " + strings.Join(texts, "; ")
}

func (p *publisher) add(r Refusal) { p.refusals = append(p.refusals, r) }

func (p *publisher) addOfficial(format string, args ...any) {
	if p.wish.State == publication.Official {
		p.add(Refusal{Text: fmt.Sprintf(format, args...)})
	}
}

// refuse returns what keeps the results from being published: anything final,
// and anything at all where no reason is given.
func (p *publisher) refuse(ctx context.Context, tx pgx.Tx) error {
	if err := p.findRefusals(ctx, tx); err != nil {
		return err
	}
	refusals := p.refusals
	if p.overrides {
		refusals = slices.DeleteFunc(slices.Clone(refusals), func(r Refusal) bool { return !r.Final })
	}
	if len(refusals) > 0 {
		return refusals
	}
	return nil
}

// findRefusals adds those of protests, of records without a flight and of time.
func (p *publisher) findRefusals(ctx context.Context, tx pgx.Tx) error {
	if err := p.refuseProtests(ctx, tx); err != nil {
		return err
	}
	if err := p.refuseUnplaced(ctx, tx); err != nil {
		return err
	}
	p.refuseTime()
	return nil
}

// refuseTime sees to it that official results were there to be protested.
func (p *publisher) refuseTime() {
	switch {
	case p.latest != nil && p.latest.State == publication.Official:
		p.add(Refusal{Text: fmt.Sprintf("publication %d is official already; another one needs a reason", p.latest.Number)})
	case p.latest == nil:
		p.addOfficial("nothing provisional was published that could have been protested")
	case p.latest.ProtestUntil != nil && p.now.Before(*p.latest.ProtestUntil):
		p.addOfficial("the time for protests runs until %s", p.latest.ProtestUntil.UTC().Format(time.RFC3339))
	}
}

// refuseProtests waits for the decision of every protest in the scope.
func (p *publisher) refuseProtests(ctx context.Context, tx pgx.Tx) error {
	protests, err := readProtests(ctx, tx, p.scope)
	for _, one := range protests {
		if one.Decision == nil {
			p.addOfficial("the protest of %s of %s is open", one.Pilot.Name, one.FiledAt.UTC().Format(time.RFC3339))
		}
	}
	return err
}

// refuseUnplaced waits for a decision about records of flights that are not in
// the contest.
func (p *publisher) refuseUnplaced(ctx context.Context, tx pgx.Tx) error {
	if p.wish.State != publication.Official {
		return nil
	}
	unplaced, err := readUnplaced(ctx, tx, p.scope.Contest)
	if len(unplaced) > 0 {
		p.addOfficial("%d records are of flights that are not in the contest, and wait for a decision", len(unplaced))
	}
	return err
}

// refuseProgramme waits until a programme that counts is official itself.
func (p *publisher) refuseProgramme(row *programmeRow, latest *PublicationInfo) {
	switch {
	case !row.Counts:
	case latest == nil:
		p.addOfficial("programme %s is not published", named(row))
	case latest.State != publication.Official:
		p.addOfficial("programme %s is provisional, by publication %d", named(row), latest.Number)
	}
}

func named(row *programmeRow) string {
	if row.Name != "" {
		return row.Name
	}
	return row.Code
}

// refuseOtherRanks finds programmes whose published ranks rest on a cut that was
// published otherwise since.
func (p *publisher) refuseOtherRanks() {
	if p.content.parsed == nil {
		return
	}
	category, result := p.content.parsed.Category()
	for i := range result.Programmes {
		if !sameRanks(p.published[i], &result.Programmes[i]) {
			p.addOfficial("the ranks of programme %s as it is published rest on a cut that was published otherwise since", category.Programmes[i].ID)
		}
	}
}

func sameRanks(a, b *scoring.ProgrammeResult) bool {
	return slices.EqualFunc(a.Flights, b.Flights, func(a, b scoring.FlightResult) bool {
		return publishedRank(&a) == publishedRank(&b)
	})
}

func publishedRank(f *scoring.FlightResult) int {
	if f.Placing == nil || f.Rank == nil {
		return 0
	}
	return *f.Rank
}

// refuseFlights finds flights whose results are not settled.
func (p *publisher) refuseFlights(part *Part) {
	category, behind := &part.Bundle.Categories[0], &part.Categories[0].Programmes[part.Index]
	programme := &category.Programmes[part.Index]
	table, closed := scoring.Clean(programme), 0
	names := pilotNames(part.Bundle)
	for i := range behind.Flights {
		f := &behind.Flights[i]
		name := fmt.Sprintf("flight %d (%s)", f.Number, names[programme.Flights[i].Pilot])
		if isOver(&f.State) {
			closed++
		}
		if isClosed(&f.State) && len(programme.Items(&programme.Flights[i])) == 0 {
			p.add(Refusal{Text: name + " flew a sequence that is not released", Flight: f.ID, Final: true})
		}
		if p.wish.State == publication.Official && !p.abandoned {
			p.refuseFlight(name, f, &table.Flights[i], programme.Panel, part)
		}
	}
	if closed == 0 && !p.abandoned {
		p.add(Refusal{Text: "no flight is closed"})
	}
}

// isClosed tells whether a flight was flown and closed.
func isClosed(f *line.Flight) bool { return f.Status == line.StatusClosed && !f.StatusConflict }

// isOver tells whether nothing more is to come of a flight.
func isOver(f *line.Flight) bool {
	return line.IsOver(f.Status) && !f.StatusConflict
}

func pilotNames(b *scoring.Bundle) map[string]string {
	names := map[string]string{}
	for _, p := range b.Pilots {
		names[p.ID] = p.Name
		if p.Name == "" {
			names[p.ID] = p.ID
		}
	}
	return names
}

func (p *publisher) refuseFlight(name string, f *FlightPart, clean *scoring.CleanFlight, panel []string, part *Part) {
	seats := map[string]int{}
	for i, code := range panel {
		seats[part.Judges[code].String()] = i + 1
	}
	words := BlockWords(&f.State, seats)
	if isClosed(&f.State) {
		words = append(words, settledWords(clean)...)
	}
	if len(words) > 0 {
		p.add(Refusal{Text: name + ": " + strings.Join(words, ", "), Flight: f.ID})
	}
}

// BlockWords say what keeps a flight from becoming official, each thing once.
// Seats are numbers by the ids of judges.
func BlockWords(f *line.Flight, seats map[string]int) (words []string) {
	for _, b := range f.Blocks {
		if w := blockWords(b, seats); !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	return words
}

// settledWords say what of a closed flight cannot be scored.
func settledWords(clean *scoring.CleanFlight) (words []string) {
	if !clean.Complete && clean.Flight.Status == scoring.Flown {
		return []string{"grades are missing"}
	}
	for _, item := range clean.Unresolved {
		words = append(words, fmt.Sprintf("item %d needs a decision", item))
	}
	return words
}

func blockWords(b line.Block, seats map[string]int) string {
	seat := fmt.Sprintf("seat %d", seats[b.Judge])
	switch b.Cause {
	case line.BlockStatus:
		if b.State == line.Conflict {
			return "its status is contradicted"
		}
		return "is not closed"
	case line.BlockSheet:
		return seat + " has not signed"
	case line.BlockConflict:
		return fmt.Sprintf("item %d of %s has grades that differ", b.Item, seat)
	case line.BlockAbsent:
		return "it is contradicted whether " + seat + " is absent"
	case line.BlockRuling:
		return fmt.Sprintf("rulings on item %d differ", b.Item)
	case line.BlockPenalty:
		return "penalties differ: " + b.State
	}
	return "a record waits for a decision"
}

// readUnplaced finds the records of flights that are not in the contest and that
// nobody has decided on.
func readUnplaced(ctx context.Context, tx pgx.Tx, contest uuid.UUID) ([]string, error) {
	flights, err := values[uuid.UUID](ctx, tx, `
		SELECT DISTINCT flight_id
		FROM line_record r
		WHERE contest_id = @contest
			AND NOT EXISTS (
				SELECT
				FROM flight f
				WHERE f.contest_id = r.contest_id
					AND f.flight_id = r.flight_id
			)`,
		pgx.StrictNamedArgs{"contest": contest})
	if err != nil || len(flights) == 0 {
		return nil, err
	}
	resolved, err := readLine(ctx, tx, contest, flights)
	if err != nil {
		return nil, err
	}
	return resolved.unplaced, nil
}
