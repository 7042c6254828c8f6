package db

import (
	"context"
	"maps"
	"slices"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// The kinds of things that change in a contest.
const (
	ChangedLine    = "line"    // what is done on the line
	ChangedSetup   = "set-up"  // the set-up, sequences and running orders
	ChangedResults = "results" // publications, and what is decided about them
	ChangedPeople  = "people"  // who has which role, and which devices there are
)

// actsOf are the acts of the journal by which each kind changes.
var actsOf = map[string][]string{
	ChangedLine: {actRecords, actKeyed, actForgotten, actDecided},
	ChangedSetup: {
		actImported, actMade, actOpened, actSetup, actRegistered, actSignedOff, actReleased, actLimits, actNumbers,
		actNoted, actDescribed, actOrder, actRestored,
	},
	ChangedResults: {actPublished, actProtested, actDecided, actCounting, actAnalysis, actTakenBack},
	ChangedPeople:  {actPaired, actDeviceWithdrawn, actInvited, actInvitationWithdrawn, actRoleGiven, actRoleTaken},
}

// A Change is where a contest stands now, and what kinds of things changed on the
// way there from where a listener last saw it.
type Change struct {
	Head
	Kinds []string // sorted; nil where it is not known, and anything may have
}

// After is the change with what changed before it, which was not told.
func (c Change) After(before Change) Change {
	if c.Kinds == nil || before.Kinds == nil || c.Epoch != before.Epoch {
		return Change{Head: c.Head}
	}
	kinds := slices.Concat(before.Kinds, c.Kinds)
	slices.Sort(kinds)
	return Change{c.Head, slices.Compact(kinds)}
}

// sameAs tells whether nothing changed from one head to the other.
func (h Head) sameAs(other Head) bool { return h.Version == other.Version && h.Epoch == other.Epoch }

// kindsSince reads from the journals what kinds of things changed from the heads that
// are known to the ones now. A contest is left out where that cannot be told.
func (db *DB) kindsSince(ctx context.Context, heads []Head, known map[uuid.UUID]Head) map[uuid.UUID][]string {
	var contests []uuid.UUID
	var from, to []int64
	for _, h := range heads {
		if old := known[h.Contest]; old.Epoch == h.Epoch {
			contests, from, to = append(contests, h.Contest), append(from, old.JournalNumber), append(to, h.JournalNumber)
		}
	}
	if len(contests) == 0 {
		return nil
	}
	acts, err := db.actsBetween(ctx, contests, from, to)
	if err != nil {
		return nil // whoever listens takes it that anything changed
	}
	return kindsOf(acts)
}

// kindsOf tells the kinds that changed in each contest. One with an act that is not
// known here, as a newer program writes it, is left out.
func kindsOf(acts []contestAct) map[uuid.UUID][]string {
	kinds, unknown := map[uuid.UUID][]string{}, map[uuid.UUID]bool{}
	for _, a := range acts {
		changed := kindsOfAct(a.What)
		kinds[a.Contest] = append(kinds[a.Contest], changed...)
		unknown[a.Contest] = unknown[a.Contest] || len(changed) == 0
	}
	for contest, list := range kinds {
		slices.Sort(list)
		kinds[contest] = slices.Compact(list)
	}
	maps.DeleteFunc(kinds, func(contest uuid.UUID, _ []string) bool { return unknown[contest] })
	return kinds
}

// kindsOfAct are the kinds that change by an act, none for one that is not known.
func kindsOfAct(what string) (kinds []string) {
	for kind, acts := range actsOf {
		if slices.Contains(acts, what) {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// contestAct is what was done, as a contest's journal names it.
type contestAct struct {
	Contest uuid.UUID
	What    string
}

// actsBetween reads what was done in contests after one row of each one's journal and
// up to another.
func (db *DB) actsBetween(ctx context.Context, contests []uuid.UUID, from, to []int64) (acts []contestAct, err error) {
	err = db.insist(ctx, func() error {
		found, err := db.pool.Query(ctx, `
			SELECT DISTINCT
				j.contest_id AS contest,
				convert_from(j.body, 'UTF8')::json ->> 'what' AS what
			FROM unnest(@contests::uuid[], @from::bigint[], @to::bigint[]) AS c (contest_id, after, until)
			JOIN journal j ON j.contest_id = c.contest_id
				AND j.number > c.after
				AND j.number <= c.until`,
			pgx.StrictNamedArgs{"contests": contests, "from": from, "to": to})
		if err == nil {
			acts, err = pgx.CollectRows(found, pgx.RowToStructByName[contestAct])
		}
		return err
	})
	return acts, err
}
