package season

import (
	"fmt"
	"math"
	"slices"

	"halfpoint/scoring/document"
)

// What rules may hold at most.
const (
	maxContests     = 100
	maxTable        = 500
	maxAffiliations = 100
)

// Check complains, as [document.Complaints], of rules that mean nothing.
func (r *Rules) Check() error {
	var report document.Report
	if !slices.Contains([]string{ByRank, ByPercentOfWinner, ByPercentOfMaximum}, r.Points) {
		report.Add("points", "is %q, not rank, percent-of-winner or percent-of-maximum", r.Points)
	}
	r.checkTable(&report)
	checkCount(&report, "best", r.Best)
	checkCount(&report, "drop", r.Drop)
	checkCount(&report, "least", r.Least)
	for i, one := range r.TieBreak {
		if !slices.Contains([]string{BestResult, Wins, Contests, Latest}, one) {
			report.Add(fmt.Sprintf("tie_break[%d]", i), "is %q, not best, wins, most or latest", one)
		}
	}
	if len(r.Affiliations) > maxAffiliations {
		report.Add("affiliations", "are %d, at most %d", len(r.Affiliations), maxAffiliations)
	}
	return report.Err()
}

func checkCount(report *document.Report, place string, count int) {
	if count < 0 || count > maxContests {
		report.Add(place, "is %d, not 0 to %d", count, maxContests)
	}
}

func (r *Rules) checkTable(report *document.Report) {
	if r.Points != ByRank {
		return
	}
	if len(r.Table) == 0 || len(r.Table) > maxTable {
		report.Add("table", "has %d places, not 1 to %d", len(r.Table), maxTable)
	}
	for i, points := range r.Table {
		switch {
		case math.IsNaN(points) || points < 0 || points > 1e6:
			report.Add(fmt.Sprintf("table[%d]", i), "is not from 0 to 1000000")
		case i > 0 && points > r.Table[i-1]:
			report.Add(fmt.Sprintf("table[%d]", i), "is more than the place before gets")
		}
	}
	if r.Ties != ShareMean && r.Ties != ShareFull {
		report.Add("ties", "is %q, not mean or full", r.Ties)
	}
}
