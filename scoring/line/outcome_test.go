package line

import (
	"reflect"
	"testing"
)

func vectorNamed(t *testing.T, name string) vector {
	t.Helper()
	for _, v := range vectors(t) {
		if v.Name == name {
			return v
		}
	}
	t.Fatalf("no vector %q", name)
	return vector{}
}

func outcomeOf(t *testing.T, name string) Outcome {
	t.Helper()
	v := vectorNamed(t, name)
	state := Resolve(v.Setup, v.Records)
	return state.Flights[0].Outcome()
}

func TestOutcomeOfAClosedFlight(t *testing.T) {
	want := Outcome{
		Flight: "F1", Status: "flown",
		Sheets: []Column{
			{Judge: "J1", Grades: []string{"7.5", "HZ"}, Remarks: []string{"", "wrong figure"}},
			{Judge: "J2", Grades: []string{"8.0", "HZ"}},
			{Judge: "J3", Absent: true, Grades: []string{"", ""}},
		},
		Rulings:   []Decision{{Item: 2, Ruling: HardZeroConfirmed}},
		Penalties: []Penalty{{"low", 1, 25.5}},
	}
	if got := outcomeOf(t, "a whole small contest"); !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}

// What is undecided leaves the flight incomplete instead of half scored.
func TestOutcomeLeavesOutWhatIsUndecided(t *testing.T) {
	if o := outcomeOf(t, "two devices differ"); o.Sheets[0].Grades[0] != "" {
		t.Errorf("a conflict counts as %q", o.Sheets[0].Grades[0])
	}
	if o := outcomeOf(t, "penalties that contradict"); len(o.Penalties) > 0 {
		t.Errorf("penalties %v", o.Penalties)
	}
	if o := outcomeOf(t, "rulings that contradict"); len(o.Rulings) > 0 {
		t.Errorf("rulings %v", o.Rulings)
	}
	if o := outcomeOf(t, "a seat that is not on the panel"); len(o.Sheets) != 1 {
		t.Errorf("sheets %v", o.Sheets)
	}
	if o := outcomeOf(t, "attempts that contradict"); o.Status != "scheduled" || len(o.Sheets) > 0 {
		t.Errorf("got %+v", o)
	}
}

func TestOutcomeOfTheCountingAttempt(t *testing.T) {
	o := outcomeOf(t, "interrupted and flown again")
	if got, want := o.Sheets[0].Grades, []string{"6.0", "6.5"}; o.Status != "scheduled" || !reflect.DeepEqual(got, want) {
		t.Errorf("%s %v, want scheduled %v", o.Status, got, want)
	}
	if o := outcomeOf(t, "disqualified"); o.Status != StatusDisqualified {
		t.Errorf("status %s", o.Status)
	}
	if o := outcomeOf(t, "another person in the seat"); o.Sheets[0].By != "J9" {
		t.Errorf("by %q", o.Sheets[0].By)
	}
}

// A sheet tells the signature that fits it.
func TestSignFitsTheSheet(t *testing.T) {
	v := vectorNamed(t, "agreeing heads are signed together")
	records := v.Records[:3] // without the signature
	state := Resolve(v.Setup, records)
	covers, entries, ready := state.Flights[0].Attempts[0].Sheets[0].Sign()
	if !ready {
		t.Fatal("a full sheet is not ready")
	}
	sign := v.Records[3]
	sign.Covers, sign.Digest = covers, SheetDigest("C", "F1", "J1", "Q1", entries)
	state = Resolve(v.Setup, append(records[:3:3], sign))
	if got := state.Flights[0].Attempts[0].Sheets[0].Signature.State; got != Signed {
		t.Errorf("the sheet is %s", got)
	}
	state = Resolve(v.Setup, v.Records[:1])
	if _, _, ready := state.Flights[0].Attempts[0].Sheets[0].Sign(); ready {
		t.Error("a sheet with an empty cell is ready")
	}
}

func TestSeenClosesWithoutBlocks(t *testing.T) {
	v := vectorNamed(t, "reopened, changed and signed anew")
	closing := Stored{Record{ID: "t1", Kind: KindStatus, Flight: "F1", Status: StatusClosed, Covers: Seen(v.Records, "F1", 0)}, Author{Role: RoleChief}}
	state := Resolve(v.Setup, append(v.Records[:len(v.Records):len(v.Records)], closing))
	if blocks := state.Flights[0].Blocks; len(blocks) > 0 {
		t.Errorf("blocked by %v", blocks)
	}
}
