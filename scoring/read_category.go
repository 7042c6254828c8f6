package scoring

import (
	"math"

	"halfpoint/scoring/document"
)

func (r *bundleReader) category(v document.Value) (c Category) {
	o, ok := v.Object("id", "name", "combine", "entries", "programmes")
	if !ok {
		return c
	}
	entered, programmes := newRegister("entered pilot"), newRegister("programme")
	return Category{
		ID: required(o, "id", r.categories.declare), Name: optional(o, "name", "", readText),
		Combine: optional(o, "combine", Combine{By: BySum, TeamBest: DefaultTeamBest}, readCombine),
		Entries: optionalList(o, "entries", func(v document.Value) Entry {
			return readEntry(v, entered.pickedFrom(r.pilots))
		}),
		Programmes: optionalList(o, "programmes", func(v document.Value) Programme {
			p := programmeReader{bundle: r, entered: entered}
			return p.programme(v, programmes)
		}),
	}
}

// readCombine reads how programmes add up. The weights and the tie break may
// name programmes that the bundle does not hold: it may be a part of the
// contest.
func readCombine(v document.Value) (c Combine) {
	o, ok := v.Object("by", "weights", "tie_break", "team_best")
	if !ok {
		return c
	}
	c = Combine{
		By:       optional(o, "by", BySum, oneOf(BySum, BySumPercent, ByWeightedPercent)),
		TieBreak: optionalList(o, "tie_break", newRegister("programme").declare),
		TeamBest: optional(o, "team_best", DefaultTeamBest, integer(0, 1000)),
	}
	if c.By == ByWeightedPercent {
		c.Weights = required(o, "weights", readWeights)
	} else {
		c.Weights = optional(o, "weights", nil, readAnyWeights)
	}
	return c
}

// weightTolerance is how far from 1 weights may add up, for thirds.
const weightTolerance = 1e-6

// readAnyWeights reads weights that nothing depends on: there need not be any.
func readAnyWeights(v document.Value) map[string]float64 {
	if o, ok := v.AnyObject(); !ok || len(o.Names()) == 0 {
		return nil
	}
	return readWeights(v)
}

func readWeights(v document.Value) map[string]float64 {
	o, ok := v.AnyObject()
	if !ok {
		return nil
	}
	weights, sum := map[string]float64{}, 0.0
	for _, name := range o.Names() {
		weights[name] = required(o, name, from(0))
		sum += weights[name]
	}
	if math.Abs(sum-1) > weightTolerance {
		v.Complain("the weights add up to %.6g; they must add up to 1", sum)
	}
	return weights
}

func readEntry(v document.Value, pilot func(document.Value) string) (e Entry) {
	o, ok := v.Object("pilot", "ranked", "team")
	if !ok {
		return e
	}
	return Entry{
		Pilot: required(o, "pilot", pilot), Ranked: optional(o, "ranked", true, readBool),
		Team: optional(o, "team", "", readText),
	}
}

// leastOption bounds the deviations that the consensus takes for far. Below
// them it would trust nothing, and at last divide by 0.
const leastOption = 0.01

func readMethod(v document.Value) Method {
	o, ok := v.Object("name", "trim", "discard", "style", "seat_weights", "outlier", "lean", "group_min",
		"hard_zero_majority", "perception_zero")
	if !ok {
		return Method{}
	}
	m := DefaultMethod(required(o, "name", oneOf(Mean, TrimmedMean, Normalised, Consensus)))
	m.Trim = optional(o, "trim", m.Trim, integer(0, 100))
	m.Discard = optional(o, "discard", m.Discard, readAbove0)
	m.Style = optional(o, "style", m.Style, readBool)
	m.SeatWeights = optional(o, "seat_weights", m.SeatWeights, oneOf(Measured, Equal))
	m.Outlier = optional(o, "outlier", m.Outlier, from(leastOption))
	m.Lean = optional(o, "lean", m.Lean, from(leastOption))
	m.GroupMin = optional(o, "group_min", m.GroupMin, integer(1, 1_000_000))
	m.HardZeroMajority = optional(o, "hard_zero_majority", m.HardZeroMajority, oneOf(MoreThanHalf, HalfOrMore))
	m.PerceptionZero = optional(o, "perception_zero", m.PerceptionZero, oneOf(ByMajority, AsGraded))
	return m
}
