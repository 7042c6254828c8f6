package scoring

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// ResultsFormat is the first field of every results document.
const ResultsFormat = "halfpoint-results/1"

// Results is the results document of a bundle. Everything stands in the order
// of the bundle; ranks are in the fields.
type Results struct {
	Format     string           `json:"format"` // ResultsFormat
	Categories []CategoryResult `json:"categories"`
}

// A CategoryResult is the result of one category.
type CategoryResult struct {
	ID         string            `json:"id"`
	Programmes []ProgrammeResult `json:"programmes"`
	Overall    []OverallResult   `json:"overall"` // an entry each, in the order of the entries
	Teams      []TeamResult      `json:"teams"`   // in the order of their first ranked entry
}

// The states of a programme.
const (
	Complete   = "complete"   // every flight that was to be graded has its score
	Incomplete = "incomplete" // some flight waits for grades or for a decision
)

// A ProgrammeResult is the result of one programme.
type ProgrammeResult struct {
	ID       string         `json:"id"`
	Method   string         `json:"method"`
	Fallback string         `json:"fallback"` // the method used instead, empty where Method was used
	State    string         `json:"state"`    // Complete or Incomplete
	Flights  []FlightResult `json:"flights"`  // in the order of the programme; never nil
}

// UsedMethod is the method that made the panel scores.
func (p *ProgrammeResult) UsedMethod() string {
	if p.Fallback != "" {
		return p.Fallback
	}
	return p.Method
}

// A FlightResult is the result of one flight. The embedded parts are nil where
// they do not apply:
//
//   - Judged: there for a flight that was flown, graded and resolved;
//   - Placing: nil for a flight that waits for grades or for a decision;
//   - Certainty: there for a flight with both and a rank.
type FlightResult struct {
	Pilot      string `json:"pilot"`
	Status     string `json:"status"`
	Complete   bool   `json:"complete"`   // flown, and every grade is there
	Unresolved []int  `json:"unresolved"` // items that need a decision, from 1; never nil
	*Judged
	*Placing
	*Certainty
	Seats []SeatResult `json:"seats,omitempty"` // in the order of the panel
	Cells []CellResult `json:"cells"`           // by item, then seat; never nil
}

// Judged is what the panel made of a flight, in points.
type Judged struct {
	PanelScore    float64 `json:"panel_score"` // before penalties, not rounded
	StandardError float64 `json:"standard_error"`
	Penalties     float64 `json:"penalties"` // points taken off, all together
}

// Placing is a published score and its place.
type Placing struct {
	Score   float64 `json:"score"`   // two decimals
	Percent float64 `json:"percent"` // of the best possible score, two decimals
	Rank    *int    `json:"rank"`    // nil where the pilot holds none
}

// Certainty is how sure a rank is, given the standard errors of the scores.
type Certainty struct {
	RankLow  int     `json:"rank_low"`  // the best of the central 90 %
	RankHigh int     `json:"rank_high"` // the worst of the central 90 %
	First    float64 `json:"p_first"`   // probability of first place
	Podium   float64 `json:"p_podium"`  // probability of a place in the first three
}

// A SeatResult is what one seat made of a flight.
type SeatResult struct {
	Judge     string  `json:"judge"`
	RawTotal  float64 `json:"raw_total"`  // as graded, everything but numbers counting 0
	UsedTotal float64 `json:"used_total"` // as used by the method
	Weight    float64 `json:"weight"`     // the seat's share of the panel, adding up to 1
	Discarded bool    `json:"discarded"`  // by the normalised method
}

// A CellResult is one grade whose used value differs from it or that carries a
// reason.
type CellResult struct {
	Item   int     `json:"item"` // from 1
	Judge  string  `json:"judge"`
	Grade  Grade   `json:"grade"`
	Used   float64 `json:"used"`
	Reason Reason  `json:"reason"`
	*Trust         // the consensus's alone, and not of rows left out as zeros
}

// Trust is what the consensus thinks of a grade.
type Trust struct {
	Weight float64 `json:"weight"` // 0 to 1
	Fitted float64 `json:"fitted"` // the consensus of the row, not clamped
}

// A Reason says why a used value is not the grade.
type Reason string

// The reasons.
const (
	NoReason                      Reason = ""
	ReasonHardZeroConfirmed       Reason = "hard zero confirmed"
	ReasonHardZeroOverruled       Reason = "hard zero overruled"
	ReasonHardZeroNotUpheld       Reason = "hard zero not upheld"
	ReasonZeroByMajority          Reason = "zero by majority"
	ReasonPerceptionZeroConfirmed Reason = "perception zero confirmed"
	ReasonPerceptionZeroOverruled Reason = "perception zero overruled"
	ReasonPerceptionZeroNotUpheld Reason = "perception zero not upheld"
	ReasonNotSeen                 Reason = "not seen"
	ReasonSeatAbsent              Reason = "seat absent"
	ReasonGradeSet                Reason = "grade set"
	ReasonTrimmed                 Reason = "trimmed"
	ReasonOutlier                 Reason = "outlier"
)

// An OverallResult is a pilot's place in a category.
type OverallResult struct {
	Pilot string  `json:"pilot"`
	Total float64 `json:"total"` // two decimals
	Rank  *int    `json:"rank"`  // nil for a pilot who is not ranked
	*Certainty
	ByProgramme ByProgramme `json:"by_programme"`
}

// A TeamResult is a team's place in a category.
type TeamResult struct {
	Team   string   `json:"team"`
	Total  float64  `json:"total"` // two decimals
	Rank   int      `json:"rank"`
	Pilots []string `json:"pilots"` // the members counted, best first
}

// ByProgramme is a pilot's published scores, in the order of the programmes.
// In JSON it is an object with the programmes' ids as names.
type ByProgramme []ProgrammeScore

// A ProgrammeScore is a pilot's published score in a programme.
type ProgrammeScore struct {
	Programme string
	Score     float64
}

// MarshalJSON writes an object.
func (p ByProgramme) MarshalJSON() ([]byte, error) { return p.append(nil), nil }

// UnmarshalJSON reads an object and keeps its order.
func (p *ByProgramme) UnmarshalJSON(text []byte) error {
	decoder := json.NewDecoder(bytes.NewReader(text))
	if _, err := decoder.Token(); err != nil {
		return err
	}
	*p = ByProgramme{}
	for decoder.More() {
		name, err := decoder.Token()
		if err != nil {
			return err
		}
		var score float64
		if err := decoder.Decode(&score); err != nil {
			return fmt.Errorf("score of programme %v: %w", name, err)
		}
		*p = append(*p, ProgrammeScore{fmt.Sprint(name), score})
	}
	return nil
}
