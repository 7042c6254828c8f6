package season

import (
	"fmt"
	"strings"
	"testing"
)

// The tables here are made up and reckoned by hand, each step in its comment.
// That a table of points is by place, that the best n of m count and that ties
// share the mean of their places is common practice, no source.

func rank(n int) *int { return &n }

// places reads "Ada 1 800, Bo 2 700": person, rank and score of 1000 possible; a
// rank of 0 is none.
func places(text string) (list []Place) {
	for one := range strings.SplitSeq(text, ", ") {
		p, n := Place{Maximum: 1000}, 0
		if _, err := fmt.Sscanf(one, "%s %d %f", &p.Person, &n, &p.Score); err != nil {
			panic(err)
		}
		p.Affiliation = p.Person[:1] + " club"
		if n > 0 {
			p.Rank = rank(n)
		}
		list = append(list, p)
	}
	return list
}

// The season of these tests: three contests.
func spring() []Contest {
	return []Contest{
		{ID: "may", Places: places("Ada 1 800, Bo 2 700, Cy 2 700, Di 4 500, Guest 0 900")},
		{ID: "june", Places: places("Bo 1 900, Ada 2 810, Di 3 600")},
		{ID: "july", Provisional: true, Places: places("Cy 1 850, Bo 2 640, Ada 3 500")},
	}
}

func written(rows []Row) string {
	var text strings.Builder
	for _, row := range rows {
		place := "-"
		if row.Rank != nil {
			place = fmt.Sprint(*row.Rank)
		}
		fmt.Fprintf(&text, "%s %s %.2f", place, row.Person, row.Total)
		for _, r := range row.Results {
			counts := ""
			if !r.Counts {
				counts = "!"
			}
			fmt.Fprintf(&text, " %s%s%.2f", r.Contest, map[bool]string{true: "?", false: "="}[r.Provisional], r.Points)
			text.WriteString(counts)
		}
		text.WriteString("\n")
	}
	return text.String()
}

func TestPaperTables(t *testing.T) {
	table := []float64{10, 8, 6, 5}
	for name, c := range map[string]struct {
		rules Rules
		want  string
	}{
		// Bo and Cy share places 2 and 3: (8 + 6) / 2 = 7. Ada 10 + 8 + 6, Bo 7 + 10 + 8, Cy 7 + 10, Di 5 + 6.
		"by rank, ties share the mean": {
			Rules{Points: ByRank, Table: table, Ties: ShareMean},
			"1 Bo 25.00 may=7.00 june=10.00 july?8.00\n2 Ada 24.00 may=10.00 june=8.00 july?6.00\n" +
				"3 Cy 17.00 may=7.00 july?10.00\n4 Di 11.00 may=5.00 june=6.00\n",
		},
		// Each of the two gets 8. Ada 24, Bo 26, Cy 18, Di 11.
		"by rank, ties each get the place's": {
			Rules{Points: ByRank, Table: table, Ties: ShareFull},
			"1 Bo 26.00 may=8.00 june=10.00 july?8.00\n2 Ada 24.00 may=10.00 june=8.00 july?6.00\n" +
				"3 Cy 18.00 may=8.00 july?10.00\n4 Di 11.00 may=5.00 june=6.00\n",
		},
		// The best two: Ada 10 + 8, Bo 10 + 8 less the 8 of July, which is the later; Cy 8 + 10; Di 5 + 6.
		// All three have 18: of equal totals each has 10 and 8.
		"the best two": {
			Rules{Points: ByRank, Table: table, Ties: ShareFull, Best: 2, TieBreak: []string{BestResult}},
			"1 Ada 18.00 may=10.00 june=8.00 july?6.00!\n1 Bo 18.00 may=8.00 june=10.00 july?8.00!\n" +
				"1 Cy 18.00 may=8.00 july?10.00\n4 Di 11.00 may=5.00 june=6.00\n",
		},
		// One of three dropped is the same as the best two. All have one win; Ada and Bo three contests, Cy two.
		// In July Bo has 8 and Ada 6.
		"the worst dropped, ties broken": {
			Rules{Points: ByRank, Table: table, Ties: ShareFull, Drop: 1, TieBreak: []string{Wins, Contests, Latest}},
			"1 Bo 18.00 may=8.00 june=10.00 july?8.00!\n2 Ada 18.00 may=10.00 june=8.00 july?6.00!\n" +
				"3 Cy 18.00 may=8.00 july?10.00\n4 Di 11.00 may=5.00 june=6.00\n",
		},
		// Of 800, the guest's 900 left out: Ada 100, Bo and Cy 87.5, Di 62.5. Of 900: Bo 100, Ada 90, Di 66.67
		// (600/900). Of 850: Cy 100, Bo 75.29 (640/850 = 0.752941), Ada 58.82 (500/850 = 0.588235).
		"percent of the winner, three contests needed": {
			Rules{Points: ByPercentOfWinner, Least: 3},
			"1 Bo 262.79 may=87.50 june=100.00 july?75.29\n2 Ada 248.82 may=100.00 june=90.00 july?58.82\n" +
				"- Cy 187.50 may=87.50 july?100.00\n- Di 129.17 may=62.50 june=66.67\n",
		},
		// Of 1000 each.
		"percent of the maximum, one club": {
			Rules{Points: ByPercentOfMaximum, Affiliations: []string{"B club", "C club"}},
			"1 Bo 224.00 may=70.00 june=90.00 july?64.00\n2 Cy 155.00 may=70.00 july?85.00\n",
		},
	} {
		if got := written(Standing(c.rules, spring())); got != c.want {
			t.Errorf("%s:\n%swant\n%s", name, got, c.want)
		}
	}
}

// Four share places 3 to 6 of a table of four: (6 + 5 + 0 + 0) / 4 = 2.75.
func TestTieBeyondTheTable(t *testing.T) {
	rules := Rules{Points: ByRank, Table: []float64{10, 8, 6, 5}, Ties: ShareMean}
	if got := rules.ofTable(3, 4); got != 2.75 {
		t.Errorf("%v, want 2.75", got)
	}
}

func TestNothingFlown(t *testing.T) {
	if rows := Standing(Rules{Points: ByPercentOfWinner, Drop: 3}, nil); len(rows) != 0 {
		t.Errorf("%v", rows)
	}
	zero := []Contest{{ID: "may", Places: places("Ada 1 0")}}
	if got := written(Standing(Rules{Points: ByPercentOfWinner}, zero)); got != "1 Ada 0.00 may=0.00\n" {
		t.Errorf("a winner without points: %s", got)
	}
}

func TestCheckSaysEverything(t *testing.T) {
	wrong := Rules{Points: "luck", Best: -1, TieBreak: []string{"age"}}
	err := wrong.Check()
	for _, place := range []string{"points", "best", "tie_break[0]"} {
		if err == nil || !strings.Contains(err.Error(), place) {
			t.Errorf("nothing about %s in %v", place, err)
		}
	}
	rising := Rules{Points: ByRank, Table: []float64{5, 8}, Ties: ShareMean}
	if err := rising.Check(); err == nil || !strings.Contains(err.Error(), "table[1]") {
		t.Errorf("a table that rises: %v", err)
	}
	good := Rules{Points: ByRank, Table: []float64{8, 8, 5}, Ties: ShareFull, Best: 3, TieBreak: []string{Wins}}
	if err := good.Check(); err != nil {
		t.Errorf("good rules: %v", err)
	}
}
