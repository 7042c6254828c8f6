// Package season makes a standing over several contests by rules that are data.
//
// It knows people, not pilots of contests: who is the same person in two
// contests is said by whoever calls it.
package season

import (
	"cmp"
	"slices"
)

// How a result becomes points.
const (
	ByRank             = "rank"               // by a table of points
	ByPercentOfWinner  = "percent-of-winner"  // 100 for the winner's score
	ByPercentOfMaximum = "percent-of-maximum" // 100 for the best possible score
)

// What pilots who tie get of a table of points.
const (
	ShareMean = "mean" // the mean of the points of the places that they take up
	ShareFull = "full" // each the points of the place
)

// What breaks a tie of totals.
const (
	BestResult = "best"   // the better best counted result, then the second best and so on
	Wins       = "wins"   // more first places, counted or not
	Contests   = "most"   // more contests
	Latest     = "latest" // more points in the latest contest, then the one before
)

// Rules say how a season is reckoned. The zero value counts every contest by
// rank with a table that gives nothing.
type Rules struct {
	Points string    `json:"points"`
	Table  []float64 `json:"table"` // for ByRank: of place 1, 2 and so on; places beyond get 0
	Ties   string    `json:"ties"`  // for ByRank
	// Best is how many results count at most; 0 for all. Drop takes so many of
	// the season's contests off that: whoever missed as many loses nothing.
	Best int `json:"best"`
	Drop int `json:"drop"`
	// Least is how many contests somebody must have flown to hold a rank.
	Least    int      `json:"least"`
	TieBreak []string `json:"tie_break"`
	// Affiliations are those whose members count; empty for everybody. Places are
	// as published, among all who flew.
	Affiliations []string `json:"affiliations"`
}

// A Contest is one published standing.
type Contest struct {
	ID          string
	Provisional bool
	Places      []Place
}

// A Place is somebody's in a contest.
type Place struct {
	Person      string
	Affiliation string
	Rank        *int // nil for whoever holds none, as hors concours: such a place gives nothing
	Score       float64
	Maximum     float64 // the best possible score
}

// A Row is a person's in the season's standing.
type Row struct {
	Person  string
	Total   float64 // to two decimals
	Rank    *int    // nil with fewer contests than the rules ask for
	Results []Result
}

// A Result is what a contest is worth to somebody, in the order of the contests.
type Result struct {
	Contest     string
	Rank        int
	Points      float64 // to two decimals
	Counts      bool
	Provisional bool
}

// Standing reckons a season whose contests stand in the order flown. People who
// hold a rank come first, by rank; equals by the order in which they first flew.
func Standing(rules Rules, contests []Contest) []Row {
	rows := collect(&rules, contests)
	for i := range rows {
		rows[i].count(&rules, len(contests))
	}
	compare := rules.compare(contests)
	slices.SortStableFunc(rows, compare)
	for i := range rows {
		if len(rows[i].Results) < rules.Least {
			continue
		}
		rank := i + 1
		if i > 0 && rows[i-1].Rank != nil && compare(rows[i-1], rows[i]) == 0 {
			rank = *rows[i-1].Rank
		}
		rows[i].Rank = &rank
	}
	return rows
}

// collect gives everybody who counts the points of each contest.
func collect(rules *Rules, contests []Contest) []Row {
	rows, at := []Row{}, map[string]int{}
	for i := range contests {
		c := &contests[i]
		for _, p := range c.Places {
			if p.Rank == nil || !rules.member(p.Affiliation) {
				continue
			}
			if _, there := at[p.Person]; !there {
				at[p.Person] = len(rows)
				rows = append(rows, Row{Person: p.Person})
			}
			row := &rows[at[p.Person]]
			row.Results = append(row.Results, Result{
				Contest: c.ID, Rank: *p.Rank, Points: rules.points(c, &p), Provisional: c.Provisional,
			})
		}
	}
	return rows
}

func (r *Rules) member(affiliation string) bool {
	return len(r.Affiliations) == 0 || slices.Contains(r.Affiliations, affiliation)
}

// count marks the results that count, the best ones, the earlier of equal ones,
// and adds them up.
func (r *Row) count(rules *Rules, contests int) {
	most := contests - rules.Drop
	if rules.Best > 0 {
		most = min(most, rules.Best)
	}
	order := make([]int, len(r.Results))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(r.Results[b].Points, r.Results[a].Points) })
	for _, i := range order[:max(0, min(most, len(order)))] {
		r.Results[i].Counts = true
		r.Total += r.Results[i].Points
	}
	r.Total = toCents(r.Total)
}
