package scoring

import (
	"fmt"
	"strings"
	"testing"
)

// contestOf makes a category of lines such as "anna/red 8 7.5 withdrawn": a
// pilot, with a team after a slash and a star for one who is not ranked, and
// what happened in each programme: a grade of the one judge for the one item,
// K 10, so that 8 is 80 points; the status of a flight that was not flown; or
// "none" where there is no flight.
func contestOf(t *testing.T, combine Combine, lines ...string) *Category {
	t.Helper()
	c := &Category{ID: "c", Combine: combine}
	for i := range strings.Fields(lines[0])[1:] {
		c.Programmes = append(c.Programmes, Programme{
			ID: fmt.Sprint("r", i+1), Kind: Known, Counts: true, Method: DefaultMethod(Mean), Panel: []string{"j"},
			Sequence: &Sequence{Items: []Item{{Kind: Figure, K: 100}}},
		})
	}
	for _, line := range lines {
		words := strings.Fields(line)
		name, team, _ := strings.Cut(words[0], "/")
		entry := Entry{Pilot: strings.TrimSuffix(name, "*"), Ranked: !strings.HasSuffix(name, "*"), Team: team}
		c.Entries = append(c.Entries, entry)
		for i, word := range words[1:] {
			if word != "none" {
				p := &c.Programmes[i]
				p.Flights = append(p.Flights, flightOf(t, entry.Pilot, word))
			}
		}
	}
	return c
}

func flightOf(t *testing.T, pilot, word string) Flight {
	t.Helper()
	switch word {
	case Scheduled, NotFlown, Withdrawn, Disqualified:
		return Flight{Pilot: pilot, Status: word}
	}
	return Flight{Pilot: pilot, Status: Flown, Sheets: []Sheet{sheetOf(t, "j", word)}}
}

// standingOf lists a programme as "pilot score rank", with "-" where there is
// none.
func standingOf(p *ProgrammeResult) string {
	var lines []string
	for _, f := range p.Flights {
		line := f.Pilot + " - -"
		if f.Placing != nil {
			line = fmt.Sprintf("%s %v %s", f.Pilot, f.Score, rankText(f.Rank))
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, ", ")
}

// overallOf lists the overall standing as "pilot total rank".
func overallOf(r *CategoryResult) string {
	var lines []string
	for _, o := range r.Overall {
		lines = append(lines, fmt.Sprintf("%s %v %s", o.Pilot, o.Total, rankText(o.Rank)))
	}
	return strings.Join(lines, ", ")
}

func rankText(rank *int) string {
	if rank == nil {
		return "-"
	}
	return fmt.Sprint(*rank)
}

func is(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s:\n%s\nwant\n%s", what, got, want)
	}
}

// TestPublishedScores: half away from zero, on the shortest text of the double.
// Of these 1.005 is a little less than it says, and 0.285 a little more.
func TestPublishedScores(t *testing.T) {
	for x, want := range map[float64]float64{
		1.005: 1.01, 2.675: 2.68, 0.285: 0.29, 0.125: 0.13, 1234.5649999: 1234.56, 0.004999: 0, 0.005: 0.01,
		1e-9: 0, 2: 2, 99.995: 100, 3.14: 3.14, 1e12: 1e12,
	} {
		if got := published(x).float(); got != want {
			t.Errorf("%v is published as %v, want %v", x, got, want)
		}
	}
}

// TestPercentages are of exact fractions: 12.35 of 200 is 6.175 %, which no
// double is.
func TestPercentages(t *testing.T) {
	for _, c := range []struct {
		score hundredths
		k     K // tenths
		want  float64
	}{
		{1235, 200, 6.18}, {8000, 100, 80}, {10000, 150, 66.67}, {0, 100, 0}, {20000, 200, 100}, {100, 300, 0.33}, {0, 0, 0},
	} {
		if got := percentOf(c.score, c.k).float(); got != c.want {
			t.Errorf("%v of K %v are %v %%, want %v", c.score.float(), c.k, got, c.want)
		}
	}
}

func TestPenalties(t *testing.T) {
	c := contestOf(t, Combine{}, "anna 8", "ben 8", "cem 0.5")
	flights := c.Programmes[0].Flights
	flights[1].Penalties = []Penalty{{"low", 2, 12.5}, {"outside", 1, 5}, {"interruption", 0, 70}}
	flights[2].Penalties = []Penalty{{"low", 1, 50}}
	r := ScoreCategory(c)
	is(t, "80 - 2 × 12.5 - 5, and never below 0", standingOf(&r.Programmes[0]), "anna 80 1, ben 50 2, cem 0 3")
	ben := r.Programmes[0].Flights[1]
	equal(t, "panel score before penalties", ben.PanelScore, 80)
	equal(t, "penalties", ben.Penalties, 30)
	equal(t, "percent after penalties", ben.Percent, 50)
}

// TestTies: equal published scores share a rank, and the next is skipped. Of
// 66.666… a thousandth less is published the same, three thousandths are not.
func TestTies(t *testing.T) {
	r := ScoreCategory(contestOf(t, Combine{}, "anna 9", "ben 8", "cem 8", "dora 7"))
	is(t, "ties", standingOf(&r.Programmes[0]), "anna 90 1, ben 80 2, cem 80 2, dora 70 4")
	for points, want := range map[float64]string{0.001: "p1 66.67 1, p2 66.67 1", 0.003: "p1 66.67 1, p2 66.66 2"} {
		p := oneItem(t, DefaultMethod(Mean), "6 7 7", "6 7 7")
		p.Flights[1].Penalties = []Penalty{{"", 1, points}}
		r := ScoreCategory(&Category{Entries: entriesOf(p), Programmes: []Programme{*p}})
		is(t, "as published", standingOf(&r.Programmes[0]), want)
	}
}

func entriesOf(p *Programme) (entries []Entry) {
	for _, f := range p.Flights {
		entries = append(entries, Entry{Pilot: f.Pilot, Ranked: true})
	}
	return entries
}

// TestWhoWasNotGraded: those who did not fly share the rank behind all ranked
// pilots with a score; who waits, or is not ranked, has none.
func TestWhoWasNotGraded(t *testing.T) {
	r := ScoreCategory(contestOf(t, Combine{},
		"anna 8", "ben withdrawn", "cem* 9", "dora not-flown", "eli scheduled", "finn disqualified", "gwen* withdrawn", "hugo -"))
	p := &r.Programmes[0]
	is(t, "standing", standingOf(p), "anna 80 1, ben 0 2, cem 90 -, dora 0 2, eli - -, finn 0 2, gwen 0 -, hugo - -")
	is(t, "overall", overallOf(&r), "anna 80 1, ben 0 2, cem 90 -, dora 0 2, eli 0 2, finn 0 2, gwen 0 -, hugo 0 2")
	is(t, "state", p.State, Incomplete)
	if p.Flights[1].Judged != nil || p.Flights[1].Certainty != nil || p.Flights[2].Certainty != nil || p.Flights[7].Complete {
		t.Errorf("flights: %+v", p.Flights)
	}
}

// TestNobodyFlewYet: where there is nothing yet, lists are empty and never null.
func TestNobodyFlewYet(t *testing.T) {
	c := Category{ID: "c", Programmes: []Programme{{ID: "r1", Kind: Known, Counts: true, Method: DefaultMethod(Mean)}}}
	text := string(Score(&Bundle{Categories: []Category{c}}).Encode())
	is(t, "results", text, `{"format":"halfpoint-results/1","categories":[{"id":"c","programmes":[`+
		`{"id":"r1","method":"mean","fallback":"","state":"complete","flights":[]}],"overall":[],"teams":[]}]}`+"\n")
}

// TestUnrankedTakePart: a pilot hors concours is part of the fit.
func TestUnrankedTakePart(t *testing.T) {
	p := oneItem(t, DefaultMethod(Consensus), "8 7 6 7", "7 7 5 7", "9 8 7 6", "6 6 6 6", "8 8 8 9")
	c := &Category{Entries: entriesOf(p), Programmes: []Programme{*p}}
	c.Entries[0].Ranked = false
	if r := ScoreCategory(c).Programmes[0]; r.Fallback != "" || r.Flights[0].Judged == nil || *r.Flights[1].Rank > 4 {
		t.Errorf("four ranked flights of five: %s instead, %+v", r.Fallback, r.Flights[0])
	}
}

// TestCombinations: 80 and 70 points of 100 possible, and 90 and 50.
func TestCombinations(t *testing.T) {
	lines := []string{"anna 8 7", "ben 9 5", "cem 6 none"}
	for by, want := range map[string]string{
		BySum:             "anna 150 1, ben 140 2, cem 60 3",
		BySumPercent:      "anna 115 2, ben 115 1, cem 60 3", // the second is worth half in percent
		ByWeightedPercent: "anna 68.75 2, ben 73.75 1, cem 45 3",
	} {
		c := contestOf(t, Combine{By: by, TieBreak: []string{"r1"}, Weights: map[string]float64{"r1": 0.75, "r2": 0.25}}, lines...)
		second := &c.Programmes[1]
		second.Sequence.Items = append(second.Sequence.Items, Item{Kind: Overall, K: 100})
		for i := range second.Flights {
			sheet := &second.Flights[i].Sheets[0]
			sheet.Grades = append(sheet.Grades, 0) // 70 and 50 of 200
		}
		r := ScoreCategory(c)
		is(t, by, overallOf(&r), want)
	}
}

// TestWeightedTotalsAreRounded: thirds of 80, 85 and 85 are 83.333….
func TestWeightedTotalsAreRounded(t *testing.T) {
	third := 1.0 / 3
	c := contestOf(t, Combine{By: ByWeightedPercent, Weights: map[string]float64{"r1": third, "r2": third, "r3": third}}, "anna 8 8.5 8.5")
	r := ScoreCategory(c)
	is(t, "total", overallOf(&r), "anna 83.33 1")
}

func TestTiesAreBroken(t *testing.T) {
	lines := []string{"anna 8 7 6", "ben 7 8 6", "cem 7 7 7", "dora 7 8 6"}
	for _, c := range []struct {
		by   []string
		want string
	}{
		{nil, "anna 210 1, ben 210 1, cem 210 1, dora 210 1"},
		{[]string{"r3"}, "anna 210 2, ben 210 2, cem 210 1, dora 210 2"},
		{[]string{"r2"}, "anna 210 3, ben 210 1, cem 210 3, dora 210 1"},
		{[]string{"r2", "r1"}, "anna 210 3, ben 210 1, cem 210 4, dora 210 1"},
		{[]string{"elsewhere", "r3", "r1"}, "anna 210 2, ben 210 3, cem 210 1, dora 210 3"},
	} {
		r := ScoreCategory(contestOf(t, Combine{By: BySum, TieBreak: c.by}, lines...))
		is(t, fmt.Sprint(c.by), overallOf(&r), c.want)
	}
}

// TestWhatDoesNotCount: such a programme has its standing, adds nothing to
// totals, and breaks no ties.
func TestWhatDoesNotCount(t *testing.T) {
	c := contestOf(t, Combine{By: BySum, TieBreak: []string{"r2"}}, "anna 8 9", "ben 8 10")
	c.Programmes[1].Counts, c.Programmes[1].Cut = false, 1
	r := ScoreCategory(c)
	is(t, "standing", standingOf(&r.Programmes[1]), "anna 90 2, ben 100 1")
	is(t, "overall", overallOf(&r), "anna 80 1, ben 80 1")
	if got := fmt.Sprint(r.Overall[1].ByProgramme); got != "[{r1 80} {r2 100}]" {
		t.Errorf("by programme: %s", got)
	}
}

// TestCut sends the two best on, and who is tied with the second, whatever
// would break the tie. Cem, who is not ranked, takes no place and goes on.
func TestCut(t *testing.T) {
	c := contestOf(t, Combine{By: BySum, TieBreak: []string{"r2"}},
		"anna 9 5 5", "ben 8 6 none", "cem* 10 6 6", "dora 8 7 5", "eli 7 10 10", "finn 6 none none")
	c.Programmes[0].Cut = 2
	r := ScoreCategory(c)
	is(t, "before", standingOf(&r.Programmes[0]), "anna 90 1, ben 80 2, cem 100 -, dora 80 2, eli 70 4, finn 60 5")
	is(t, "after", standingOf(&r.Programmes[1]), "anna 50 3, ben 60 2, cem 60 -, dora 70 1, eli 100 -")
	is(t, "overall", overallOf(&r), "anna 190 2, ben 140 3, cem 220 -, dora 200 1, eli 70 4, finn 60 5")
	if got := fmt.Sprint(r.Overall[4].ByProgramme); got != "[{r1 70} {r2 100} {r3 100}]" {
		t.Errorf("by programme, of who was cut: %s", got)
	}
}

// TestTwoCuts: who was cut later stands above who was cut earlier, whatever that
// one flew afterwards.
func TestTwoCuts(t *testing.T) {
	c := contestOf(t, Combine{By: BySum}, "anna 9 9 9", "ben 8 8 0", "cem 7.5 0 none", "dora 7 10 none")
	c.Programmes[0].Cut, c.Programmes[1].Cut = 3, 2
	r := ScoreCategory(c)
	is(t, "overall", overallOf(&r), "anna 270 1, ben 160 2, cem 75 3, dora 70 4")
	last := ScoreProgramme(c, 2)
	is(t, "the last alone", standingOf(&last), "anna 90 1, ben 0 2")
}

// TestTeams: the two best ranked members count, best first. Who has no ranked
// member is no team; of the third, one member flew.
func TestTeams(t *testing.T) {
	lines := []string{"anna/red 8", "ben/blue 9", "cem/blue 7", "dora/red 9", "eli/red 8.5", "finn*/green 10", "gwen/gold 9", "hugo*/blue 10", "ida 10"}
	r := ScoreCategory(contestOf(t, Combine{By: BySum, TeamBest: 2}, lines...))
	want := []TeamResult{
		{"red", 175, 1, []string{"dora", "eli"}}, {"blue", 160, 2, []string{"ben", "cem"}}, {"gold", 90, 3, []string{"gwen"}},
	}
	is(t, "teams", fmt.Sprint(r.Teams), fmt.Sprint(want))
	r = ScoreCategory(contestOf(t, Combine{By: BySum, TeamBest: 1}, lines...))
	want = []TeamResult{{"red", 90, 1, []string{"dora"}}, {"blue", 90, 1, []string{"ben"}}, {"gold", 90, 1, []string{"gwen"}}}
	is(t, "teams of one", fmt.Sprint(r.Teams), fmt.Sprint(want))
	r = ScoreCategory(contestOf(t, Combine{By: BySum}, lines...))
	if len(r.Teams) != 0 {
		t.Errorf("no teams: %v", r.Teams)
	}
}
