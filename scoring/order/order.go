// Package order makes the order in which the pilots of a programme fly, and says
// when each of them can be expected to.
//
// An order says nothing about whether anybody can fly safely.
package order

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"halfpoint/scoring/document"
)

// How an order comes to be.
const (
	ByLot      = "lot"      // of the whole field
	ByStanding = "standing" // best first
)

// A Plan is how an order is drawn. It is all that is needed to draw it again.
type Plan struct {
	By string `json:"by"`
	// Of is the id of the programme whose standing it was, empty for that of the
	// category, and Best how many of it fly, 0 for all. Whoever gives the pilots
	// has seen to both.
	Of   string `json:"of,omitempty"`
	Best int    `json:"best,omitempty"`
	// Reversed: the best fly last.
	Reversed bool `json:"reversed,omitempty"`
	// Block is how many pilots a block has: the standing, reversed or not, is
	// cut into blocks from its front, the last of which may be smaller, and the
	// order within each block is drawn by lot. 0 leaves the standing as it is.
	Block int `json:"block,omitempty"`
	// Seed is what every lot is drawn from; empty where none is.
	Seed string `json:"seed,omitempty"`
}

// The bounds of a plan.
const (
	MaxBlock = 500
	MaxSeed  = 100 // characters
)

// seedBound is what a seed may be: it is shown, and typed again.
var seedBound = document.Bound{Most: MaxSeed}

// Check complains, as document.Complaints, of a plan that cannot be drawn.
func (p *Plan) Check() error {
	var report document.Report
	switch {
	case p.By != ByLot && p.By != ByStanding:
		report.Add("by", "%q is neither %q nor %q", p.By, ByLot, ByStanding)
	case p.By == ByLot && p.Reversed:
		report.Add("reversed", "a lot has no best first that could be reversed")
	case p.By == ByLot && p.Block != 0:
		report.Add("block", "the lot of the whole field has no blocks")
	}
	if p.Block < 0 || p.Block > MaxBlock {
		report.Add("block", "%d is not from 0 to %d", p.Block, MaxBlock)
	}
	if p.HasLot() && strings.TrimSpace(p.Seed) == "" {
		report.Add("seed", "a lot needs one")
	}
	seedBound.Check(&report, "seed", p.Seed)
	return report.Err()
}

// HasLot tells whether anything is drawn by lot, so that a seed is needed.
func (p *Plan) HasLot() bool { return p.By == ByLot || p.Block > 0 }

// Draw puts pilots, known by their ids in the contest, in order. By standing
// they are given best first; for the lot of the whole field it does not matter
// how they are given. The plan must be one that Check takes.
func (p *Plan) Draw(pilots []string) []string {
	drawn := slices.Clone(pilots)
	if p.Reversed {
		slices.Reverse(drawn)
	}
	if !p.HasLot() || len(drawn) == 0 {
		return drawn
	}
	size := p.Block
	if p.By == ByLot {
		size = len(drawn)
	}
	for block := range slices.Chunk(drawn, size) {
		p.lot(block)
	}
	return drawn
}

// lot sorts pilots by their tickets.
func (p *Plan) lot(pilots []string) {
	slices.SortFunc(pilots, func(a, b string) int {
		return strings.Compare(Ticket(p.Seed, a), Ticket(p.Seed, b))
	})
}

// Ticket is what a pilot draws: the SHA-256 of the seed, a line feed and the
// pilot's id, in hexadecimal; the lowest flies first. So everyone with a seed
// can repeat a lot, whatever order the pilots are in.
func Ticket(seed, pilot string) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\n%s", seed, pilot))
	return hex.EncodeToString(sum[:])
}
