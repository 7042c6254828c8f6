package db_test

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
	"halfpoint/scoring/document"
)

// freeStyle is an imported contest with the free style of its first pilot.
func freeStyle(t *testing.T) (d *db.DB, contest, pilot, flight uuid.UUID) {
	t.Helper()
	d = dbtest.New(t)
	contest, err := d.Import(t.Context(), readBundle(t, everything), db.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	part, err := d.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	return d, contest, part.Pilots["p1"], part.Categories[1].Programmes[1].Flights[0].ID
}

// TestWhatIsToldIsReplacedAsItWasSeen: a text takes the place of the one that was
// seen and of no other, the same again does nothing, and the journal keeps all.
func TestWhatIsToldIsReplacedAsItWasSeen(t *testing.T) {
	t.Parallel()
	d, contest, pilot, flight := freeStyle(t)
	was := told(t, d, contest, "p1")
	if was.Note == "" || len(was.Flights) != 2 || was.Flights[0].Description != "" || was.Flights[1].ID != flight || was.Flights[1].Description == "" {
		t.Fatalf("%+v", was)
	}
	does(t,
		d.SetNote(t.Context(), contest, pilot, db.Telling{Text: "Builds her own.", Replaces: was.Note, By: "pilot"}),
		d.SetNote(t.Context(), contest, pilot, db.Telling{Text: "Builds her own.", Replaces: was.Note, By: "pilot"}),
		d.Describe(t.Context(), flight, db.Telling{Text: "One loop.\nThen smoke.", Replaces: was.Flights[1].Description, By: "pilot"}),
		d.Describe(t.Context(), flight, db.Telling{Replaces: "One loop.\nThen smoke.", By: "office"}),
	)
	if is := told(t, d, contest, pilot.String()); is.Note != "Builds her own." || is.Flights[1].Description != "" {
		t.Errorf("%+v", is)
	}
	var done []string
	for _, a := range acts(t, d, contest) {
		done = append(done, a.What+" by "+a.By+" for "+a.Details.Replaces)
	}
	want := []string{"noted by pilot for " + was.Note, "described by pilot for " + was.Flights[1].Description, "described by office for One loop.\nThen smoke."}
	if !slices.Equal(done, want) {
		t.Errorf("the journal says %q, want %q", done, want)
	}
	for what, err := range map[string]error{
		"a line":        d.SetNote(t.Context(), contest, pilot, db.Telling{Text: "Mine.", Replaces: was.Note}),
		"a description": d.Describe(t.Context(), flight, db.Telling{Text: "Mine.", Replaces: was.Flights[1].Description}),
	} {
		if _, ok := errors.AsType[*db.ToldOtherwiseError](err); !ok || !errors.Is(err, db.ErrConflict) {
			t.Errorf("%s that is another one by now: %v", what, err)
		}
	}
}

func told(t *testing.T, d *db.DB, contest uuid.UUID, pilot string) *db.Told {
	t.Helper()
	found, err := d.Told(t.Context(), contest, pilot)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestWhatCannotBeTold(t *testing.T) {
	t.Parallel()
	d, contest, pilot, flight := freeStyle(t)
	for what, err := range map[string]error{
		"a long line":        d.SetNote(t.Context(), contest, pilot, db.Telling{Text: strings.Repeat("ü", 501)}),
		"a line of two":      d.SetNote(t.Context(), contest, pilot, db.Telling{Text: "One.\nTwo."}),
		"a long description": d.Describe(t.Context(), flight, db.Telling{Text: strings.Repeat("ü", 1001)}),
		"no character":       d.Describe(t.Context(), flight, db.Telling{Text: "a\x00b"}),
	} {
		if list, ok := errors.AsType[document.Complaints](err); !ok || len(list) != 1 || list[0].Place != "text" {
			t.Errorf("%s: %v", what, err)
		}
	}
	part, err := d.ContestBundle(t.Context(), contest)
	if err != nil {
		t.Fatal(err)
	}
	known := part.Categories[0].Programmes[0].Flights[0].ID
	if err := d.Describe(t.Context(), known, db.Telling{Text: "Loops."}); !errors.Is(err, db.ErrConflict) {
		t.Errorf("a flight of a known programme: %v", err)
	}
	for what, err := range map[string]error{
		"nobody":    d.SetNote(t.Context(), contest, uuid.New(), db.Telling{Text: "Nobody."}),
		"no flight": d.Describe(t.Context(), uuid.New(), db.Telling{Text: "Nothing."}),
	} {
		if !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// TestADescribedFlightIsNotLeftOut: what its pilot wrote would be lost.
func TestADescribedFlightIsNotLeftOut(t *testing.T) {
	t.Parallel()
	f := newField(t)
	setup, err := f.d.Setup(t.Context(), f.contest)
	if err != nil {
		t.Fatal(err)
	}
	free := setup.Programmes[0]
	free.Kind = scoring.Free
	change(t, f.d, f.contest, &db.SetupChange{Programmes: []db.Edit[db.ProgrammeRow]{{Row: free}}})
	ann := f.set("ann cal", nil).Turns[0].ID
	does(t, f.d.Describe(t.Context(), ann, db.Telling{Text: "One loop, then smoke."}))
	if err := f.try("cal", nil); err == nil {
		t.Error("it was left out")
	}
	does(t, f.d.Describe(t.Context(), ann, db.Telling{Replaces: "One loop, then smoke."}))
	if err := f.try("cal", nil); err != nil {
		t.Errorf("without a description: %v", err)
	}
}

// TestNothingThatIsToldIsPublished: a publication says the same whatever an
// announcer is to tell.
func TestNothingThatIsToldIsPublished(t *testing.T) {
	t.Parallel()
	quiet := newStage(t, "105", nil)
	s := newStage(t, "105", func(b *scoring.Bundle) {
		for i := range b.Pilots {
			b.Pilots[i].Note = "Flew gliders first."
		}
		for i := range b.Categories[0].Programmes {
			if p := &b.Categories[0].Programmes[i]; p.OwnSequences() {
				p.Flights[0].Description = "One loop, then smoke."
			}
		}
	})
	for i := range s.part.Categories[0].Programmes {
		with := s.publish(s.programme(i), db.Publishing{State: provisional})
		if without := quiet.publish(quiet.programme(i), db.Publishing{State: provisional}); !bytes.Equal(with.Bundle, without.Bundle) {
			t.Errorf("programme %d: %s", i, difference(with.Bundle, without.Bundle))
		}
	}
	with, without := s.publish(s.category(), db.Publishing{State: provisional}), quiet.publish(quiet.category(), db.Publishing{State: provisional})
	if !bytes.Equal(with.Bundle, without.Bundle) || !bytes.Equal(with.Results, without.Results) {
		t.Errorf("the category: %s", difference(with.Bundle, without.Bundle))
	}
}
