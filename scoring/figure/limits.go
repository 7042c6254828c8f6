package figure

import "halfpoint/scoring/document"

// Limits is what a sequence must keep. A limit of 0 is no limit, but for
// RotationsPerLine.
type Limits struct {
	MaxFigures, MinFigures int
	MaxK, MinK             K
	KTolerance             K // how far above MaxK is a remark only
	MaxFigureK             K
	MaxQuarters            int // of one rotation or spin, in quarter turns
	RotationsPerLine       int // DefaultRotationsPerLine where 0
	RepeatAll              bool
	Repeat                 []Prefix // numbers that may come again
	Require                []Requirement
	Forbid                 []Prefix
}

// A Requirement is how many figures must, and may, carry a number with one of
// the prefixes.
type Requirement struct {
	Any         []Prefix
	Least, Most int // Most is 0 for no limit
}

// ParseLimits reads limits from their JSON alone. The error is
// document.Complaints.
func ParseLimits(text []byte) (*Limits, error) {
	var report document.Report
	v, ok := document.Parse(text, &report)
	if !ok {
		return nil, report.Err()
	}
	limits := ReadLimits(v)
	return limits, report.Err()
}

// ReadLimits reads limits; whatever is wrong is a complaint at its place.
func ReadLimits(v document.Value) *Limits {
	o, ok := v.Object("max_figures", "min_figures", "max_k", "min_k", "k_tolerance", "max_figure_k",
		"max_turns", "rotations_per_line", "repeat_allowed", "require", "forbid")
	if !ok {
		return nil
	}
	l := &Limits{
		MaxFigures: readCount(o, "max_figures"), MinFigures: readCount(o, "min_figures"),
		MaxK: readLimitK(o, "max_k"), MinK: readLimitK(o, "min_k"),
		KTolerance: readLimitK(o, "k_tolerance"), MaxFigureK: readLimitK(o, "max_figure_k"),
		RotationsPerLine: readCount(o, "rotations_per_line"),
	}
	if turns, there := o.Optional("max_turns"); there {
		l.MaxQuarters, _ = readShare(turns, 4, 0, 1000)
	}
	if repeat, there := o.Optional("repeat_allowed"); there {
		readRepeat(repeat, l)
	}
	if require, there := o.Optional("require"); there {
		list, _ := require.List()
		for _, one := range list {
			l.Require = append(l.Require, readRequirement(one))
		}
	}
	if forbid, there := o.Optional("forbid"); there {
		l.Forbid = readPrefixes(forbid)
	}
	return l
}

func readRepeat(v document.Value, l *Limits) {
	if v.IsList() {
		l.Repeat = readPrefixes(v)
		return
	}
	l.RepeatAll, _ = v.Bool()
}

func readRequirement(v document.Value) Requirement {
	r := Requirement{Least: 1}
	o, ok := v.Object("any", "least", "most")
	if !ok {
		return r
	}
	if anyOf, there := o.Required("any"); there {
		r.Any = readPrefixes(anyOf)
		if anyOf.IsList() && len(r.Any) == 0 {
			anyOf.Complain("empty; at least one prefix of numbers was expected")
		}
	}
	if _, there := o.Optional("least"); there {
		r.Least = readCount(o, "least")
	}
	r.Most = readCount(o, "most")
	return r
}

func readPrefixes(v document.Value) []Prefix {
	list, _ := v.List()
	prefixes := make([]Prefix, len(list))
	for i, one := range list {
		text, ok := one.Text()
		if !ok {
			continue
		}
		if prefixes[i], ok = ParsePrefix(text); !ok {
			one.Complain("%q is not the beginning of a catalogue number, such as 5. or 9.1", text)
		}
	}
	return prefixes
}

func readCount(o document.Object, name string) int {
	v, there := o.Optional(name)
	if !there {
		return 0
	}
	n, _ := v.Integer(0, 1000)
	return n
}

func readLimitK(o document.Object, name string) K {
	v, there := o.Optional(name)
	if !there {
		return 0
	}
	k, ok := readTenths(v)
	if ok && k < 0 {
		v.Complain("%s is below 0", k)
		return 0
	}
	return k
}
