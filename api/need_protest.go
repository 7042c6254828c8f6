package api

import (
	"context"

	"halfpoint/scoring/publication"
)

func init() { needSources = append(needSources, openProtests) }

// openProtests finds protests that wait for the director's decision.
func openProtests(_ context.Context, _ *server, in *situation) (needs []Need, err error) {
	titles := map[string]string{}
	in.eachProgramme(func(p *programmeParts) { titles[p.behind.ID.String()] = p.title() })
	for i := range in.Protests {
		p := &in.Protests[i]
		if p.Decision != nil {
			continue
		}
		needs = append(needs, Need{
			Kind: "protest", Urgency: Now, Of: titles[p.Programme.String()], Text: "the protest of " + p.Pilot.Name + " waits for a decision",
			Link: "/programmes/" + p.Programme.String() + "/protests",
		})
	}
	return needs, nil
}

// openProtestsOf counts those against one programme.
func (in *situation) openProtestsOf(p *programmeParts) (n int) {
	for i := range in.Protests {
		if one := &in.Protests[i]; one.Programme == p.behind.ID && one.Decision == nil {
			n++
		}
	}
	return n
}

// isOfficial tells whether the last publication of a programme is official.
func (in *situation) isOfficial(p *programmeParts) bool {
	last := in.latestOf(p)
	return last != nil && last.State == publication.Official
}
