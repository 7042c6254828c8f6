package backup

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"
)

// nameLayout is how a backup of a rotation is named: by when it was taken, UTC.
const nameLayout = "halfpoint-20060102T150405Z.backup"

// Name is the file of a backup that was taken at a time.
func Name(taken time.Time) string { return taken.UTC().Format(nameLayout) }

// What a rotation keeps: the last ones, the last of each hour for two days, of
// each day for a month, and of each month for ever.
const (
	keepLast  = 12
	keepHours = 48 * time.Hour
	keepDays  = 31 * 24 * time.Hour
)

// Rotate deletes the backups of a folder that are not worth keeping any more.
// Files with other names stay.
func Rotate(dir string, now time.Time) error {
	taken, err := times(dir)
	if err != nil {
		return err
	}
	for _, t := range outdated(taken, now) {
		if err := os.Remove(filepath.Join(dir, Name(t))); err != nil {
			return fmt.Errorf("deleting an old backup: %w", err)
		}
	}
	return nil
}

// Last is when the last backup of a folder was taken, the zero time where there
// is none.
func Last(dir string) (time.Time, error) {
	taken, err := times(dir)
	if err != nil || len(taken) == 0 {
		return time.Time{}, err
	}
	return taken[0], nil
}

// times are when the backups of a folder were taken, the last one first.
func times(dir string) (taken []time.Time, err error) {
	files, err := os.ReadDir(dir)
	if os.IsNotExist(err) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("looking at the backups: %w", err)
	}
	for _, f := range files {
		if t, err := time.Parse(nameLayout, f.Name()); err == nil {
			taken = append(taken, t)
		}
	}
	slices.SortFunc(taken, func(a, b time.Time) int { return b.Compare(a) })
	return taken, nil
}

// outdated chooses of times, the last one first, those that go.
func outdated(taken []time.Time, now time.Time) (gone []time.Time) {
	kept := map[string]bool{}
	for i, t := range taken {
		slots := slotsOf(t, now)
		if i >= keepLast && !slices.ContainsFunc(slots, func(slot string) bool { return !kept[slot] }) {
			gone = append(gone, t)
			continue
		}
		for _, slot := range slots {
			kept[slot] = true
		}
	}
	return gone
}

// slotsOf are those that a backup can hold: each is kept by the last one in it.
func slotsOf(t, now time.Time) []string {
	slots := []string{t.Format("2006-01")}
	if now.Sub(t) < keepDays {
		slots = append(slots, t.Format("2006-01-02"))
	}
	if now.Sub(t) < keepHours {
		slots = append(slots, t.Format("2006-01-02T15"))
	}
	return slots
}
