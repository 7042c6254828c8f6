package scoring

import (
	"halfpoint/scoring/document"
)

// A programmeReader knows what the flights of a programme are held against.
type programmeReader struct {
	bundle   *bundleReader
	entered  register // pilots of the category
	panel    register
	flown    register  // pilots with a flight
	own      bool      // each flight has its own sequence
	sequence *Sequence // the programme's
	lacking  bool      // the programme's sequence is needed and not there
}

func (r *programmeReader) programme(v document.Value, programmes register) (p Programme) {
	o, ok := v.Object("id", "name", "kind", "cut", "counts", "method", "panel", "sequence", "flights")
	if !ok {
		return p
	}
	r.panel, r.flown = newRegister("seat of judge"), newRegister("flight of pilot")
	p = Programme{
		ID: required(o, "id", programmes.declare), Name: optional(o, "name", "", readText),
		Kind: required(o, "kind", oneOf(Known, Free, Unknown, Freestyle)),
		Cut:  optional(o, "cut", 0, integer(0, 1_000_000)), Counts: optional(o, "counts", true, readBool),
		Method:   optional(o, "method", DefaultMethod(""), readMethod),
		Panel:    optionalList(o, "panel", r.panel.pickedFrom(r.bundle.judges)),
		Sequence: nullable(o, "sequence", readSequence),
	}
	r.own, r.sequence = p.OwnSequences(), p.Sequence
	p.Flights = optionalList(o, "flights", r.flight)
	if r.own && p.Sequence != nil && len(p.Sequence.Items) > 0 {
		sequence, _ := o.Optional("sequence")
		sequence.Complain("each flight of a %s programme has its own sequence", p.Kind)
	}
	if r.lacking {
		requireSequence(o, "all flights of a known or unknown programme fly the programme's sequence")
	}
	return p
}

func (r *programmeReader) flight(v document.Value) (f Flight) {
	o, ok := v.Object("pilot", "status", "sequence", "description", "sheets", "rulings", "penalties")
	if !ok {
		return f
	}
	f = Flight{
		Pilot:    required(o, "pilot", r.flown.pickedFrom(r.bundle.pilots, r.entered)),
		Status:   required(o, "status", oneOf(Scheduled, Flown, NotFlown, Withdrawn, Disqualified)),
		Sequence: nullable(o, "sequence", readSequence), Description: optional(o, "description", "", r.description),
	}
	s := sheetReader{flight: r, items: r.itemsOf(o, &f), seats: newRegister("sheet of judge"), rulings: map[ruled]bool{}}
	f.Sheets = optionalList(o, "sheets", s.sheet)
	f.Rulings = optionalList(o, "rulings", s.ruling)
	f.Penalties = optionalList(o, "penalties", readPenalty)
	return f
}

// description reads what a pilot says of a sequence of the own.
func (r *programmeReader) description(v document.Value) string {
	text := readText(v)
	if text != "" && !r.own {
		v.Complain("only flights of a free or freestyle programme are described by their pilots")
	}
	return text
}

// unknownItems stands for the number of items of a sequence that is not there.
const unknownItems = -1

// itemsOf counts the items the flight is graded on and complains about a
// sequence in the wrong place. A flight that nobody grades needs none.
func (r *programmeReader) itemsOf(o document.Object, f *Flight) int {
	sequence := r.sequence
	if r.own {
		sequence = f.Sequence
	} else if f.Sequence != nil {
		v, _ := o.Optional("sequence")
		v.Complain("only flights of a free or freestyle programme have a sequence of their own")
	}
	if sequence != nil {
		return len(sequence.Items)
	}
	if f.Status == Flown || hasSheets(o) {
		r.complainOfSequence(o)
	}
	return unknownItems
}

func hasSheets(o document.Object) bool {
	v, there := o.Optional("sheets")
	return there && v.Len() > 0
}

// complainOfSequence says at a free flight that its sequence is missing. Where
// all fly the same it is said once, at the programme.
func (r *programmeReader) complainOfSequence(flight document.Object) {
	r.lacking = !r.own
	if r.own {
		requireSequence(flight, "each flight of a free or freestyle programme has a sequence of its own")
	}
}

func requireSequence(o document.Object, why string) {
	if v, there := o.Required("sequence"); there && v.IsNull() {
		v.Complain("null; %s", why)
	}
}

func readPenalty(v document.Value) (p Penalty) {
	o, ok := v.Object("kind", "count", "points")
	if !ok {
		return p
	}
	return Penalty{
		Kind: required(o, "kind", readText), Count: required(o, "count", integer(0, 1000)),
		Points: required(o, "points", readPoints),
	}
}

// maxPoints bounds the points of a penalty, well above any score.
const maxPoints = 1e9

func readPoints(v document.Value) float64 {
	f := from(0)(v)
	if f > maxPoints {
		v.Complain("%v is above %v", f, maxPoints)
	}
	return f
}
