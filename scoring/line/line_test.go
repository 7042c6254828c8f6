package line

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// field plays a contest on several devices that see one another's records only
// now and then, as tablets on a line do.
type field struct {
	random  *rand.Rand
	setup   Setup
	all     []Stored
	devices []*device
}

type device struct {
	author Author
	known  []Stored
}

func newField(seed uint64) *field {
	f := &field{random: rand.New(rand.NewPCG(seed, 7)), setup: Setup{Contest: "C"}}
	for _, id := range []string{"F1", "F2"} {
		f.setup.Flights = append(f.setup.Flights, FlightSetup{Flight: id, Sequence: "Q", Items: 2, Panel: []string{"J1", "J2"}})
	}
	for i, a := range []Author{
		{Role: RoleJudge, Seat: "J1"},
		{Role: RoleJudge, Seat: "J1"},
		{Role: RoleJudge, Seat: "J2"},
		{Role: RoleChief},
		{Role: RoleOffice},
		{Role: "announcer"},
	} {
		a.Device = fmt.Sprint("D", i)
		f.devices = append(f.devices, &device{author: a})
	}
	return f
}

func (f *field) play(steps int) {
	for range steps {
		d := f.devices[f.random.IntN(len(f.devices))]
		if f.random.IntN(4) == 0 {
			d.known = f.some(f.all)
		}
		f.act(d)
	}
}

// some is a random part of a set of records.
func (f *field) some(records []Stored) []Stored {
	var part []Stored
	for _, r := range records {
		if f.random.IntN(4) > 0 {
			part = append(part, r)
		}
	}
	return part
}

func (f *field) act(d *device) {
	state := Resolve(f.setup, d.known)
	flight := state.Flights[f.random.IntN(len(state.Flights))]
	r := Record{ID: fmt.Sprintf("r%03d", len(f.all)), Seq: 1, Flight: flight.Flight, Attempt: 1 + f.random.IntN(12)/11, Reason: "because"}
	f.fill(&r, d, flight)
	made := Stored{r, d.author}
	made.Author.Withdrawn = f.random.IntN(20) == 0
	f.all = append(f.all, made)
	d.known = append(d.known, made)
}

func (f *field) fill(r *Record, d *device, flight Flight) {
	r.Judge = f.setup.Flights[0].Panel[f.random.IntN(2)]
	sheet := sheetOf(flight, r.Attempt, r.Judge)
	r.Item = 1 + f.random.IntN(2)
	switch n := f.random.IntN(20); {
	case n < 8:
		r.Kind, r.Sequence, r.Grade = KindGrade, "Q", []string{"7.0", "7.0", "7.5", "HZ", "7.0", ""}[f.random.IntN(6)]
		if sheet != nil {
			r.Replaces = f.someIDs(sheet.Cells[r.Item-1].History)
		}
		r.Adopts = f.adopted(r, d)
	case n < 13 && sheet != nil:
		covers, entries, _ := sheet.Sign()
		r.Kind, r.Covers, r.After = KindSign, covers, sheet.Reopens
		r.Digest = SheetDigest("C", r.Flight, r.Judge, "Q", entries)
	case n == 13:
		r.Kind = KindReopen
	case n == 14:
		absent := f.random.IntN(2) == 0
		r.Kind, r.Absent = KindAbsent, &absent
	case n == 15:
		r.Kind, r.Ruling = KindRuling, []string{HardZeroConfirmed, HardZeroOverruled, HardZeroWithdrawn}[f.random.IntN(3)]
	case n == 16:
		r.Kind, r.Penalty = KindPenalty, &Penalty{"low", f.random.IntN(3), 50}
	case n == 17:
		r.Kind, r.Covers = KindAside, f.someIDs(f.ids(d.known))
	default:
		r.Kind, r.Status = KindStatus, course[f.random.IntN(len(course))]
		r.Replaces, r.Covers = flight.StatusHeads, Seen(d.known, r.Flight, r.Attempt)
	}
}

func (f *field) someIDs(ids []string) []string {
	var some []string
	for _, id := range ids {
		if f.random.IntN(3) > 0 {
			some = append(some, id)
		}
	}
	return some
}

func (f *field) ids(records []Stored) []string {
	var ids []string
	for _, r := range records {
		if f.random.IntN(10) == 0 {
			ids = append(ids, r.ID)
		}
	}
	return ids
}

// adopted sometimes finds a grade elsewhere that says the same.
func (f *field) adopted(r *Record, d *device) []string {
	for _, other := range d.known {
		if other.Kind == KindGrade && other.Grade == r.Grade && f.random.IntN(12) == 0 {
			return []string{other.ID}
		}
	}
	return nil
}

func sheetOf(flight Flight, attempt int, judge string) *Sheet {
	for _, a := range flight.Attempts {
		for i, s := range a.Sheets {
			if a.Attempt == attempt && s.Judge == judge {
				return &a.Sheets[i]
			}
		}
	}
	return nil
}

func merge(a, b []Stored) []Stored {
	merged := slices.Clone(a)
	for _, r := range b {
		if !slices.ContainsFunc(merged, func(m Stored) bool { return m.ID == r.ID }) {
			merged = append(merged, r)
		}
	}
	return merged
}

func TestAnyDeliveryGivesTheSameState(t *testing.T) {
	for seed := range uint64(50) {
		f := newField(seed)
		f.play(90)
		want := toJSON(t, Resolve(f.setup, f.all))
		a, b, c := f.some(f.all), f.some(f.all), f.all
		deliveries := map[string][]Stored{
			"merged from the left":  merge(merge(a, b), c),
			"merged from the right": merge(a, merge(b, c)),
			"doubled":               slices.Concat(f.all, f.all),
		}
		for name, records := range deliveries {
			records = slices.Clone(records)
			shuffle(f.random, records)
			if got := toJSON(t, Resolve(f.setup, records)); got != want {
				t.Fatalf("seed %d, %s:\n%s\nwant:\n%s", seed, name, got, want)
			}
		}
	}
}

// What must hold of any state, whoever wrote whatever.
func TestStatesHoldTogether(t *testing.T) {
	signed := 0
	for seed := range uint64(50) {
		f := newField(seed)
		f.play(90)
		state := Resolve(f.setup, f.all)
		if len(state.Standings) != len(f.all) {
			t.Fatalf("seed %d: %d standings of %d records", seed, len(state.Standings), len(f.all))
		}
		for id, s := range state.Standings {
			if s.Standing == "" {
				t.Fatalf("seed %d: %s stands nowhere", seed, id)
			}
		}
		for _, flight := range state.Flights {
			for _, a := range flight.Attempts {
				for i := range a.Sheets {
					checkSheet(t, &state, &a.Sheets[i])
					if a.Sheets[i].Signature.State == Signed {
						signed++
					}
				}
			}
			checkBlocks(t, &state, &flight, f.all)
		}
	}
	if signed < 10 {
		t.Errorf("only %d signed sheets were played; the properties were hardly tested", signed)
	}
}

func checkSheet(t *testing.T, state *State, s *Sheet) {
	t.Helper()
	for _, c := range s.Cells {
		if c.Grade != "" && c.Conflict {
			t.Errorf("item %d has a grade in conflict", c.Item)
		}
		if s.Signature.State == Signed && c.Grade == "" && !c.Conflict && len(c.Heads) < 1 {
			t.Errorf("signed, and item %d is empty", c.Item)
		}
		for _, id := range c.Heads {
			if st := state.Standings[id].Standing; (st == Conflict) != c.Conflict || st != Head && st != Conflict {
				t.Errorf("%s is a head of item %d and stands %s", id, c.Item, st)
			}
		}
		for _, id := range c.History {
			st := state.Standings[id].Standing
			if (st == Head || st == Conflict) != slices.Contains(c.Heads, id) {
				t.Errorf("%s stands %s and heads are %v", id, st, c.Heads)
			}
			if st == Late && s.Signature.State != Signed {
				t.Errorf("%s is late on a sheet that is %s", id, s.Signature.State)
			}
		}
	}
}

// A flight without blocks is closed, its seats have signed or are absent, and
// nothing of the attempt that counts is undecided.
func checkBlocks(t *testing.T, state *State, flight *Flight, records []Stored) {
	t.Helper()
	if len(flight.Blocks) > 0 {
		return
	}
	if flight.Status != StatusClosed {
		t.Errorf("nothing blocks a flight that is %q", flight.Status)
	}
	for _, r := range records {
		if s := state.Standings[r.ID]; r.Flight == flight.Flight && r.attempt() == flight.Counting && waits(s) {
			t.Errorf("nothing blocks with %s standing %s", r.ID, s.Standing)
		}
	}
	for _, s := range flight.CountingAttempt().Sheets {
		if !s.Absent && s.Signature.State != Signed {
			t.Errorf("nothing blocks with a sheet %s", s.Signature.State)
		}
	}
}

// A record that counts nothing changes no grade: setting it aside leaves every
// cell as it was.
func TestWhatCountsNothingChangesNothing(t *testing.T) {
	for seed := range uint64(30) {
		f := newField(seed)
		f.play(80)
		before := Resolve(f.setup, f.all)
		var idle []string
		for id, s := range before.Standings {
			if waits(s) {
				idle = append(idle, id)
			}
		}
		aside := Stored{Record{ID: "zz", Kind: KindAside, Flight: "F1", Covers: idle, Reason: "r"}, Author{Role: RoleChief}}
		after := Resolve(f.setup, append(slices.Clone(f.all), aside))
		if got, want := grades(after), grades(before); got != want {
			t.Fatalf("seed %d: grades\n%s\nwere\n%s", seed, got, want)
		}
		for _, id := range idle {
			if s := after.Standings[id].Standing; s != Aside && s != Replaced {
				t.Errorf("seed %d: %s was set aside and stands %s", seed, id, s)
			}
		}
	}
}

func grades(s State) string {
	text := ""
	for _, f := range s.Flights {
		for _, a := range f.Attempts {
			for _, sheet := range a.Sheets {
				for _, c := range sheet.Cells {
					text += fmt.Sprintln(f.Flight, a.Attempt, sheet.Judge, sheet.Signature.State, c.Item, c.Grade, c.Conflict)
				}
			}
		}
	}
	return text
}

func TestResolveChangesNothingOfItsInput(t *testing.T) {
	f := newField(3)
	f.play(60)
	setup, records := toJSON(t, f.setup), toJSON(t, f.all)
	Resolve(f.setup, f.all)
	if toJSON(t, f.setup) != setup || toJSON(t, f.all) != records {
		t.Error("the set-up or the records changed")
	}
}

func TestTwoRecordsOfOneIDDoNotDependOnOrder(t *testing.T) {
	setup := Setup{Contest: "C", Flights: []FlightSetup{{Flight: "F1", Sequence: "Q", Items: 1, Panel: []string{"J1"}}}}
	author := Author{Role: RoleJudge, Seat: "J1"}
	a := Stored{Record{ID: "g", Kind: KindGrade, Flight: "F1", Judge: "J1", Item: 1, Grade: "7.0", Sequence: "Q"}, author}
	b := a
	b.Grade = "8.0"
	if got, want := toJSON(t, Resolve(setup, []Stored{a, b})), toJSON(t, Resolve(setup, []Stored{b, a})); got != want {
		t.Errorf("got %s, other way round %s", got, want)
	}
}

func FuzzResolve(f *testing.F) {
	for _, v := range vectors(f) {
		data, err := json.Marshal(v)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var v vector
		if json.Unmarshal(data, &v) != nil {
			return
		}
		for _, r := range v.Records {
			Check(r)
		}
		want := toJSON(t, Resolve(v.Setup, v.Records))
		slices.Reverse(v.Records)
		state := Resolve(v.Setup, v.Records)
		if got := toJSON(t, state); got != want {
			t.Errorf("backwards:\n%s\nwant:\n%s", got, want)
		}
		for i := range state.Flights {
			state.Flights[i].Outcome()
		}
	})
}
