package scoring

// Evidence is what the consensus makes of the cells of one scored flight.
type Evidence struct {
	Used    []float64 // by item, then seat: points without the seat's style and shift; a gap's is the panel's value
	Trust   []*Trust  // by item, then seat; nil in rows left out as zeros
	Weights []float64 // the seats' shares, adding up to 1
}

// Evidence fits the consensus to the table, whatever the programme's own method
// is, and gives what it makes of each scored flight. It says false where the
// programme has too few seats or flights for the consensus.
func (t *Table) Evidence() ([]Evidence, bool) {
	fits, ok := scoreConsensus(t)
	all := make([]Evidence, len(fits))
	for i, fit := range fits {
		all[i] = Evidence{Used: fit.used, Trust: fit.trust, Weights: fit.weights}
	}
	return all, ok
}
