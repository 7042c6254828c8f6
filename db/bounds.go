package db

import (
	"halfpoint/scoring/document"
	"halfpoint/scoring/line"
)

// What the texts of a contest may be, wherever they come from.
var (
	NameBound   = document.Bound{Least: 1, Most: 200}               // of what must have a name, or a code
	LineBound   = document.Bound{Most: 200}                         // a name that may be left out, a club, an aircraft, a team
	KindBound   = document.Bound{Least: 1, Most: line.MaxName}      // a kind of penalty, which a record of the line names
	AboutBound  = document.Bound{Most: 500}                         // a line about a pilot, for the announcer
	FreeBound   = document.Bound{Most: 1000, Lines: true}           // a free style in its pilot's own words
	NoteBound   = document.Bound{Most: 500, Lines: true}            // the office's own words
	ReasonBound = document.Bound{Most: 2000, Lines: true}           // why something is published as it is
	TextBound   = document.Bound{Least: 1, Most: 2000, Lines: true} // protests, and decisions with the reason for them
)
