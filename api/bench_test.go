package api_test

import (
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/scoring"
	"halfpoint/scoring/line"
)

// BenchmarkResultsAfterAChange reads the results of a programme of 60 flights,
// 15 items and 10 seats over HTTP, each time after another record was stored.
// 100 ms or less is asked for.
func BenchmarkResultsAfterAChange(b *testing.B) {
	s := start(b)
	contest := s.imports(largeBundle(60, 15, 10), db.Live)
	part, err := s.db.ContestBundle(b.Context(), contest)
	if err != nil {
		b.Fatal(err)
	}
	programme := part.Categories[0].Programmes[0]
	path := "/api/v1/programmes/" + programme.ID.String() + "/results"
	get[api.ProgrammeResults](s, path)
	store, seq := uuid.New(), int64(0)
	for b.Loop() {
		b.StopTimer()
		seq++
		penalty := line.Record{
			Seq: seq, ID: uuid.Must(uuid.NewV7()).String(), Kind: line.KindPenalty, Flight: programme.Flights[0].ID.String(),
			Penalty: &line.Penalty{Kind: fmt.Sprint("kind ", seq), Count: 1, Points: 1},
		}
		_, err := s.db.StoreRecords(b.Context(), contest, db.Delivery{
			Store: store, Author: line.Author{Role: line.RoleOffice, Device: "bench"}, Records: []db.Received{{Record: penalty}},
		})
		if err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		get[api.ProgrammeResults](s, path)
	}
}

// largeBundle is a contest of one known programme with invented grades.
func largeBundle(flights, items, seats int) *scoring.Bundle {
	random := rand.New(rand.NewPCG(1, 2))
	sequence := &scoring.Sequence{}
	for i := range items {
		sequence.Items = append(sequence.Items, scoring.Item{Kind: scoring.Figure, K: scoring.K(100 + 10*i), Elements: []string{fmt.Sprint(i)}})
	}
	b := &scoring.Bundle{Format: scoring.BundleFormat, Contest: scoring.Contest{Name: "Large"}}
	c := scoring.Category{ID: "c", Combine: scoring.Combine{By: scoring.BySum}}
	p := scoring.Programme{ID: "p", Kind: scoring.Known, Counts: true, Method: scoring.DefaultMethod(scoring.Consensus), Sequence: sequence}
	for j := range seats {
		b.Judges = append(b.Judges, scoring.Judge{ID: fmt.Sprint("j", j)})
		p.Panel = append(p.Panel, fmt.Sprint("j", j))
	}
	for i := range flights {
		pilot := fmt.Sprint("p", i)
		b.Pilots = append(b.Pilots, scoring.Pilot{ID: pilot})
		c.Entries = append(c.Entries, scoring.Entry{Pilot: pilot, Ranked: true})
		flight := scoring.Flight{Pilot: pilot, Status: scoring.Flown}
		for j := range seats {
			sheet := scoring.Sheet{Judge: p.Panel[j]}
			for range items {
				sheet.Grades = append(sheet.Grades, scoring.Grade(10+random.IntN(9)))
			}
			flight.Sheets = append(flight.Sheets, sheet)
		}
		p.Flights = append(p.Flights, flight)
	}
	c.Programmes = []scoring.Programme{p}
	b.Categories = []scoring.Category{c}
	return b
}

// unflownBundle is such a contest whose flights are still to be flown.
func unflownBundle(flights, items, seats int) *scoring.Bundle {
	b := largeBundle(flights, items, seats)
	for i := range b.Categories[0].Programmes[0].Flights {
		f := &b.Categories[0].Programmes[0].Flights[i]
		f.Status, f.Sheets = scoring.Scheduled, nil
	}
	return b
}

// BenchmarkSequenceCheck checks, calls and draws an invented sequence of ten
// figures over HTTP, as the editor does at every tap: without limits, and held
// against those of a category with a table of 2000 numbers.
func BenchmarkSequenceCheck(b *testing.B) {
	s := start(b)
	at := s.plain(db.Live)
	var table strings.Builder
	for i := range 2000 {
		fmt.Fprintf(&table, "9.1.%d.%d,%d\n", 1+i/4, 1+i%4, 1+i%4)
	}
	if a := s.send(numbers(at, table.String())); a.status != http.StatusOK {
		b.Fatal(a.body)
	}
	text, err := os.ReadFile("../scoring/figure/draw/testdata/sequence.json")
	if err != nil {
		b.Fatal(err)
	}
	bare, addresses := string(text), 1
	for name, body := range map[string]string{
		"alone":    bare,
		"category": strings.Replace(bare, "{", `{"category": "`+at.category.String()+`",`, 1),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for asked := 0; b.Loop(); asked++ {
				if asked%someRequests == 0 {
					s.client = clientFrom(addresses)
					addresses++
				}
				a := s.send(request{method: http.MethodPost, path: "/api/v1/sequence-checks", contentType: json1, body: body})
				if !strings.Contains(a.body, `"figures":10`) {
					b.Fatal(a.body)
				}
			}
		})
	}
}

// someRequests is what one address may ask at once, with much to spare.
const someRequests = 200

// clientFrom asks from the nth address of this machine's own, so that the bound
// on each address stays out of what is measured.
func clientFrom(n int) *http.Client {
	dialer := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.IPv4(127, 1, byte(n>>8), byte(n))}}
	return &http.Client{Transport: &http.Transport{DialContext: dialer.DialContext, ReadBufferSize: 64 << 10}}
}
