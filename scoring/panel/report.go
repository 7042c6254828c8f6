package panel

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
)

// Format is the first field of every report.
const Format = "halfpoint-panel/1"

// A Number is NaN where it is undefined, as a correlation with a judge who gave
// everyone the same total. In JSON that is null.
type Number float64

// Defined tells a number from one that could not be computed.
func (n Number) Defined() bool { return !math.IsNaN(float64(n)) && !math.IsInf(float64(n), 0) }

// MarshalJSON writes a number, or null.
func (n Number) MarshalJSON() ([]byte, error) {
	if !n.Defined() {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n))
}

// UnmarshalJSON reads a number, or null.
func (n *Number) UnmarshalJSON(text []byte) error {
	if string(text) == "null" {
		*n = Number(math.NaN())
		return nil
	}
	return json.Unmarshal(text, (*float64)(n))
}

// A Report tells how good the panels of a contest are. Everything stands in
// the order of the bundle.
type Report struct {
	Format     string           `json:"format"` // Format
	Categories []CategoryReport `json:"categories"`
}

// A CategoryReport is about one category.
type CategoryReport struct {
	ID         string            `json:"id"`
	Programmes []ProgrammeReport `json:"programmes"`
}

// A ProgrammeReport is about the panel of one programme.
type ProgrammeReport struct {
	ID                string          `json:"id"`
	Method            string          `json:"method"`  // that made the panel scores
	Flights           int             `json:"flights"` // complete and resolved, from which all this comes
	Judges            []JudgeReport   `json:"judges"`  // by seat
	Agreement         Agreement       `json:"agreement"`
	Winners           []string        `json:"winners"` // pilots of rank 1; several where they tie
	Without           []WithoutReport `json:"without"` // by seat; empty for a panel of one
	LargestRankChange int             `json:"largest_rank_change"`
}

// A JudgeReport is about one seat of a panel. Correlations are between the
// seat's totals and the mean of the other seats' totals, over the flights that
// the seat graded.
type JudgeReport struct {
	Judge    string `json:"judge"`
	Seat     int    `json:"seat"`    // from 1
	Flights  int    `json:"flights"` // that the seat graded
	Grades   Grades `json:"grades"`
	Pearson  Number `json:"pearson"`
	Spearman Number `json:"spearman"`
	Kendall  Number `json:"kendall"` // tau-b
	// OrderDisagreement is in percent: 0 for the panel's own order, 100 for
	// its reverse, each pair of pilots counting by the points between them; a
	// pair that the seat ties counts half.
	OrderDisagreement Number      `json:"order_disagreement"`
	HardZeros         CodeCount   `json:"hard_zeros"`
	PerceptionZeros   CodeCount   `json:"perception_zeros"`
	NotSeen           CodeCount   `json:"not_seen"`
	Distrusted        Number      `json:"distrusted"` // share of the cells, 0 to 1, whose trust is below 0.5
	Weight            Number      `json:"weight"`     // the seat's share under the consensus, adding up to 1
	Accuracy          Number      `json:"accuracy"`   // 1 is as exact as the panel, 2 twice as far off
	Levels            []Level     `json:"levels"`     // by level; of those at which the seat graded
	Affiliation       Affiliation `json:"affiliation"`
}

// Grades are the numeric grades of a seat, in points.
type Grades struct {
	Count      int    `json:"count"`
	Mean       Number `json:"mean"`
	Deviation  Number `json:"deviation"`  // sample standard deviation
	Difference Number `json:"difference"` // mean of: grade less the mean of the other seats' for the same
	// Given counts them by the half point: 0.0, 0.5 and so on to 10.0.
	Given []int `json:"given"`
}

// A Level is how a seat graded what the panel valued at about so many points.
type Level struct {
	Level    int     `json:"level"`    // the panel's value to the point, 0 to 10
	Grades   int     `json:"grades"`   // that the seat gave there, and that count
	Mean     float64 `json:"mean"`     // mean of: grade less the panel's value, points
	Distance float64 `json:"distance"` // root mean square of the same
	Spread   float64 `json:"spread"`   // the panel's own at that level, points
}

// A CodeCount is how often a seat gave a code, and how often that was upheld: a
// zero counted as 0, a "not seen" got the panel's value.
type CodeCount struct {
	Given  int `json:"given"`
	Upheld int `json:"upheld"`
}

// An Affiliation compares how a seat graded pilots of the judge's own
// affiliation with how it graded the others.
type Affiliation struct {
	Pilots     int    `json:"pilots"`     // of the judge's own affiliation
	Difference Number `json:"difference"` // points a grade: mean residual of the own less that of the others
	P          Number `json:"p"`          // how often chance alone makes as great a difference, either way
}

// An Agreement is that of a panel with itself, over the flights that every
// seat graded which graded at all.
type Agreement struct {
	Flights       int    `json:"flights"`
	Seats         int    `json:"seats"`
	ICCSingle     Number `json:"icc_2_1"` // of one judge
	ICCPanel      Number `json:"icc_2_k"` // of the mean of the panel
	KendallW      Number `json:"kendall_w"`
	CronbachAlpha Number `json:"cronbach_alpha"`
}

// A WithoutReport is what becomes of the result with one seat left out.
type WithoutReport struct {
	Judge             string   `json:"judge"`
	Method            string   `json:"method"` // that made the panel scores without the seat
	Winners           []string `json:"winners"`
	LargestRankChange int      `json:"largest_rank_change"`
	Pilots            []string `json:"pilots"` // whose rank changes so much
}

// Encode writes the report as compact JSON.
func (r *Report) Encode() ([]byte, error) {
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(r); err != nil {
		return nil, fmt.Errorf("writing a panel report: %w", err)
	}
	return text.Bytes(), nil
}
