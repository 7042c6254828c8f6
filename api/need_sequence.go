package api

import (
	"context"
	"fmt"
	"strings"
)

func init() { needSources = append(needSources, openSequences) }

// openSequences finds sequences that are not registered, not signed off or not
// released.
func openSequences(_ context.Context, _ *server, in *situation) (needs []Need, err error) {
	in.eachProgramme(func(p *programmeParts) {
		tally, words := in.Sequences[p.behind.ID], []string{}
		if tally.Unsigned > 0 {
			words = append(words, counted(tally.Unsigned, "sequence waits", "sequences wait")+" to be signed off")
		}
		if tally.Missing > 0 {
			words = append(words, counted(tally.Missing, "sequence is", "sequences are")+" missing")
		}
		if tally.Unreleased {
			words = append(words, "the sequence is not released")
		}
		if len(words) > 0 && !p.isOver() {
			needs = append(needs, Need{Kind: "sequence", Urgency: Later, Of: p.title(), Text: strings.Join(words, ", "), Link: "/office"})
		}
	})
	return needs, nil
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
