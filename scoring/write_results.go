package scoring

import (
	"encoding/json"
	"math"
	"strconv"
	"unicode/utf8"
)

// Encode writes the results as compact JSON with a newline at its end. It is
// what encoding/json writes of them without escaping <, > and &, and several
// times faster, because under the consensus there are tens of thousands of
// cells.
func (r *Results) Encode() []byte {
	b := append(make([]byte, 0, r.bytes()), `{"format":`...)
	b = append(b, quoted(r.Format)...)
	b = appendList(append(b, `,"categories":`...), r.Categories, appendCategory)
	return append(b, "}\n"...)
}

// What a cell and a flight take, with some room. Without it the text of a large
// contest is moved a dozen times while it grows, which takes longer than to
// write it.
const (
	cellBytes   = 160
	flightBytes = 2048
)

// bytes is about what the results take when they are written.
func (r *Results) bytes() (n int) {
	for c := range r.Categories {
		for p := range r.Categories[c].Programmes {
			for _, f := range r.Categories[c].Programmes[p].Flights {
				n += flightBytes + cellBytes*len(f.Cells)
			}
		}
	}
	return n
}

// appendList writes a list, with null for one that is nil.
func appendList[T any](b []byte, list []T, appendOne func([]byte, *T) []byte) []byte {
	if list == nil {
		return append(b, "null"...)
	}
	b = append(b, '[')
	for i := range list {
		if i > 0 {
			b = append(b, ',')
		}
		b = appendOne(b, &list[i])
	}
	return append(b, ']')
}

func appendCategory(b []byte, c *CategoryResult) []byte {
	b = appendText(append(b, `{"id":`...), c.ID)
	b = appendList(append(b, `,"programmes":`...), c.Programmes, appendProgramme)
	b = appendList(append(b, `,"overall":`...), c.Overall, appendOverall)
	b = appendList(append(b, `,"teams":`...), c.Teams, appendTeam)
	return append(b, '}')
}

func appendProgramme(b []byte, p *ProgrammeResult) []byte {
	b = appendText(append(b, `{"id":`...), p.ID)
	b = appendText(append(b, `,"method":`...), p.Method)
	b = appendText(append(b, `,"fallback":`...), p.Fallback)
	b = appendText(append(b, `,"state":`...), p.State)
	b = appendList(append(b, `,"flights":`...), p.Flights, appendFlight)
	return append(b, '}')
}

func appendFlight(b []byte, f *FlightResult) []byte {
	b = appendText(append(b, `{"pilot":`...), f.Pilot)
	b = appendText(append(b, `,"status":`...), f.Status)
	b = strconv.AppendBool(append(b, `,"complete":`...), f.Complete)
	b = appendList(append(b, `,"unresolved":`...), f.Unresolved, appendInt)
	if j := f.Judged; j != nil {
		b = appendNumber(append(b, `,"panel_score":`...), j.PanelScore)
		b = appendNumber(append(b, `,"standard_error":`...), j.StandardError)
		b = appendNumber(append(b, `,"penalties":`...), j.Penalties)
	}
	if p := f.Placing; p != nil {
		b = appendNumber(append(b, `,"score":`...), p.Score)
		b = appendNumber(append(b, `,"percent":`...), p.Percent)
		b = appendRank(append(b, `,"rank":`...), p.Rank)
	}
	b = appendCertainty(b, f.Certainty)
	if len(f.Seats) > 0 {
		b = appendList(append(b, `,"seats":`...), f.Seats, appendSeat)
	}
	b = appendList(append(b, `,"cells":`...), f.Cells, appendCell)
	return append(b, '}')
}

func appendCertainty(b []byte, c *Certainty) []byte {
	if c == nil {
		return b
	}
	b = appendInt(append(b, `,"rank_low":`...), &c.RankLow)
	b = appendInt(append(b, `,"rank_high":`...), &c.RankHigh)
	b = appendNumber(append(b, `,"p_first":`...), c.First)
	return appendNumber(append(b, `,"p_podium":`...), c.Podium)
}

func appendSeat(b []byte, s *SeatResult) []byte {
	b = appendText(append(b, `{"judge":`...), s.Judge)
	b = appendNumber(append(b, `,"raw_total":`...), s.RawTotal)
	b = appendNumber(append(b, `,"used_total":`...), s.UsedTotal)
	b = appendNumber(append(b, `,"weight":`...), s.Weight)
	b = strconv.AppendBool(append(b, `,"discarded":`...), s.Discarded)
	return append(b, '}')
}

func appendCell(b []byte, c *CellResult) []byte {
	b = appendInt(append(b, `{"item":`...), &c.Item)
	b = appendText(append(b, `,"judge":`...), c.Judge)
	b = appendText(append(b, `,"grade":`...), c.Grade.String())
	b = appendNumber(append(b, `,"used":`...), c.Used)
	b = appendText(append(b, `,"reason":`...), string(c.Reason))
	if t := c.Trust; t != nil {
		b = appendNumber(append(b, `,"weight":`...), t.Weight)
		b = appendNumber(append(b, `,"fitted":`...), t.Fitted)
	}
	return append(b, '}')
}

func appendOverall(b []byte, o *OverallResult) []byte {
	b = appendText(append(b, `{"pilot":`...), o.Pilot)
	b = appendNumber(append(b, `,"total":`...), o.Total)
	b = appendRank(append(b, `,"rank":`...), o.Rank)
	b = appendCertainty(b, o.Certainty)
	b = o.ByProgramme.append(append(b, `,"by_programme":`...))
	return append(b, '}')
}

// append writes an object with the programmes' ids as names.
func (p ByProgramme) append(b []byte) []byte {
	b = append(b, '{')
	for i, one := range p {
		if i > 0 {
			b = append(b, ',')
		}
		b = appendText(b, one.Programme)
		b = appendNumber(append(b, ':'), one.Score)
	}
	return append(b, '}')
}

func appendTeam(b []byte, t *TeamResult) []byte {
	b = appendText(append(b, `{"team":`...), t.Team)
	b = appendNumber(append(b, `,"total":`...), t.Total)
	b = appendInt(append(b, `,"rank":`...), &t.Rank)
	b = appendList(append(b, `,"pilots":`...), t.Pilots, func(b []byte, id *string) []byte { return appendText(b, *id) })
	return append(b, '}')
}

func appendInt(b []byte, n *int) []byte { return strconv.AppendInt(b, int64(*n), 10) }

func appendRank(b []byte, rank *int) []byte {
	if rank == nil {
		return append(b, "null"...)
	}
	return appendInt(b, rank)
}

// Beyond these encoding/json writes an exponent.
const (
	leastPlain = 1e-6
	mostPlain  = 1e21
)

// appendNumber writes the shortest text that reads back as the same double.
func appendNumber(b []byte, x float64) []byte {
	if size := math.Abs(x); size == 0 || size >= leastPlain && size < mostPlain {
		return strconv.AppendFloat(b, x, 'f', -1, 64)
	}
	text, err := json.Marshal(x)
	if err != nil { // NaN or infinite: nothing computed here is
		return append(b, "null"...)
	}
	return append(b, text...)
}

// appendText writes a text in quotes.
func appendText(b []byte, text string) []byte {
	for i := range len(text) {
		if c := text[i]; c < ' ' || c == '"' || c == '\\' || c >= utf8.RuneSelf {
			return append(b, quoted(text)...)
		}
	}
	return append(append(append(b, '"'), text...), '"')
}

// quoted writes a text that may need escapes.
func quoted(text string) []byte {
	b, _ := encode(text) // a text is never an error
	return b[:len(b)-1]
}
