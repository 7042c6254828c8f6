package db

import (
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/scoring/document"
)

// An Edit puts a row into a set-up, or takes one out of it. The row's id is made
// by whoever makes the row, so that the same edit sent again does nothing more.
// Its revision is that of the row as it was seen.
type Edit[R any] struct {
	Row    R
	Remove bool
}

// A SetupChange edits rows of a set-up. Rows that it does not name stay.
type SetupChange struct {
	Contest    *ContestRow
	Penalties  []Edit[PenaltyRow]
	Officials  []Edit[OfficialRow]
	Pilots     []Edit[PilotRow]
	Categories []Edit[CategoryRow]
	Entries    []Edit[EntryRow]
	Programmes []Edit[ProgrammeRow]
	Reason     string // why a method changes after the first flight was called
}

// SetupChangedError is the error of a change to what somebody else changed
// meanwhile. It says of every field that differs what it is now.
type SetupChangedError struct{ Complaints document.Complaints }

func (e *SetupChangedError) Error() string { return "changed meanwhile: " + e.Complaints.Error() }

// Is makes it a conflict.
func (e *SetupChangedError) Is(target error) bool { return target == ErrConflict }

// ChangeSetup makes all of a change, or nothing, and returns the set-up as it
// then is. By is the account that makes it. What is wrong with the change comes
// back as document.Complaints with places in it (pilots[3].code), a row that
// somebody else changed meanwhile as *SetupChangedError.
func (db *DB) ChangeSetup(ctx context.Context, contest uuid.UUID, c *SetupChange, by string) (after *Setup, err error) {
	_, err = db.change(ctx, contest, func(tx pgx.Tx) (*act, error) {
		if err := lockContest(ctx, tx, contest); err != nil {
			return nil, err
		}
		m, err := mergeSetup(ctx, tx, contest, c)
		if err != nil || m.isEmpty() {
			return nil, err
		}
		if err := m.store(ctx, tx); err != nil {
			return nil, err
		}
		return newAct(actSetup, by, m.details(c.Reason)), nil
	})
	if err == nil {
		after, err = db.Setup(ctx, contest)
	}
	if err != nil {
		return nil, fmt.Errorf("changing a contest's set-up: %w", err)
	}
	return after, nil
}

// merged is a change laid over the set-up as it is.
type merged struct {
	contest    uuid.UUID
	before     *Setup
	after      Setup
	contestPut *ContestRow // nil where the contest itself stays
	penalties  merge[PenaltyRow]
	officials  merge[OfficialRow]
	pilots     merge[PilotRow]
	categories merge[CategoryRow]
	entries    merge[EntryRow]
	programmes merge[ProgrammeRow]

	places map[uuid.UUID]string // of the rows that the change names
}

// A merge is the part of one list: the rows to store and those to take out.
type merge[R any] struct {
	put     []R
	removed []uuid.UUID
}

// mergeSetup lays a change over the set-up, and complains about all that is
// wrong with it.
func mergeSetup(ctx context.Context, tx pgx.Tx, contest uuid.UUID, c *SetupChange) (*merged, error) {
	before, err := readWholeSetup(ctx, tx, contest)
	if err != nil {
		return nil, err
	}
	m := &merged{contest: contest, before: before, after: *before, places: map[uuid.UUID]string{}}
	if err := m.merge(c); err != nil {
		return nil, err
	}
	uses, err := readUses(ctx, tx, contest)
	if err != nil {
		return nil, err
	}
	return m, m.check(uses, c.Reason)
}

func (m *merged) merge(c *SetupChange) error {
	var now document.Report
	m.mergeContest(c.Contest, &now)
	m.after.Penalties, m.penalties = mergeList(m, "penalties", m.before.Penalties, c.Penalties, &now)
	m.after.Officials, m.officials = mergeList(m, "officials", m.before.Officials, c.Officials, &now)
	m.after.Pilots, m.pilots = mergeList(m, "pilots", m.before.Pilots, c.Pilots, &now)
	m.after.Categories, m.categories = mergeList(m, "categories", m.before.Categories, c.Categories, &now)
	m.after.Entries, m.entries = mergeList(m, "entries", m.before.Entries, c.Entries, &now)
	m.after.Programmes, m.programmes = mergeList(m, "programmes", m.before.Programmes, c.Programmes, &now)
	if complaints := now.Complaints(); complaints != nil {
		return &SetupChangedError{complaints}
	}
	return nil
}

func (m *merged) mergeContest(put *ContestRow, now *document.Report) {
	if put == nil {
		return
	}
	row := *put
	row.ID, row.Position = m.contest, 0
	m.places[m.contest] = "contest"
	if differs := differences(m.before.Contest, row); len(differs) == 0 {
		return
	} else if row.Revision != m.before.Contest.Revision {
		complainOfChange(now, "contest", differs)
		return
	}
	m.after.Contest, m.contestPut = row, &row
}

// rowOf is a pointer to a row of a set-up.
type rowOf[R any] interface {
	*R
	head() *RowHead
}

// mergeList lays edits over a list, in the order of its positions.
func mergeList[R any, P rowOf[R]](m *merged, name string, present []R, edits []Edit[R], now *document.Report) (after []R, done merge[R]) {
	after = slices.Clone(present)
	for n := range edits {
		edit, place := edits[n], fmt.Sprintf("%s[%d]", name, n)
		id := P(&edit.Row).head().ID
		m.places[id] = place
		at := slices.IndexFunc(after, func(r R) bool { return P(&r).head().ID == id })
		switch {
		case at < 0 && edit.Remove:
		case at < 0 && P(&edit.Row).head().Revision > 0:
			now.Add(place, "it is no longer there: somebody took it out")
		case at < 0:
			after, done.put = append(after, edit.Row), append(done.put, edit.Row)
		case !edit.Remove && len(differences(after[at], edit.Row)) == 0:
		case P(&after[at]).head().Revision != P(&edit.Row).head().Revision:
			complainOfChange(now, place, differences(after[at], edit.Row))
		case edit.Remove:
			after, done.removed = slices.Delete(after, at, at+1), append(done.removed, id)
		default:
			after[at], done.put = edit.Row, append(done.put, edit.Row)
		}
	}
	slices.SortStableFunc(after, func(a, b R) int { return P(&a).head().Position - P(&b).head().Position })
	return after, done
}

// A difference is a field with what it is now.
type difference struct{ field, now string }

// differences compares two rows of a kind, but for their revisions.
func differences[R any](now, then R) (found []difference) {
	a, b := reflect.ValueOf(now), reflect.ValueOf(then)
	for _, field := range reflect.VisibleFields(a.Type()) {
		if field.Anonymous || field.Name == "Revision" || field.Name == "ID" {
			continue
		}
		x, y := a.FieldByIndex(field.Index), b.FieldByIndex(field.Index)
		if !isSame(x, y) {
			found = append(found, difference{strings.ToLower(field.Name), inWords(x)})
		}
	}
	return found
}

// isSame compares values; an empty list or map is the same as none.
func isSame(x, y reflect.Value) bool {
	switch x.Kind() {
	case reflect.Slice, reflect.Map:
		return x.Len() == 0 && y.Len() == 0 || reflect.DeepEqual(x.Interface(), y.Interface())
	case reflect.Struct:
		for i := range x.NumField() {
			if !isSame(x.Field(i), y.Field(i)) {
				return false
			}
		}
		return true
	}
	return x.Interface() == y.Interface()
}

func inWords(v reflect.Value) string {
	switch v.Kind() {
	case reflect.String:
		return fmt.Sprintf("%q", v.String())
	case reflect.Slice, reflect.Map, reflect.Struct, reflect.Array:
		return "something else"
	}
	return fmt.Sprint(v.Interface())
}

func complainOfChange(now *document.Report, place string, differs []difference) {
	for _, d := range differs {
		now.Add(place+"."+d.field, "somebody changed this row meanwhile; it is now %s", d.now)
	}
	if len(differs) == 0 {
		now.Add(place, "somebody changed this row meanwhile")
	}
}

func (m *merged) isEmpty() bool {
	return m.contestPut == nil && m.penalties.isEmpty() && m.officials.isEmpty() && m.pilots.isEmpty() &&
		m.categories.isEmpty() && m.entries.isEmpty() && m.programmes.isEmpty()
}

func (d *merge[R]) isEmpty() bool { return len(d.put) == 0 && len(d.removed) == 0 }

// setupAct is what the journal says of a change: the rows as they then are.
type setupAct struct {
	Reason     string            `json:"reason,omitempty"`
	Contest    *ContestRow       `json:"contest,omitempty"`
	Penalties  []PenaltyRow      `json:"penalties,omitempty"`
	Officials  []OfficialRow     `json:"officials,omitempty"`
	Pilots     []PilotRow        `json:"pilots,omitempty"`
	Categories []CategoryRow     `json:"categories,omitempty"`
	Entries    []EntryRow        `json:"entries,omitempty"`
	Programmes []ProgrammeRow    `json:"programmes,omitempty"`
	Removed    map[string]string `json:"removed,omitempty"` // the list of each row taken out, by id
}

func (m *merged) details(reason string) setupAct {
	removed := map[string]string{}
	for list, ids := range map[string][]uuid.UUID{
		"penalties": m.penalties.removed, "officials": m.officials.removed, "pilots": m.pilots.removed,
		"categories": m.categories.removed, "entries": m.entries.removed, "programmes": m.programmes.removed,
	} {
		for _, id := range ids {
			removed[id.String()] = list
		}
	}
	return setupAct{
		Reason: reason, Contest: m.contestPut, Penalties: m.penalties.put, Officials: m.officials.put, Pilots: m.pilots.put,
		Categories: m.categories.put, Entries: m.entries.put, Programmes: m.programmes.put, Removed: removed,
	}
}
