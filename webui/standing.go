package webui

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Drawings make one of the answer that a page reads first, by its kind in src/ahead.ts.
var drawings = map[string]func(answer []byte, w words) (*drawing, error){
	"programme":   ofProgramme,
	"category":    ofCategory,
	"publication": ofPublication,
}

// Of the service's answers, what is drawn: their form is in the contract.
type (
	named struct{ ID, Name string }
	pilot struct{ Name, Affiliation, Aircraft string }
	ranks struct {
		Low  int `json:"rank_low"`
		High int `json:"rank_high"`
	}
	score struct {
		Programme      string
		Score, Percent float64
	}
	place struct {
		Pilot          pilot
		Team, State    string
		Rank           *int
		Ranked         *bool
		Score, Percent *float64
		Total          *float64
		By             []score `json:"by_programme"`
		Certainty      *ranks
	}
)

func ofProgramme(answer []byte, w words) (*drawing, error) {
	var of struct {
		Contest, Category, Programme named
		Flights                      []place
	}
	if err := json.Unmarshal(answer, &of); err != nil {
		return nil, fmt.Errorf("reading a programme's results: %w", err)
	}
	in, all := flown(of.Flights)
	d := &drawing{
		Title:   titleOf(w, of.Category, &of.Programme),
		Way:     []way{of.Contest.at("/contests/"), of.Category.at("/categories/")},
		Said:    []string{flightsIn(w, in, all)},
		Columns: columnsOfOne(w),
	}
	d.add(w, of.Flights, byRankOr(scoreOf), numbersOfOne)
	return d, nil
}

func ofCategory(answer []byte, w words) (*drawing, error) {
	var of struct {
		Contest  named
		Category struct {
			named
			Combine    string
			Programmes []struct {
				named
				Flown, Flights int
			}
		}
		Overall []place
	}
	if err := json.Unmarshal(answer, &of); err != nil {
		return nil, fmt.Errorf("reading a category's results: %w", err)
	}
	d := &drawing{Title: titleOf(w, of.Category.named, nil), Way: []way{of.Contest.at("/contests/")}}
	var programmes []named
	in, all := 0, 0
	for _, one := range of.Category.Programmes {
		programmes = append(programmes, one.named)
		d.Programmes = append(d.Programmes, one.at("/programmes/"))
		in, all = in+one.Flown, all+one.Flights
	}
	d.Said = []string{flightsIn(w, in, all)}
	d.Columns = columnsOfAll(w, programmes)
	d.add(w, of.Overall, byRankOr(totalOf), numbersOfAll(programmes, of.Category.Combine, totalOf))
	return d, nil
}

func ofPublication(answer []byte, w words) (*drawing, error) {
	var of struct {
		Contest named
		About   struct {
			Number    int64
			State     string
			Category  named
			Programme *named
		}
		Combine    string
		Programmes []struct{ Programme, Name string }
		Standing   []struct {
			pilot         // its names
			place         // but for what follows
			Pilot  string // its id
			Scores []score
		}
	}
	if err := json.Unmarshal(answer, &of); err != nil {
		return nil, fmt.Errorf("reading a publication: %w", err)
	}
	contest := of.Contest.at("/contests/")
	d := &drawing{
		Title: titleOf(w, of.About.Category, of.About.Programme),
		Way:   []way{contest, {w.Published, contest.Address + "/publications"}},
		State: w.State[of.About.State],
		Said:  []string{fill(w.Number, "n", strconv.FormatInt(of.About.Number, 10))},
	}
	var places []place
	for _, one := range of.Standing {
		one.place.Pilot, one.By = one.pilot, one.Scores
		places = append(places, one.place)
	}
	if of.About.Programme != nil {
		d.Columns = columnsOfOne(w)
		d.add(w, places, byRank, numbersOfOne)
		return d, nil
	}
	var programmes []named
	for _, one := range of.Programmes {
		programmes = append(programmes, named{one.Programme, one.Name})
	}
	d.Columns = columnsOfAll(w, programmes)
	d.add(w, places, byRank, numbersOfAll(programmes, of.Combine, scoreOf))
	return d, nil
}

func (n named) at(path string) way { return way{n.Name, path + n.ID} }

func scoreOf(p place) *float64 { return p.Score }
func totalOf(p place) *float64 { return p.Total }

// A programme's standing has a score and per cent.
func columnsOfOne(w words) []column { return []column{{w.Score, true}, {w.Percent, false}} }
func numbersOfOne(p place) []string { return []string{fixed(p.Score), fixed(p.Percent)} }

// A category's has what each programme adds to the total, and the total.
func columnsOfAll(w words, programmes []named) []column {
	var columns []column
	for _, one := range programmes {
		columns = append(columns, column{one.Name, false})
	}
	return append(columns, column{w.Total, true})
}

func numbersOfAll(programmes []named, combine string, total func(place) *float64) func(place) []string {
	return func(p place) []string {
		var numbers []string
		for _, one := range programmes {
			numbers = append(numbers, added(p.By, one.ID, combine))
		}
		return append(numbers, fixed(total(p)))
	}
}

// add writes the places as rows, with the numbers of each.
func (d *drawing) add(w words, places []place, order func(a, b place) int, numbers func(place) []string) {
	slices.SortStableFunc(places, order)
	for _, p := range places {
		one := row{Name: p.Pilot.Name, Detail: detail(w, p), Unranked: p.Ranked != nil && !*p.Ranked, Numbers: numbers(p)}
		if p.Rank != nil {
			one.Rank = *p.Rank
		}
		if p.Certainty != nil && p.Rank != nil {
			one.Sure, d.Sure = p.Certainty.String(), true
		}
		d.Rows = append(d.Rows, one)
	}
}

func (r *ranks) String() string {
	if r.Low == r.High {
		return strconv.Itoa(r.Low)
	}
	return fmt.Sprintf("%d–%d", r.Low, r.High)
}

// byRankOr orders by rank where both have one, since a cut ranks before the total,
// else by the total, the highest first.
func byRankOr(total func(place) *float64) func(a, b place) int {
	of := func(p place) float64 {
		if t := total(p); t != nil {
			return *t
		}
		return math.Inf(-1)
	}
	return func(a, b place) int {
		if a.Rank != nil && b.Rank != nil {
			return cmp.Compare(*a.Rank, *b.Rank)
		}
		return cmp.Compare(of(b), of(a))
	}
}

// byRank puts those without a rank behind all others.
func byRank(a, b place) int {
	of := func(p place) int {
		if p.Rank != nil {
			return *p.Rank
		}
		return math.MaxInt
	}
	return cmp.Compare(of(a), of(b))
}

// added is what a programme adds to a total: points, or per cent.
func added(by []score, programme, combine string) string {
	for _, one := range by {
		switch {
		case one.Programme != programme:
		case combine == "sum":
			return fixed(&one.Score)
		default:
			return fixed(&one.Percent)
		}
	}
	return ""
}

func titleOf(w words, category named, programme *named) string {
	if programme == nil {
		return fill(w.CategoryTitle, "category", category.Name)
	}
	return fill(w.ProgrammeTitle, "category", category.Name, "programme", programme.Name)
}

// flown counts the flights that have their score, and those that were to have one.
func flown(flights []place) (in, all int) {
	for _, p := range flights {
		switch p.State {
		case "flown":
			in, all = in+1, all+1
		case "not-flown", "withdrawn", "disqualified":
		default:
			all++
		}
	}
	return in, all
}

func flightsIn(w words, in, all int) string {
	return fill(w.FlightsIn, "in", strconv.Itoa(in), "all", strconv.Itoa(all))
}

// detail is from where and with what; an aeroplane's name stays on one line.
func detail(w words, p place) string {
	said := []string{p.Pilot.Affiliation, strings.ReplaceAll(p.Pilot.Aircraft, " ", "\u00a0")}
	if p.Team != "" {
		said = append(said, fill(w.In, "team", p.Team))
	}
	return strings.Join(slices.DeleteFunc(said, func(one string) bool { return one == "" }), " · ")
}

// fixed is a number of points or per cent as it is shown: two decimals, a real minus.
func fixed(value *float64) string {
	if value == nil {
		return ""
	}
	return strings.Replace(strconv.FormatFloat(*value, 'f', 2, 64), "-", "−", 1)
}
