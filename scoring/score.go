package scoring

// Score scores every category of a bundle.
func Score(b *Bundle) *Results {
	r := &Results{Format: ResultsFormat, Categories: make([]CategoryResult, len(b.Categories))}
	for i := range b.Categories {
		r.Categories[i] = ScoreCategory(&b.Categories[i])
	}
	return r
}

// ScoreCategory scores every programme of a category and adds them up.
func ScoreCategory(c *Category) CategoryResult {
	s := newStanding(c)
	result := CategoryResult{ID: c.ID, Programmes: make([]ProgrammeResult, len(c.Programmes))}
	for i := range c.Programmes {
		result.Programmes[i] = s.score(&c.Programmes[i])
	}
	result.Overall = s.overall()
	result.Teams = s.teams(result.Overall)
	return result
}

// ScoreProgramme scores one programme of a category, counted from 0. The
// programmes before it are only scored where a cut depends on them.
func ScoreProgramme(c *Category, index int) ProgrammeResult {
	s := newStanding(c)
	if cutBefore(c.Programmes[:index]) {
		for i := range index {
			s.score(&c.Programmes[i])
		}
	}
	return s.score(&c.Programmes[index])
}

func cutBefore(programmes []Programme) bool {
	for i := range programmes {
		if programmes[i].Counts && programmes[i].Cut > 0 {
			return true
		}
	}
	return false
}

// score scores the next programme: sheets to a clean table, the table to panel
// scores, those to published scores, ranks, and the cut after it.
func (s *standing) score(p *Programme) ProgrammeResult {
	table := Clean(p)
	fits, fallback := fit(table)
	result := ProgrammeResult{
		ID: p.ID, Method: p.Method.Name, Fallback: fallback, State: Complete,
		Flights: make([]FlightResult, 0, len(table.Flights)),
	}
	round := round{programme: p}
	for i := range table.Flights {
		switch f := &table.Flights[i]; {
		case f.Scored():
			result.Flights = append(result.Flights, reportFlight(f, p.Panel, &fits[0]))
			round.publish(f, &fits[0])
			fits = fits[1:]
		case f.Flight.ScoresZero():
			result.Flights = append(result.Flights, reportWaiting(f))
			round.publishZero(f)
		default:
			result.Flights = append(result.Flights, reportWaiting(f))
			round.publishNothing(f)
			result.State = Incomplete
		}
	}
	s.place(&round, result.Flights)
	s.rounds = append(s.rounds, round)
	s.cut(&round)
	return result
}

// fit applies the programme's method, or the mean where that cannot be. The
// fits are those of the scored flights.
func fit(t *Table) (fits []flightFit, fallback string) {
	if fits, ok := scorers[t.Programme.Method.Name](t); ok {
		return fits, ""
	}
	fits, _ = scoreMean(t)
	return fits, Mean
}
