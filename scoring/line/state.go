package line

// Setup is what the records are read against.
type Setup struct {
	Contest string        `json:"contest"`
	Flights []FlightSetup `json:"flights"`
}

// FlightSetup is one flight as it is set up now. Of all this only a changed
// sequence makes records count nothing; a seat that left the panel keeps its
// sheet.
type FlightSetup struct {
	Flight   string   `json:"flight"`
	Sequence string   `json:"sequence"` // its digest
	Items    int      `json:"items"`
	Panel    []string `json:"panel"` // judges, by seat
}

// State is what a set of records says.
type State struct {
	// Flights in the order of the set-up.
	Flights []Flight `json:"flights"`
	// Unplaced are the ids, in order, of records for flights that the set-up
	// does not know; they wait for a decision and keep the contest from
	// becoming official.
	Unplaced []string `json:"unplaced,omitempty"`
	// Standings has every record by its id.
	Standings map[string]Standing `json:"standings"`
}

// Standing is where a record stands.
type Standing struct {
	Standing string `json:"standing"`
	Cause    string `json:"cause,omitempty"`
}

// The standings. The last four count nothing and keep a flight from becoming
// official until an official adopts the record or sets it aside.
const (
	Head          = "head"     // counts
	Replaced      = "replaced" // another record took its place, or reopened the sheet it signed
	Conflict      = "conflict" // differs from another head
	Waits         = "waits"    // a signature that does not count yet; the cause says why
	Aside         = "aside"    // set aside
	Late          = "late"     // a grade outside the signature that counts
	Closed        = "closed"   // the closing of the flight had not seen it
	OtherSequence = "other-sequence"
	Held          = "held" // the cause says why
)

// The causes of held records and of signatures that wait.
const (
	CauseFlight    = "flight"    // held: the set-up has no such flight
	CauseWithdrawn = "withdrawn" // held: the device had been withdrawn
	CauseRole      = "role"      // held: the author's role does not do this
	CauseSeat      = "seat"      // held: the device is another seat's
	CauseItem      = "item"      // held: the sequence has no such item

	CauseMissing  = "missing"  // waits: a grade that it covers is not here
	CauseCovers   = "covers"   // waits: something that it covers does not count, or is not of this sheet
	CauseConflict = "conflict" // waits: it covers grades that differ for one item
	CauseEmpty    = "empty"    // waits: an item has no grade
	CauseDigest   = "digest"   // waits: the digest is of other values
)

// Flight is the state of one flight.
type Flight struct {
	Flight string `json:"flight"`
	// Status is "" where nothing was said yet or the heads contradict.
	Status         string   `json:"status"`
	StatusConflict bool     `json:"status_conflict,omitempty"`
	StatusHeads    []string `json:"status_heads,omitempty"`
	// Wind is "left", "right", or "" for unknown.
	Wind string `json:"wind,omitempty"`
	// Counting is the attempt that counts, 0 where the heads contradict.
	Counting int       `json:"counting"`
	Attempts []Attempt `json:"attempts"`
	// Blocks is what keeps the flight from becoming official: the status, then
	// rulings by item, penalties by kind, sheets by seat, records by id.
	Blocks []Block `json:"blocks,omitempty"`
}

// Attempt is what was recorded of one attempt; all are kept.
type Attempt struct {
	Attempt int `json:"attempt"`
	// Sheets has the panel's seats in their order, then other judges by id.
	Sheets    []Sheet   `json:"sheets"`
	Rulings   []Ruling  `json:"rulings,omitempty"`   // by item and name
	Penalties []Verdict `json:"penalties,omitempty"` // by kind
}

// Sheet is one seat's sheet of an attempt.
type Sheet struct {
	Judge string `json:"judge"`
	// OffPanel: the seat is not on the panel; its sheet counts nothing.
	OffPanel bool `json:"off_panel,omitempty"`
	// By is the person in the seat where it was not the seat's own judge.
	By             string    `json:"by,omitempty"`
	Absent         bool      `json:"absent,omitempty"`
	AbsentConflict bool      `json:"absent_conflict,omitempty"`
	AbsentHeads    []string  `json:"absent_heads,omitempty"`
	Cells          []Cell    `json:"cells"` // one for each item
	Signature      Signature `json:"signature"`
	// Reopens are the ids that a new signature names in after.
	Reopens []string `json:"reopens,omitempty"`
}

// Cell is one item on a sheet.
type Cell struct {
	Item int `json:"item"`
	// Grade is "" for not entered, which a conflict is too.
	Grade string `json:"grade,omitempty"`
	// Remark joins the different remarks of heads that agree with " / ".
	Remark   string   `json:"remark,omitempty"`
	Conflict bool     `json:"conflict,omitempty"`
	Heads    []string `json:"heads,omitempty"`
	History  []string `json:"history,omitempty"` // every record of the cell, by id
}

// Signature is the state of a sheet's signature.
type Signature struct {
	State string `json:"state"`
	// Signs are the ids of the signatures that make the state.
	Signs []string `json:"signs,omitempty"`
	// WaitsFor are ids of grades that are not here.
	WaitsFor []string `json:"waits_for,omitempty"`
}

// The states of a signature.
const (
	Unsigned = "unsigned"
	Signed   = "signed"
	SignWait = "waits"    // none counts yet
	Differ   = "differ"   // two count, with different values
	Reopened = "reopened" // none knows every reopening
)

// Ruling is the ruling in force on an item; a withdrawn one is not listed. In
// conflict its Ruling is the question: hard-zero, perception-zero or grade.
type Ruling struct {
	Item     int      `json:"item"`
	Ruling   string   `json:"ruling"`
	Grade    string   `json:"grade,omitempty"`
	Conflict bool     `json:"conflict,omitempty"`
	Heads    []string `json:"heads"`
}

// Verdict is a penalty in force; one with count 0 is not listed. In conflict it
// has count and points 0.
type Verdict struct {
	Penalty
	Conflict bool     `json:"conflict,omitempty"`
	Heads    []string `json:"heads"`
}

// Block is one thing that keeps a flight from becoming official, by cause:
//
//   - status: it is not final; State is the status, or "conflict".
//   - sheet: Judge's is not signed; State is its signature's.
//   - conflict: Judge's grades of Item contradict.
//   - absent: it is contradicted whether Judge is absent.
//   - ruling: rulings on Item contradict; State is the question.
//   - penalty: penalties contradict; State is their kind.
//   - record: Record waits for a decision; State is its standing.
type Block struct {
	Cause  string `json:"cause"`
	Judge  string `json:"judge,omitempty"`
	Item   int    `json:"item,omitempty"`
	Record string `json:"record,omitempty"`
	State  string `json:"state,omitempty"`
}
