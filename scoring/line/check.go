package line

import (
	"fmt"
	"math"
	"strings"
	"time"
	"unicode/utf8"
)

// What a record may hold at most: common practice, no source.
const (
	MaxItem  = 40  // items of a sequence
	MaxText  = 500 // characters of a remark or a reason
	MaxCount = 99  // occurrences of a penalty
	MaxName  = 60  // characters of a penalty's kind

	maxAttempt = 20   // attempts of a flight
	maxIDs     = 2000 // ids in one list
)

// Fault is one thing wrong with a record: the JSON name of the field, and what
// would be right.
type Fault struct {
	Field string
	Text  string
}

// Check returns everything that makes a record malformed; such a record is
// refused and never stored. Who may do what is not asked here: a well-formed
// record of a known device is stored, and [Resolve] holds it where its author
// had no business.
func Check(s Stored) []Fault {
	c := &checker{}
	c.common(s.Record)
	check, known := kinds[s.Kind]
	if !known {
		c.add("kind", "is grade, sign, reopen, absent, ruling, penalty, status or aside")
		return c.faults
	}
	check(c, s)
	return c.faults
}

var kinds = map[Kind]func(*checker, Stored){
	KindGrade:   (*checker).grade,
	KindSign:    (*checker).sign,
	KindReopen:  func(c *checker, s Stored) { c.uuid("judge", s.Judge); c.reason(s) },
	KindAbsent:  (*checker).absent,
	KindRuling:  (*checker).ruling,
	KindPenalty: (*checker).penalty,
	KindStatus:  (*checker).status,
	KindAside:   (*checker).aside,
}

type checker struct{ faults []Fault }

func (c *checker) add(field, text string) { c.faults = append(c.faults, Fault{field, text}) }

func (c *checker) need(ok bool, field, text string) {
	if !ok {
		c.add(field, text)
	}
}

func (c *checker) common(r Record) {
	c.need(r.Seq >= 1, "seq", "counts from 1")
	c.uuid("id", r.ID)
	c.uuid("flight", r.Flight)
	c.need(r.By == "" || isUUID(r.By), "by", "is a UUID in lower case")
	c.need(r.Attempt >= 0 && r.Attempt <= maxAttempt, "attempt", fmt.Sprintf("is 1 to %d", maxAttempt))
	c.text("remark", r.Remark)
	c.text("reason", r.Reason)
	c.need(r.Sequence == "" || isDigest(r.Sequence), "sequence", "is a SHA-256 in lower-case hexadecimal")
	c.ids("replaces", r.Replaces)
	c.ids("adopts", r.Adopts)
	c.ids("covers", r.Covers)
	c.ids("after", r.After)
	if r.EnteredAt != "" {
		_, err := time.Parse(time.RFC3339Nano, r.EnteredAt)
		c.need(err == nil, "entered_at", "is a time as in 2026-06-12T10:14:03.120+02:00")
	}
}

func (c *checker) grade(s Stored) {
	c.uuid("judge", s.Judge)
	c.item(s.Item)
	c.need(s.Grade == "" || IsGrade(s.Grade), "grade", `is "0.0" to "10.0" in halves, "HZ", "PZ", "A", or "" to take it back`)
	c.need(s.Sequence != "", "sequence", "is needed with a grade")
	decides := s.Author.Role == RoleChief || len(s.Adopts) > 0
	if decides || s.Author.official() && len(s.Replaces) > 0 {
		c.reason(s)
	}
}

func (c *checker) sign(s Stored) {
	c.uuid("judge", s.Judge)
	c.need(len(s.Covers) > 0, "covers", "names the grades that are signed")
	c.need(isDigest(s.Digest), "digest", "is a SHA-256 in lower-case hexadecimal")
	if s.Author.official() {
		c.reason(s)
	}
}

func (c *checker) absent(s Stored) {
	c.uuid("judge", s.Judge)
	c.need(s.Absent != nil, "absent", "is true for an absent seat and false for one that is back")
}

func (c *checker) ruling(s Stored) {
	c.item(s.Item)
	c.need(rulingFamily(s.Ruling) != "", "ruling", "is not a ruling")
	if s.Ruling == GradeSet {
		c.need(isNumber(s.Grade), "grade", `is "0.0" to "10.0" in halves`)
	} else {
		c.need(s.Grade == "", "grade", "is only for a grade that is set")
	}
}

func (c *checker) penalty(s Stored) {
	if s.Penalty == nil {
		c.add("penalty", "is needed")
		return
	}
	p := *s.Penalty
	n := utf8.RuneCountInString(p.Kind)
	c.need(n > 0 && n <= MaxName && utf8.ValidString(p.Kind), "penalty/kind", fmt.Sprintf("has 1 to %d characters", MaxName))
	c.need(p.Count >= 0 && p.Count <= MaxCount, "penalty/count", fmt.Sprintf("is 0 to %d", MaxCount))
	c.need(p.Points >= 0 && !math.IsInf(p.Points, 0), "penalty/points", "is a number not below 0")
}

func (c *checker) status(s Stored) {
	c.need(isStatus(s.Status), "status", "is called, flying, landed, interrupted, closed, not-flown, withdrawn or disqualified")
	c.need(s.Wind == "" || s.Wind == "left" || s.Wind == "right", "wind", "is left or right")
}

func (c *checker) aside(s Stored) {
	c.need(len(s.Covers) > 0, "covers", "names the records that are set aside")
	c.reason(s)
}

func (c *checker) reason(s Stored) {
	c.need(strings.TrimSpace(s.Reason) != "", "reason", "is needed here")
}

func (c *checker) item(n int) {
	c.need(n >= 1 && n <= MaxItem, "item", fmt.Sprintf("is 1 to %d", MaxItem))
}

func (c *checker) uuid(field, id string) { c.need(isUUID(id), field, "is a UUID in lower case") }

func (c *checker) text(field, text string) {
	ok := utf8.ValidString(text) && utf8.RuneCountInString(text) <= MaxText
	c.need(ok, field, fmt.Sprintf("has at most %d characters", MaxText))
}

func (c *checker) ids(field string, ids []string) {
	c.need(len(ids) <= maxIDs, field, fmt.Sprintf("has at most %d ids", maxIDs))
	for i, id := range ids {
		c.uuid(fmt.Sprintf("%s/%d", field, i), id)
	}
}
