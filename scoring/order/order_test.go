package order_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"halfpoint/scoring/document"
	"halfpoint/scoring/order"
)

var field = []string{"ann", "bea", "cal", "dot", "eve"}

// TestDraw: the tickets were made by
// printf '%s\n%s' 'wind 24 kt' ann | sha256sum
// which begins 5c7c for ann, d14c for bea, 4eec for cal, 91f0 for dot and aa9b
// for eve.
func TestDraw(t *testing.T) {
	t.Parallel()
	const seed = "wind 24 kt"
	for _, c := range []struct {
		plan order.Plan
		want string
	}{
		{order.Plan{By: order.ByLot, Seed: seed}, "cal ann dot eve bea"},
		{order.Plan{By: order.ByStanding}, "ann bea cal dot eve"},
		{order.Plan{By: order.ByStanding, Reversed: true}, "eve dot cal bea ann"},
		{order.Plan{By: order.ByStanding, Block: 2, Seed: seed}, "ann bea cal dot eve"},
		{order.Plan{By: order.ByStanding, Block: 3, Seed: seed}, "cal ann bea dot eve"},
		{order.Plan{By: order.ByStanding, Block: 3, Reversed: true, Seed: seed}, "cal dot eve ann bea"},
		{order.Plan{By: order.ByStanding, Block: 9, Seed: seed}, "cal ann dot eve bea"},
	} {
		if got := strings.Join(c.plan.Draw(field), " "); got != c.want {
			t.Errorf("%+v: %s, want %s", c.plan, got, c.want)
		}
	}
	if plan := (order.Plan{By: order.ByLot, Seed: seed}); len(plan.Draw(nil)) != 0 {
		t.Error("nobody was drawn")
	}
}

// TestLotDoesNotDependOnWhoDraws: the order of the pilots before the lot decides
// nothing, and nobody is lost.
func TestLotDoesNotDependOnWhoDraws(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(1, 2))
	for n := range 60 {
		pilots := make([]string, n)
		for i := range pilots {
			pilots[i] = fmt.Sprintf("pilot %d", i)
		}
		plan := order.Plan{By: order.ByLot, Seed: fmt.Sprint("seed ", n)}
		first := plan.Draw(pilots)
		random.Shuffle(n, func(i, j int) { pilots[i], pilots[j] = pilots[j], pilots[i] })
		before := slices.Clone(pilots)
		if again := plan.Draw(pilots); !slices.Equal(first, again) {
			t.Errorf("%d pilots: %v, then %v", n, first, again)
		}
		if !slices.Equal(before, pilots) {
			t.Errorf("%d pilots: what was given was changed", n)
		}
		if !slices.Equal(slices.Sorted(slices.Values(first)), slices.Sorted(slices.Values(pilots))) {
			t.Errorf("%d pilots: others were drawn: %v", n, first)
		}
	}
}

// TestEveryPlaceIsAsLikely draws 3000 lots of five: each pilot is expected 600
// times at each place. Chi-squared of the 25 cells has 16 degrees of freedom;
// 39.25 is its 99.9 % point (from memory, R: qchisq(0.999, 16)).
func TestEveryPlaceIsAsLikely(t *testing.T) {
	t.Parallel()
	const lots = 3000
	counted := map[string]float64{}
	for n := range lots {
		plan := order.Plan{By: order.ByLot, Seed: fmt.Sprint(n)}
		for place, pilot := range plan.Draw(field) {
			counted[fmt.Sprint(pilot, place)]++
		}
	}
	chi, expected := 0.0, float64(lots)/5
	for _, n := range counted {
		chi += (n - expected) * (n - expected) / expected
	}
	if len(counted) != 25 || chi > 39.25 {
		t.Errorf("chi-squared %.1f over %d cells: %v", chi, len(counted), counted)
	}
}

func TestWrongPlansAreNamed(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		plan order.Plan
		want string
	}{
		{order.Plan{By: order.ByStanding}, ""},
		{order.Plan{By: order.ByStanding, Block: 1, Seed: "7"}, ""},
		{order.Plan{By: order.ByLot, Seed: strings.Repeat("ä", 100)}, ""},
		{order.Plan{}, "by"},
		{order.Plan{By: "age", Seed: "7"}, "by"},
		{order.Plan{By: order.ByLot}, "seed"},
		{order.Plan{By: order.ByLot, Seed: " "}, "seed seed"},
		{order.Plan{By: order.ByLot, Seed: "a\nb"}, "seed"},
		{order.Plan{By: order.ByLot, Seed: strings.Repeat("ä", 101)}, "seed"},
		{order.Plan{By: order.ByLot, Seed: "7", Reversed: true}, "reversed"},
		{order.Plan{By: order.ByLot, Seed: "7", Block: 2}, "block"},
		{order.Plan{By: order.ByStanding, Block: -1}, "block"},
		{order.Plan{By: order.ByStanding, Block: 501, Seed: "7"}, "block"},
		{order.Plan{By: order.ByStanding, Block: 2}, "seed"},
	} {
		complaints, _ := errors.AsType[document.Complaints](c.plan.Check())
		places := make([]string, len(complaints))
		for i, one := range complaints {
			places[i] = one.Place
		}
		if got := strings.Join(places, " "); got != c.want {
			t.Errorf("%+v: complaints at %q, want %q", c.plan, got, c.want)
		}
	}
}
