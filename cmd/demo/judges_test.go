package demo

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// TestTheLineGradesWhatIsLeft: at no pace at all the judges fly the contest to
// its end, and what they recorded is what can be scored: every flight closed,
// complete and without anything that waits for a decision.
func TestTheLineGradesWhatIsLeft(t *testing.T) {
	t.Parallel()
	database, contest := imported(t)
	line := &Line{DB: database, Contest: contest}
	if err := line.Run(t.Context()); err != nil {
		t.Fatal(err)
	}
	part, err := database.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range part.Categories {
		for _, p := range c.Programmes {
			for _, f := range p.Flights {
				if len(f.State.Blocks) > 0 {
					t.Errorf("flight %d waits: %v", f.Number, f.State.Blocks)
				}
			}
		}
	}
	for _, c := range scoring.Score(part.Bundle).Categories {
		for _, p := range c.Programmes {
			if p.State != scoring.Complete {
				t.Errorf("%s %s is %s", c.ID, p.ID, p.State)
			}
		}
	}
}

// TestASeatIsLeftToWhoeverPairs: a judge's own tablet grades in place of the
// simulated one, and a chief judge's calls the flights; a start finds the tablets
// of an earlier one again.
func TestASeatIsLeftToWhoeverPairs(t *testing.T) {
	t.Parallel()
	database, contest := imported(t)
	part, err := database.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	judge := NextJudge(part)
	l := &Line{DB: database, Contest: contest}
	for range 2 {
		if err := l.pair(t.Context(), part.Judges); err != nil {
			t.Fatal(err)
		}
	}
	devices, err := database.Devices(t.Context(), contest)
	if err != nil || len(devices) != len(part.Judges)+1 {
		t.Fatalf("%d devices, %v; want one for each of %d judges and the chief judge", len(devices), err, len(part.Judges))
	}
	for role, seat := range map[string]uuid.UUID{line.RoleJudge: judge, line.RoleChief: uuid.Nil} {
		own := &Line{DB: database, Contest: contest}
		own.claimFor(t, role, seat)
	}
	plan, err := l.plan(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if !l.taken(plan, l.chief) || !l.taken(plan, l.seats[judge]) {
		t.Error("a seat that somebody has paired a tablet for is not left to them")
	}
	starts := remaining(part)
	if l.mayFly(plan, &l.open(plan, starts)[0]) {
		t.Error("a flight is flown that the chief judge has not called on")
	}
}

// claimFor pairs a tablet of somebody's own.
func (l *Line) claimFor(t *testing.T, role string, judge uuid.UUID) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := l.claim(t.Context(), &tablet{key: key}, role, judge); err != nil {
		t.Fatal(err)
	}
}

// TestASheetThatWasOpenedAgainIsSignedAgain, as a judge would who is shown it.
func TestASheetThatWasOpenedAgainIsSignedAgain(t *testing.T) {
	t.Parallel()
	database, contest := imported(t)
	part, err := database.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	l := &Line{DB: database, Contest: contest}
	if err := l.pair(t.Context(), part.Judges); err != nil {
		t.Fatal(err)
	}
	l.looked = time.Now().Add(time.Hour) // it does not look before it is told to
	f := l.begin(t, &remaining(part)[0])
	judge := f.panel[0].author.Seat
	reopen := f.record(line.KindReopen)
	reopen.Judge, reopen.Reason, reopen.Sequence = judge, "a grade was missed", ""
	if _, err := f.store(t.Context(), l.chief, reopen); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{line.Reopened, line.Signed} {
		state, _, err := f.state(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if got := state.Attempts[0].Sheets[0].Signature.State; got != want {
			t.Errorf("the sheet is %s, want %s", got, want)
		}
		l.looked = time.Time{}
		if err := l.signAgain(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
}

// begin flies a flight as far as every sheet is signed.
func (l *Line) begin(t *testing.T, next *start) *flying {
	t.Helper()
	f, err := l.prepare(t.Context(), next)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.look(t.Context()); err != nil {
		t.Fatal(err)
	}
	if err := f.say(t.Context(), line.StatusCalled, line.StatusFlying); err != nil {
		t.Fatal(err)
	}
	for item := range f.graded.Sheets[0].Grades {
		if err := f.gradeItem(t.Context(), item); err != nil {
			t.Fatal(err)
		}
	}
	for seat := range f.panel {
		if err := f.sign(t.Context(), seat); err != nil {
			t.Fatal(err)
		}
	}
	return f
}
