// Package scoring turns the sheets of a contest into results: a bundle goes
// in, a results document comes out. It knows no clock, no network and no
// database, and what is random in it is seeded, so the same bundle always gives
// the same results.
//
// [ReadBundle] reads a bundle with every complaint at once, [Score] scores all
// of it; [ScoreCategory] and [ScoreProgramme] score a part.
package scoring

import (
	"encoding/json"

	"halfpoint/scoring/figure"
)

// BundleFormat is the first field of every bundle.
const BundleFormat = "halfpoint-bundle/1"

// MaxBundleBytes is the size above which a bundle is refused unread.
const MaxBundleBytes = 64 << 20

// A Bundle is one contest, or the part of it that is to be scored, in one
// document.
type Bundle struct {
	Format     string     `json:"format"` // BundleFormat
	Contest    Contest    `json:"contest"`
	Judges     []Judge    `json:"judges"`
	Pilots     []Pilot    `json:"pilots"`
	Categories []Category `json:"categories"`
}

// Contest says what is flown where and when.
type Contest struct {
	Name   string `json:"name"`
	Place  string `json:"place"`
	Starts string `json:"starts"` // YYYY-MM-DD, or empty
	Ends   string `json:"ends"`   // YYYY-MM-DD, or empty
}

// A Judge may sit on panels. IDs are unique among the judges of a bundle.
type Judge struct {
	ID          string `json:"id"`
	Name        string `json:"name"`
	Affiliation string `json:"affiliation"` // club or country, may be empty
}

// A Pilot may be entered in categories. IDs are unique among the pilots.
type Pilot struct {
	ID          string `json:"id"`
	Name        string `json:"name"`
	Affiliation string `json:"affiliation"`
	Aircraft    string `json:"aircraft"`
	Note        string `json:"note,omitempty"` // a line for the announcer, which changes no number
}

// A Category is a level of competition inside a contest.
type Category struct {
	ID         string      `json:"id"`
	Name       string      `json:"name"`
	Combine    Combine     `json:"combine"`
	Entries    []Entry     `json:"entries,omitzero"`
	Programmes []Programme `json:"programmes,omitzero"` // in the order flown
}

// How programmes add up to a total.
const (
	BySum             = "sum"              // of published scores
	BySumPercent      = "sum-percent"      // of published percentages
	ByWeightedPercent = "weighted-percent" // of percentages times weights
)

// Combine says how the programmes of a category add up.
type Combine struct {
	By       string             `json:"by"`                 // BySum when left out
	Weights  map[string]float64 `json:"weights,omitempty"`  // by programme id, adding up to 1; a programme left out weighs 0
	TieBreak []string           `json:"tie_break,omitzero"` // programme ids whose published scores break ties, in order
	TeamBest int                `json:"team_best"`          // members counted for a team, 3 when left out, 0 for no teams
}

// DefaultTeamBest is how many members count for a team where nothing is said.
const DefaultTeamBest = 3

// An Entry puts a pilot into a category.
type Entry struct {
	Pilot  string `json:"pilot"`
	Ranked bool   `json:"ranked"`         // true when left out; false is hors concours: scored, without a rank
	Team   string `json:"team,omitempty"` // empty for none
}

// The kinds of programmes.
const (
	Known     = "known"
	Free      = "free"
	Unknown   = "unknown"
	Freestyle = "freestyle"
)

// A Programme is one round of a category.
type Programme struct {
	ID       string    `json:"id"`
	Name     string    `json:"name"`
	Kind     string    `json:"kind"`
	Cut      int       `json:"cut"`    // how many go on after it, 0 for all
	Counts   bool      `json:"counts"` // true when left out; false adds nothing to totals, ties and cuts
	Method   Method    `json:"method"`
	Panel    []string  `json:"panel,omitzero"` // judge ids, seat 1 first
	Sequence *Sequence `json:"sequence,omitempty"`
	Flights  []Flight  `json:"flights,omitzero"` // in the order of the results
}

// OwnSequences tells whether each pilot flies a sequence of their own.
func (p *Programme) OwnSequences() bool { return p.Kind == Free || p.Kind == Freestyle }

// SequenceOf is what the flight flies; nil where that is not known yet.
func (p *Programme) SequenceOf(f *Flight) *Sequence {
	if p.OwnSequences() {
		return f.Sequence
	}
	return p.Sequence
}

// Items lists what the flight is graded on, in order; empty where the sequence
// is not known yet.
func (p *Programme) Items(f *Flight) []Item {
	s := p.SequenceOf(f)
	if s == nil {
		return nil
	}
	return s.Items
}

// The methods that make one score out of a panel's grades.
const (
	Mean        = "mean"
	TrimmedMean = "trimmed-mean"
	Normalised  = "normalised"
	Consensus   = "consensus"
)

// The values of the options of a Method.
const (
	MoreThanHalf = "more-than-half" // HardZeroMajority
	HalfOrMore   = "half-or-more"   // HardZeroMajority
	ByMajority   = "majority"       // PerceptionZero
	AsGraded     = "as-graded"      // PerceptionZero
	Measured     = "measured"       // SeatWeights
	Equal        = "equal"          // SeatWeights
)

// A Method is how a programme is scored. Only Name must be given in a bundle;
// DefaultMethod tells what the others are when left out.
type Method struct {
	Name             string  `json:"name"`
	Trim             int     `json:"trim"`               // trimmed-mean: grades left out at each end
	Discard          float64 `json:"discard"`            // normalised: standard deviations from the flight's mean
	Style            bool    `json:"style"`              // consensus: seats' spreads are matched first
	SeatWeights      string  `json:"seat_weights"`       // consensus: Measured or Equal
	Outlier          float64 `json:"outlier"`            // consensus: standard deviations beyond which a grade has no trust
	Lean             float64 `json:"lean"`               // consensus: standard deviations beyond which a seat leans for or against a pilot
	GroupMin         int     `json:"group_min"`          // consensus: rows a group of a free programme has at least
	HardZeroMajority string  `json:"hard_zero_majority"` // MoreThanHalf or HalfOrMore
	PerceptionZero   string  `json:"perception_zero"`    // ByMajority or AsGraded
}

// Needs are the seats and flights with which a programme is scored by the method
// itself; with fewer it is scored as if by the mean.
func (m *Method) Needs() (seats, flights int) {
	switch m.Name {
	case TrimmedMean:
		return leastUntrimmed + 2*m.Trim, 1
	case Normalised, Consensus:
		return leastSeats, leastFlights
	}
	return 1, 1
}

// DefaultMethod is a method with every option as it is when left out. An empty
// name is the consensus.
func DefaultMethod(name string) Method {
	if name == "" {
		name = Consensus
	}
	return Method{
		Name: name, Trim: 1, Discard: 1.645, Style: true, SeatWeights: Measured,
		Outlier: 6, Lean: 2, GroupMin: 11,
		HardZeroMajority: MoreThanHalf, PerceptionZero: ByMajority,
	}
}

// A Sequence is the list of items that must be flown.
type Sequence struct {
	Items []Item          `json:"items"`
	Entry json.RawMessage `json:"entry,omitempty"` // how the first figure begins, as written
}

// The kinds of items.
const (
	Figure  = "figure"
	Overall = "overall" // positioning, presentation, a freestyle criterion
)

// K is a difficulty coefficient in tenths, above 0.
type K = figure.K

// An Item is a line of the score sheet.
type Item struct {
	Kind     string   `json:"kind"`
	K        K        `json:"k"`
	Elements []string `json:"elements,omitzero"` // catalogue numbers, as typed
	Class    string   `json:"class,omitempty"`   // given where it is not the one that follows from the elements
	Name     string   `json:"name,omitempty"`

	// What only the figure's drawing and call need: no number of a result
	// depends on them, and they are carried as written.
	ElementK json.RawMessage `json:"element_k,omitempty"`
	Words    json.RawMessage `json:"words,omitempty"`
	Entry    json.RawMessage `json:"entry,omitempty"`
	Moves    json.RawMessage `json:"moves,omitempty"`
}

// The states of a flight.
const (
	Scheduled    = "scheduled"
	Flown        = "flown"
	NotFlown     = "not-flown"
	Withdrawn    = "withdrawn"
	Disqualified = "disqualified"
)

// A Flight is one pilot's performance of one programme.
type Flight struct {
	Pilot    string    `json:"pilot"`
	Status   string    `json:"status"`
	Sequence *Sequence `json:"sequence,omitempty"` // in a free or freestyle only
	// Description is what is flown in the pilot's own words, for the announcer, in
	// a free or freestyle only; it changes no number.
	Description string `json:"description,omitempty"`

	Sheets    []Sheet   `json:"sheets,omitzero"`
	Rulings   []Ruling  `json:"rulings,omitzero"`
	Penalties []Penalty `json:"penalties,omitzero"`
}

// ScoresZero tells whether the flight scores 0 without having been graded:
// withdrawn, not flown or disqualified.
func (f *Flight) ScoresZero() bool {
	return f.Status == NotFlown || f.Status == Withdrawn || f.Status == Disqualified
}

// A Sheet is one seat's grades for one flight.
type Sheet struct {
	Judge   string   `json:"judge"`
	By      string   `json:"by,omitempty"` // the judge who sat in the seat, where it was another
	Absent  bool     `json:"absent,omitempty"`
	Grades  []Grade  `json:"grades,omitzero"`  // one for each item, or none from an absent seat
	Remarks []string `json:"remarks,omitzero"` // one for each item, or none
}

// The rulings of a chief judge.
const (
	HardZeroConfirmed       = "hard-zero-confirmed"
	HardZeroOverruled       = "hard-zero-overruled"
	PerceptionZeroConfirmed = "perception-zero-confirmed"
	PerceptionZeroOverruled = "perception-zero-overruled"
	GradeSet                = "grade-set"
)

// A Ruling is what the chief judge decided about an item of a flight.
type Ruling struct {
	Item   int    `json:"item"` // counts from 1
	Ruling string `json:"ruling"`
	Grade  *Grade `json:"grade,omitempty"` // of GradeSet only, always numeric
}

// A Penalty takes Count times Points off the panel score.
type Penalty struct {
	Kind   string  `json:"kind"`
	Count  int     `json:"count"`
	Points float64 `json:"points"` // for each occurrence
}
