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
	categories := make([]Category, len(c.Categories))
	for i := range c.Categories {
		categories[i] = categoryOf(&c.Categories[i])
	}
	return Contest{
		Head: headOf(c.Head), ID: c.ID, Name: c.Name, Place: c.Place,
		Starts: dateOf(c.Starts), Ends: dateOf(c.Ends), Opened: Opened(c.Opened), Categories: categories,
	}
}

func categoryOf(c *db.Category) Category {
	programmes := make([]Programme, len(c.Programmes))
	for i := range c.Programmes {
		programmes[i] = programmeOf(&c.Programmes[i])
	}
	return Category{
		ID: c.ID, Name: c.Name, Combine: CategoryCombine(c.Combine),
		Pilots: c.Pilots, Programmes: programmes,
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

func panelOf(seats []db.Seat) []Seat {
	panel := make([]Seat, len(seats))
	for i, s := range seats {
		panel[i] = panelSeat(s)
	}
	return panel
}

func panelSeat(s db.Seat) Seat { return Seat{Number: s.Number, Judge: named(s.Judge, s.Name)} }

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
		Number: number, Kind: ItemKind(item.Kind), K: float64(item.K) / 10,
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
