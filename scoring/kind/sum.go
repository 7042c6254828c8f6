package kind

import "halfpoint/scoring"

// A Flight is one that was judged.
type Flight struct {
	Items  []scoring.Item
	Values []float64 // the panel's value of each item, 0 to 10
}

// A Programme is one whose flights are compared.
type Programme struct {
	Own     bool // each pilot flew an own sequence
	Flights []Flight
	Pilot   int // which of the flights is the pilot's, counted from 0; -1 for none
}

// A Sum is what became of a pilot's items of one kind. Points are K × value.
type Sum struct {
	Kind   Kind
	Items  int
	K      float64 // ΣK
	Points float64
	Lost   float64 // from 10 for each: 10 × ΣK − points
	// Gain is the points over the field's mean, which includes the pilot: of the
	// same item, or, where each flies an own sequence, of the same kind in that
	// programme, by K. Only Compared of the items have a field.
	Gain     float64
	Compared int
}

// LeastField is how many flights make a field to compare with.
const LeastField = 3

// Sums adds up a pilot's items by kind over programmes. Kinds that were not
// flown are left out; the others stand in the order of All.
func Sums(programmes []Programme) []Sum {
	of := map[Kind]*Sum{}
	for i := range programmes {
		if p := &programmes[i]; p.Pilot >= 0 {
			p.add(of)
		}
	}
	sums := []Sum{}
	for _, kind := range All {
		if of[kind] != nil {
			sums = append(sums, *of[kind])
		}
	}
	return sums
}

func (p *Programme) add(to map[Kind]*Sum) {
	own, field := &p.Flights[p.Pilot], p.field()
	for i := range own.Items {
		item, kind := &own.Items[i], Of(&own.Items[i])
		s := to[kind]
		if s == nil {
			s = &Sum{Kind: kind}
			to[kind] = s
		}
		k := float64(item.K) / 10
		s.Items++
		s.K += k
		s.Points += k * own.Values[i]
		s.Lost += k * (10 - own.Values[i])
		if mean, there := field(i, kind); there {
			s.Gain += k * (own.Values[i] - mean)
			s.Compared++
		}
	}
}

// field gives the field's mean value of an item, by its place or by its kind.
func (p *Programme) field() func(item int, kind Kind) (mean float64, there bool) {
	if p.Own {
		means := p.kindMeans()
		return func(_ int, kind Kind) (float64, bool) { return means[kind].mean() }
	}
	return func(item int, _ Kind) (float64, bool) {
		var m weighed
		for i := range p.Flights {
			m.add(1, p.Flights[i].Values[item])
			m.flights++
		}
		return m.mean()
	}
}

func (p *Programme) kindMeans() map[Kind]weighed {
	means := map[Kind]weighed{}
	for i := range p.Flights {
		f, counted := &p.Flights[i], map[Kind]bool{}
		for j := range f.Items {
			kind := Of(&f.Items[j])
			m := means[kind]
			m.add(float64(f.Items[j].K), f.Values[j])
			if !counted[kind] {
				counted[kind] = true
				m.flights++
			}
			means[kind] = m
		}
	}
	return means
}

// weighed adds up values for their mean.
type weighed struct {
	weight, sum float64
	flights     int
}

func (m *weighed) add(weight, value float64) {
	m.weight += weight
	m.sum += weight * value
}

// mean is there for three flights and more.
func (m weighed) mean() (float64, bool) {
	if m.flights < LeastField || m.weight == 0 {
		return 0, false
	}
	return m.sum / m.weight, true
}
