package db_test

import (
	"fmt"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// largeBundle is a full contest: 60 pilots before 10 judges in 4 programmes of
// 15 items, 36,000 grades.
func largeBundle() *scoring.Bundle {
	b := &scoring.Bundle{Format: scoring.BundleFormat, Contest: scoring.Contest{Name: "Large"}}
	var panel []string
	for j := range 10 {
		panel = append(panel, fmt.Sprint("j", j))
		b.Judges = append(b.Judges, scoring.Judge{ID: panel[j]})
	}
	c := scoring.Category{ID: "all", Combine: scoring.Combine{By: scoring.BySum}}
	for p := range 60 {
		b.Pilots = append(b.Pilots, scoring.Pilot{ID: fmt.Sprint("p", p)})
		c.Entries = append(c.Entries, scoring.Entry{Pilot: fmt.Sprint("p", p), Ranked: true})
	}
	for _, id := range []string{"first", "second", "third", "fourth"} {
		c.Programmes = append(c.Programmes, largeProgramme(id, panel, c.Entries))
	}
	b.Categories = []scoring.Category{c}
	return b
}

func largeProgramme(id string, panel []string, entries []scoring.Entry) scoring.Programme {
	p := scoring.Programme{
		ID: id, Kind: scoring.Known, Counts: true, Method: scoring.DefaultMethod(""),
		Panel: panel, Sequence: &scoring.Sequence{},
	}
	for i := range 15 {
		p.Sequence.Items = append(p.Sequence.Items, scoring.Item{Kind: scoring.Figure, K: scoring.K(100 + 10*i), Elements: []string{"1.1.1.1"}})
	}
	for n, entry := range entries {
		f := scoring.Flight{Pilot: entry.Pilot, Status: scoring.Flown}
		for j, judge := range panel {
			s := scoring.Sheet{Judge: judge}
			for i := range p.Sequence.Items {
				s.Grades = append(s.Grades, scoring.Grade(10+(7*n+3*j+5*i)%9))
			}
			f.Sheets = append(f.Sheets, s)
		}
		p.Flights = append(p.Flights, f)
	}
	return p
}

func BenchmarkImport(b *testing.B) {
	d, bundle := dbtest.New(b), largeBundle()
	for b.Loop() {
		if _, err := d.Import(b.Context(), bundle, db.ImportOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}

// importLarge returns the first programme of a full contest.
func importLarge(b *testing.B, d *db.DB) (contest uuid.UUID, programme db.Programme) {
	b.Helper()
	contest, err := d.Import(b.Context(), largeBundle(), db.ImportOptions{})
	if err != nil {
		b.Fatal(err)
	}
	c, err := d.Contest(b.Context(), contest)
	if err != nil {
		b.Fatal(err)
	}
	return contest, c.Categories[0].Programmes[0]
}

func BenchmarkProgrammeBundle(b *testing.B) {
	d := dbtest.New(b)
	_, programme := importLarge(b, d)
	for b.Loop() {
		if _, err := d.ProgrammeBundle(b.Context(), programme.ID); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkContest(b *testing.B) {
	d := dbtest.New(b)
	contest, _ := importLarge(b, d)
	for b.Loop() {
		if _, err := d.Contest(b.Context(), contest); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkStoreRecords stores what a tablet sends after each grade.
func BenchmarkStoreRecords(b *testing.B) {
	d := dbtest.New(b)
	contest, programme := importLarge(b, d)
	flights, err := d.Flights(b.Context(), programme.ID)
	if err != nil {
		b.Fatal(err)
	}
	judge := uuid.NewString()
	delivery := db.Delivery{Store: uuid.New(), Author: line.Author{Role: line.RoleJudge, Seat: judge, Device: "tablet"}}
	for seq := int64(1); b.Loop(); seq++ {
		delivery.Records = []db.Received{{Record: line.Record{
			Seq: seq, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindGrade, Flight: flights.Flights[0].ID.String(),
			Judge: judge, Item: 1, Grade: "7.5", Sequence: digest,
		}}}
		receipt, err := d.StoreRecords(b.Context(), contest, delivery)
		if err != nil || receipt.Have != seq {
			b.Fatalf("%+v, %v", receipt, err)
		}
	}
}

// digest has the form of a sequence's.
const digest = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"
