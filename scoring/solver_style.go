package scoring

import "math"

// matchStyle brings the seats' spreads within the groups together, where the
// method says so.
func (s *Solver) matchStyle() {
	if !s.table.Options.Style {
		return
	}
	for g := range s.table.Groups {
		s.takeLevels(g)
	}
	stretches := s.stretches()
	for g := range s.table.Groups {
		level := s.groupLevel(g)
		for seat, stretch := range stretches[:s.table.Seats] {
			from, to := s.cells(g, seat)
			e := s.residuals[from:to]
			for i, x := range e {
				e[i] = level + x*stretch
			}
		}
	}
}

// takeLevels finds each seat's level in a group and takes it off.
func (s *Solver) takeLevels(g int) {
	for seat := range s.table.Seats {
		n := s.groupCells[g*s.seats+seat]
		if n == 0 {
			continue
		}
		from, to := s.cells(g, seat)
		sum := 0.0
		for _, y := range s.residuals[from:to] {
			if y < gapFrom {
				sum += y
			}
		}
		level := sum / float64(n)
		s.levels[g*s.seats+seat] = level
		for i := range s.residuals[from:to] {
			s.residuals[from+i] -= level
		}
	}
}

// groupLevel is the mean of the seats' levels in a group.
func (s *Solver) groupLevel(g int) float64 {
	var levels moments
	for seat := range s.table.Seats {
		if at := g*s.seats + seat; s.groupCells[at] > 0 {
			levels.add(s.levels[at])
		}
	}
	if levels.n == 0 {
		return 0
	}
	return levels.mean()
}

// stretches is how each seat's differences from its levels are multiplied, so
// that all seats use the scale as widely.
func (s *Solver) stretches() []float64 {
	s.deviation = max(leastDeviation, s.residualMedian()/normalMedian)
	s.squareAll()
	freedom := s.scratch
	clear(freedom)
	for i, n := range s.groupCells {
		freedom[i%s.seats] += float64(max(n-1, 0))
	}
	var all moments
	for seat, square := range s.squares {
		if square > 0 && freedom[seat] > 0 {
			all.add(square / freedom[seat])
		}
	}
	stretches := s.seatShifts
	for seat, square := range s.squares {
		stretches[seat] = 1
		if square > 0 && freedom[seat] > 0 {
			stretches[seat] = clamp(math.Sqrt(all.mean()*freedom[seat]/square), leastStretch, mostStretch)
		}
	}
	return stretches
}
