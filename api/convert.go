package api

import (
	"cmp"
	"strconv"
	"time"

	"github.com/google/uuid"
	openapi_types "github.com/oapi-codegen/runtime/types"

	"halfpoint/db"
	"halfpoint/scoring"
)

// each converts a list, which is then never null.
func each[A, B any](list []A, convert func(*A) B) []B {
	converted := make([]B, len(list))
	for i := range list {
		converted[i] = convert(&list[i])
	}
	return converted
}

// or is what was given, or nothing.
func or[T any](given *T) (value T) {
	if given != nil {
		value = *given
	}
	return value
}

// given is nil for what says nothing.
func given[T comparable](value T) *T {
	var nothing T
	if value == nothing {
		return nil
	}
	return &value
}

func headOf(h db.Head) Head { return Head{Epoch: h.Epoch, Version: h.Version} }

func named(id uuid.UUID, name string) Named { return Named{ID: id, Name: name} }

// dateOf is nil for a date that is not known.
func dateOf(text string) *openapi_types.Date {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return nil
	}
	return &openapi_types.Date{Time: day}
}

func summaryOf(c db.ContestInfo) ContestSummary {
	return ContestSummary{
		ID: c.ID, Name: c.Name, Place: c.Place,
		Starts: dateOf(c.Starts), Ends: dateOf(c.Ends), Opened: Opened(c.Opened),
	}
}

func contestOf(c *db.Contest) Contest {
	return Contest{
		Head: headOf(c.Head), ID: c.ID, Name: c.Name, Place: c.Place,
		Starts: dateOf(c.Starts), Ends: dateOf(c.Ends), Opened: Opened(c.Opened), Categories: each(c.Categories, categoryOf),
	}
}

func categoryOf(c *db.Category) Category {
	return Category{
		ID: c.ID, Name: c.Name, Combine: CategoryCombine(c.Combine),
		Pilots: c.Pilots, Programmes: each(c.Programmes, programmeOf),
	}
}

func programmeOf(p *db.Programme) Programme {
	return Programme{
		ID: p.ID, Name: p.Name, Kind: ProgrammeKind(p.Kind), Cut: p.Cut, Counts: p.Counts,
		Method: ProgrammeMethod(p.Method.Name), Seats: p.Seats, Flights: p.Flights, Flown: p.Flown,
	}
}

func optionsOf(m scoring.Method) MethodOptions {
	return MethodOptions{
		Name: m.Name, Trim: m.Trim, Discard: m.Discard, Style: m.Style, SeatWeights: m.SeatWeights,
		Outlier: m.Outlier, Lean: m.Lean, GroupMin: m.GroupMin,
		HardZeroMajority: m.HardZeroMajority, PerceptionZero: m.PerceptionZero,
	}
}

// methodFrom is the method with the options that were sent.
func methodFrom(o MethodOptions) scoring.Method {
	return scoring.Method{
		Name: o.Name, Trim: o.Trim, Discard: o.Discard, Style: o.Style, SeatWeights: o.SeatWeights,
		Outlier: o.Outlier, Lean: o.Lean, GroupMin: o.GroupMin,
		HardZeroMajority: o.HardZeroMajority, PerceptionZero: o.PerceptionZero,
	}
}

func panelOf(seats []db.Seat) []Seat {
	return each(seats, panelSeat)
}

func panelSeat(s *db.Seat) Seat { return Seat{Number: s.Number, Judge: named(s.Judge, s.Name)} }

func itemsOf(s *scoring.Sequence) []Item {
	list, said := make([]Item, len(s.Items)), describe(s)
	for i := range s.Items {
		list[i] = said.itemOf(i+1, &s.Items[i])
	}
	return list
}

// itemOf is an item with what is said of it, its number counted from 1.
func (d described) itemOf(number int, item *scoring.Item) Item {
	i := itemOf(number, item)
	if said := d[number]; said != nil {
		i.Name, i.Call, i.Drawings = cmp.Or(i.Name, said.name), said.call, said.drawings
	}
	return i
}

func itemOf(number int, item *scoring.Item) Item {
	elements := item.Elements
	if elements == nil {
		elements = []string{}
	}
	return Item{
		Number: number, Kind: ItemKind(item.Kind), K: points(item.K),
		Elements: elements, Name: item.Name,
	}
}

func certaintyOf(c *scoring.Certainty) *Certainty {
	if c == nil {
		return nil
	}
	return &Certainty{RankLow: c.RankLow, RankHigh: c.RankHigh, PFirst: c.First, PPodium: c.Podium}
}

// itemName is what an item is called in a sentence.
func itemName(number int, item *scoring.Item) string {
	if item.Kind == scoring.Overall && item.Name != "" {
		return item.Name
	}
	return "Figure " + strconv.Itoa(number)
}
