package api

import (
	"context"
	"fmt"
	"strings"

	"halfpoint/db"
	"halfpoint/scoring"
)

func init() { needSources = append(needSources, unseenResults, missingSetUp) }

// unseenResults finds that results are published of a contest that is open to
// nobody: the time for protests runs, and no pilot can read them.
func unseenResults(_ context.Context, _ *server, in *situation) (needs []Need, err error) {
	if in.Contest.Opened != db.Closed || len(in.Publications) == 0 {
		return nil, nil
	}
	return []Need{in.setUpNeed(Now, "", in.Contest.Name, "results are published, and nobody but its officials may see them: say who may")}, nil
}

// missingSetUp finds what a contest still lacks before it can be flown.
func missingSetUp(_ context.Context, _ *server, in *situation) (needs []Need, err error) {
	if len(in.categories) == 0 {
		return []Need{in.setUpNeed(Soon, "/categories", in.Contest.Name, "there is no category yet")}, nil
	}
	for _, c := range in.categories {
		switch {
		case len(c.category.Programmes) == 0:
			needs = append(needs, in.setUpNeed(Soon, "/programmes", c.category.Name, "there is no programme yet"))
		case len(c.category.Entries) == 0:
			needs = append(needs, in.setUpNeed(Soon, "/pilots", c.category.Name, "no pilot is entered"))
		}
	}
	in.eachProgramme(func(p *programmeParts) {
		if p.programme.Counts && !p.hasBegun() {
			needs = append(needs, in.missingOf(p)...)
		}
	})
	return needs, nil
}

// missingOf is what one programme lacks, of which no flight has been called yet.
func (in *situation) missingOf(p *programmeParts) (needs []Need) {
	if lacks := lackingPanel(p.programme, len(p.category.Entries)); lacks != "" {
		needs = append(needs, in.setUpNeed(Soon, "/panels", p.title(), lacks))
	}
	if len(p.behind.Flights) == 0 && len(p.category.Entries) > 0 {
		needs = append(needs, Need{
			Kind: "order", Urgency: Later, Of: p.title(), Text: "there is no running order yet",
			Link: "/programmes/" + p.behind.ID.String() + "/order",
		})
	}
	return needs
}

func (in *situation) setUpNeed(urgency NeedUrgency, page, of, text string) Need {
	return Need{Kind: "setup", Urgency: urgency, Of: of, Text: text, Link: "/contests/" + in.Contest.ID.String() + "/setup" + page}
}

// hasBegun tells whether any flight of a programme was called, or is over.
func (p *programmeParts) hasBegun() bool {
	for i := range p.behind.Flights {
		if p.behind.Flights[i].State.Status != "" {
			return true
		}
	}
	return false
}

// lackingPanel says that nobody judges a programme, or that its method would give
// way to the mean; empty where neither is so.
func lackingPanel(p *scoring.Programme, pilots int) string {
	have := len(p.Panel)
	if have == 0 {
		return "no judge is on its panel"
	}
	words := []string{}
	seats, flights := p.Method.Needs()
	if have < seats {
		words = append(words, fmt.Sprintf("%d seats, and there are %d", seats, have))
	}
	if pilots > 0 && pilots < flights {
		words = append(words, fmt.Sprintf("%d pilots, and there are %d", flights, pilots))
	}
	if len(words) == 0 {
		return ""
	}
	return fmt.Sprintf("its method (%s) needs %s: it would be scored by the mean",
		strings.ReplaceAll(p.Method.Name, "-", " "), strings.Join(words, "; "))
}
