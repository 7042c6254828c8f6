// Package line turns what was done on the judging line into the state of
// flights and sheets.
//
// Everything done on the line is an immutable [Record], made on one device and
// copied from there. [Resolve] is a pure function of the set-up and the set of
// records: the order in which they come, repetition and clocks decide nothing.
// Whoever holds the same records sees the same sheets, the tablet without a
// network included; testdata/line holds every implementation to this.
//
// What a record does to others is said in the record by ids:
//
//   - replaces: the records of the same cell that it takes the place of. A
//     cell is one seat's item of an attempt; rulings have three for each item
//     (hard zero, perception zero, grade), penalties one for each kind,
//     absences one for each seat, the status one for the flight. Ids that are
//     not here yet work when they come; ids of another cell do nothing.
//   - adopts: records that an official takes over with a reason, from the same
//     cell or, for grades and signatures, from another one: that is how a whole
//     sheet moves to the right flight, attempt or seat, one record for each
//     cell and one for the signature, both sheets being kept.
//   - covers: the grades a signature stands for; all that a closing has seen of
//     the flight's attempt; the records that are set aside.
//   - after: the reopenings that a signature knows.
//
// A value is taken back by a value: a grade "", a ruling "…-withdrawn", a
// penalty with count 0.
package line

import "reflect"

// Kind says what a record does.
type Kind string

// The kinds of records.
const (
	KindGrade   Kind = "grade"   // a grade, its remark, or its taking back, in one cell
	KindSign    Kind = "sign"    // the sheet is signed
	KindReopen  Kind = "reopen"  // a signed sheet is opened again
	KindAbsent  Kind = "absent"  // a seat is absent for the flight, or back
	KindRuling  Kind = "ruling"  // the chief judge's ruling on an item
	KindPenalty Kind = "penalty" // a penalty of the flight
	KindStatus  Kind = "status"  // what the flight is doing, and which attempt counts
	KindAside   Kind = "aside"   // records are set aside: they count nothing and block nothing
)

// The statuses of a flight, in a record of kind status.
const (
	StatusCalled       = "called"
	StatusFlying       = "flying"
	StatusLanded       = "landed"
	StatusInterrupted  = "interrupted"
	StatusClosed       = "closed"
	StatusNotFlown     = "not-flown"
	StatusWithdrawn    = "withdrawn"
	StatusDisqualified = "disqualified"
)

// The rulings on an item. A withdrawn one is as if it had never been made.
const (
	HardZeroConfirmed       = "hard-zero-confirmed"
	HardZeroOverruled       = "hard-zero-overruled"
	HardZeroWithdrawn       = "hard-zero-withdrawn"
	PerceptionZeroConfirmed = "perception-zero-confirmed"
	PerceptionZeroOverruled = "perception-zero-overruled"
	PerceptionZeroWithdrawn = "perception-zero-withdrawn"
	GradeSet                = "grade-set"
	GradeWithdrawn          = "grade-withdrawn"
)

// The roles that an author can have here; every other role's records are held.
const (
	RoleJudge    = "judge"
	RoleChief    = "chief"
	RoleOffice   = "office"
	RoleDirector = "director"
)

// Record is one thing done on the line, as the device wrote it. Ids are UUIDs
// in lower case. [Check] says which fields each kind needs; the others stay
// empty.
type Record struct {
	// Seq counts the records of one device's store from 1. It orders nothing;
	// it tells what is missing.
	Seq  int64  `json:"seq"`
	ID   string `json:"id"`
	Kind Kind   `json:"kind"`

	Flight string `json:"flight"`
	// Attempt counts from 1; 0 or left out is 1. The attempt of the status
	// record in force is the one that counts.
	Attempt int `json:"attempt,omitempty"`
	// Judge is the seat: the judge whose chair on the panel it is.
	Judge string `json:"judge,omitempty"`
	// By is the person in the seat where that is not the seat's own judge.
	By string `json:"by,omitempty"`
	// Item counts from 1; overall marks are items too.
	Item int `json:"item,omitempty"`

	// Grade is "0.0" to "10.0" in halves, "HZ", "PZ" or "A"; "" takes the
	// grade back. A ruling that sets a grade carries it here as a number.
	Grade string `json:"grade,omitempty"`
	// Remark is at most 500 characters, in Unicode's form NFC, which the
	// writing device sees to.
	Remark string `json:"remark,omitempty"`
	// Sequence is the digest of the sequence as shown when this was done.
	// Grades must have it. A record that names another one than the flight's
	// counts nothing.
	Sequence string `json:"sequence,omitempty"`

	Replaces []string `json:"replaces,omitempty"`
	Adopts   []string `json:"adopts,omitempty"`
	Covers   []string `json:"covers,omitempty"`
	After    []string `json:"after,omitempty"`
	// Digest is a signature's: see [SheetDigest].
	Digest string `json:"digest,omitempty"`

	Ruling  string   `json:"ruling,omitempty"`
	Penalty *Penalty `json:"penalty,omitempty"`
	// Absent is true for a seat that is absent and false for one that is back.
	Absent *bool  `json:"absent,omitempty"`
	Status string `json:"status,omitempty"`
	// Wind is the side the wind blows to, "left" or "right" seen from the
	// line. A status without it keeps the side of the one it replaces.
	Wind   string `json:"wind,omitempty"`
	Reason string `json:"reason,omitempty"`

	// EnteredAt is RFC 3339, by the device's clock. It is shown and decides
	// nothing.
	EnteredAt string `json:"entered_at,omitempty"`
	// Signature is the device's own over the record; who stores the record
	// has checked it.
	Signature string `json:"signature,omitempty"`
}

// Penalty is a kind of penalty with how often it occurred and the points for
// each occurrence.
type Penalty struct {
	Kind   string  `json:"kind"`
	Count  int     `json:"count"`
	Points float64 `json:"points"`
}

// Author says who made a record. It stands beside the record and comes from
// whoever stored it, never from the record's own words.
type Author struct {
	Role string `json:"role"`
	// Seat is the judge whose seat the device was paired for.
	Seat string `json:"seat,omitempty"`
	// Device is the pairing, or the account, that the record came from.
	Device string `json:"device,omitempty"`
	// Withdrawn: the device had been withdrawn when the record was stored.
	// What it delivered before stays good.
	Withdrawn bool `json:"withdrawn,omitempty"`
}

// Stored is a record with its author.
type Stored struct {
	Record
	Author Author `json:"author"`
}

// Same tells whether two records say the same in every field, which is what
// makes the second one of an id a repetition. A device that signs the same again
// gets another signature: that is no difference.
func (r Record) Same(other Record) bool {
	return reflect.DeepEqual(r.plain(), other.plain())
}

// plain is the record with empty lists as nil, its attempt as a number, and no
// signature.
func (r Record) plain() Record {
	r.Signature = ""
	for _, ids := range []*[]string{&r.Replaces, &r.Adopts, &r.Covers, &r.After} {
		if len(*ids) == 0 {
			*ids = nil
		}
	}
	r.Attempt = max(r.Attempt, 1)
	return r
}

// official tells whether the author may act for others on the line.
func (a Author) official() bool {
	return a.Role == RoleChief || a.Role == RoleOffice || a.Role == RoleDirector
}
