package api

import (
	"context"
	"fmt"
	"time"

	"halfpoint/db"
	"halfpoint/scoring/line"
	"halfpoint/scoring/publication"
)

func init() { needSources = append(needSources, readyProgrammes, readyCategories) }

// runsOut is how long before its end the time for protests is told of.
const runsOut = 30 * time.Minute

// readyProgrammes finds programmes whose results can be published, and those
// whose time for protests is over or soon will be.
func readyProgrammes(_ context.Context, _ *server, in *situation) (needs []Need, err error) {
	in.eachProgramme(func(p *programmeParts) {
		need := Need{Kind: "publication", Of: p.title(), Link: "/programmes/" + p.behind.ID.String() + "/publish"}
		last := in.latestOf(p)
		switch {
		case last == nil && p.isOver():
			need.Urgency, need.Text = Soon, "every flight is closed; the results can be published"
		case last != nil && last.State == publication.Provisional && in.openProtestsOf(p) == 0 && in.waited(last, &need):
		default:
			return
		}
		needs = append(needs, need)
	})
	return needs, nil
}

// waited says of provisional results that their time for protests is over, or
// runs out.
func (in *situation) waited(last *db.PublicationInfo, need *Need) bool {
	switch until := last.ProtestUntil; {
	case until == nil:
		return false
	case in.Now.After(*until):
		need.Urgency, need.Text = Soon, fmt.Sprintf("the time for protests against publication %d is over; it can become official", last.Number)
	case until.Sub(in.Now) < runsOut:
		need.Urgency, need.Text, need.Until = Later, fmt.Sprintf("the time for protests against publication %d runs out", last.Number), until
	default:
		return false
	}
	return true
}

// readyCategories finds standings whose programmes are all official, and which
// are not.
func readyCategories(_ context.Context, _ *server, in *situation) (needs []Need, err error) {
	for _, c := range in.categories {
		official, counted := 0, 0
		for i := range c.category.Programmes {
			if p := partsOf(c.part, i); p.programme.Counts {
				counted++
				if in.isOfficial(p) {
					official++
				}
			}
		}
		last := in.latestStanding(c)
		if counted == 0 || official < counted || last != nil && last.State == publication.Official {
			continue
		}
		needs = append(needs, Need{
			Kind: "publication", Urgency: Soon, Of: c.category.Name + " · overall", Link: "/categories/" + c.part.Categories[0].ID.String() + "/publish",
			Text: "every programme that counts is official; the standing can become so",
		})
	}
	return needs, nil
}

// isOver tells whether nothing more is to come of any flight of a programme.
func (p *programmeParts) isOver() bool {
	closed := 0
	for i := range p.behind.Flights {
		f := &p.behind.Flights[i].State
		if f.StatusConflict || !line.IsOver(f.Status) {
			return false
		}
		if f.Status == line.StatusClosed {
			closed++
		}
	}
	return closed > 0
}

// latestOf is the last publication of a programme, nil before the first.
func (in *situation) latestOf(p *programmeParts) *db.PublicationInfo {
	return lastOf(in.Publications, "programme", p.behind.ID)
}

// latestStanding is the last publication of a category's standing.
func (in *situation) latestStanding(c *scoredCategory) *db.PublicationInfo {
	return lastOf(in.Publications, "category", c.part.Categories[0].ID)
}
