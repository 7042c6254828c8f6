package backup

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// TestRotation takes a backup every ten minutes for forty days. By hand: the last
// 12 are two hours, two of the 48 hours; then the hours of the second day back,
// the days up to 31, and the month before.
func TestRotation(t *testing.T) {
	t.Parallel()
	now := time.Date(2026, 7, 20, 12, 5, 0, 0, time.UTC)
	var taken []time.Time
	for at := now; now.Sub(at) < 40*24*time.Hour; at = at.Add(-10 * time.Minute) {
		taken = append(taken, at)
	}
	gone := map[time.Time]bool{}
	for _, t := range outdated(taken, now) {
		gone[t] = true
	}
	kept := 0
	for i, at := range taken {
		if gone[at] {
			continue
		}
		kept++
		if age := now.Sub(at); i >= keepLast && age < keepHours && at.Minute() != 55 {
			t.Errorf("%s is kept, and is not the last of its hour", at)
		} else if age >= keepHours && (at.Hour() != 23 || at.Minute() != 55) {
			t.Errorf("%s is kept, and is not the last of its day", at)
		}
	}
	// 12 of two hours, one each of 46 hours more, 28 or 29 days more.
	if kept < 12+46+28 || kept > 12+46+30 {
		t.Errorf("%d are kept", kept)
	}
	if last := taken[len(taken)-1]; !gone[last] {
		t.Errorf("%s is kept", last)
	}
}

func TestRotateLeavesOtherFiles(t *testing.T) {
	t.Parallel()
	dir, now := t.TempDir(), time.Date(2026, 7, 20, 12, 0, 0, 0, time.UTC)
	names := []string{"mine.backup", Name(now)}
	for i := range 20 { // within one hour and day of long ago
		names = append(names, Name(now.AddDate(-1, 0, 0).Add(time.Duration(i)*time.Minute)))
	}
	for _, name := range names {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if last, err := Last(dir); err != nil || !last.Equal(now) {
		t.Errorf("the last was taken %v, %v", last, err)
	}
	if err := Rotate(dir, now); err != nil {
		t.Fatal(err)
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != keepLast+1 {
		t.Errorf("%d files are left, want the last %d and the other", len(left), keepLast)
	}
	if last, err := Last(filepath.Join(dir, "nowhere")); err != nil || !last.IsZero() {
		t.Errorf("of no folder: %v, %v", last, err)
	}
}
