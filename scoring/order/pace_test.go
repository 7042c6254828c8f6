package order_test

import (
	"strings"
	"testing"
	"time"

	"halfpoint/scoring/order"
)

// at reads times of one day: "10:00 10:12".
func at(t *testing.T, times string) []time.Time {
	t.Helper()
	var list []time.Time
	for text := range strings.FieldsSeq(times) {
		one, err := time.Parse("15:04", text)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, one)
	}
	return list
}

// TestPace has the medians of the gaps worked out by hand.
func TestPace(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		begun   string
		minutes float64
	}{
		{"", 0},
		{"10:00", 0},
		{"10:00 10:12", 0},              // one gap is no pace
		{"10:00 10:12 10:22", 11},       // 12 and 10
		{"10:22 10:00 10:12", 11},       // in whatever order they come
		{"10:00 10:10 11:40 11:51", 11}, // 10, 90 over lunch, 11
		{"10:00 10:00 10:00", 0},        // all written at once
	} {
		if got := order.Pace(at(t, c.begun)).Minutes(); got != c.minutes {
			t.Errorf("%s: %v minutes, want %v", c.begun, got, c.minutes)
		}
	}
}

// TestExpected has times worked out by hand.
func TestExpected(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		begun, now string
		waiting    int
		want       string
	}{
		{"10:00 10:10", "10:12", 2, ""}, // not known yet
		{"10:00 10:10 10:20", "10:23", 3, "10:30 10:40 10:50"},
		{"10:00 10:10 10:20", "10:23", 0, ""},
		{"10:00 10:10 10:20", "10:34", 2, "10:34 10:44"}, // late already
		{"10:00 10:00 10:00", "10:05", 2, ""},
	} {
		var got []string
		for _, one := range order.Expected(at(t, c.begun), at(t, c.now)[0], c.waiting) {
			got = append(got, one.Format("15:04"))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}
