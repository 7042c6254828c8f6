package scoring

import (
	"cmp"
	"slices"
)

// teams ranks the teams on the totals of their best ranked members. They stand
// in the order of their first ranked entry.
func (s *standing) teams(overall []OverallResult) []TeamResult {
	most := s.category.Combine.TeamBest
	if most == 0 {
		return []TeamResult{}
	}
	names, members := s.teamMembers()
	teams := make([]TeamResult, len(names))
	totals := make([]hundredths, len(names))
	var indices []int
	for i, name := range names {
		team := members[name]
		slices.SortStableFunc(team, func(a, b int) int { return cmp.Compare(*overall[a].Rank, *overall[b].Rank) })
		teams[i] = TeamResult{Team: name, Pilots: []string{}}
		for _, entry := range team[:min(most, len(team))] {
			totals[i] += published(overall[entry].Total)
			teams[i].Pilots = append(teams[i].Pilots, overall[entry].Pilot)
		}
		teams[i].Total = totals[i].float()
		indices = append(indices, i)
	}
	for i, rank := range ranksOf(indices, func(a, b int) int { return best(totals[a], totals[b]) }) {
		teams[i].Rank = rank
	}
	return teams
}

// teamMembers lists the teams that have a ranked member, and the entries of
// those members.
func (s *standing) teamMembers() (names []string, members map[string][]int) {
	members = map[string][]int{}
	for i, entry := range s.category.Entries {
		if entry.Team == "" || !entry.Ranked {
			continue
		}
		if _, known := members[entry.Team]; !known {
			names = append(names, entry.Team)
		}
		members[entry.Team] = append(members[entry.Team], i)
	}
	return names, members
}
