package draw

import (
	"strconv"

	"halfpoint/scoring/figure"
)

// Sizes of a sequence's card, in the units of the page.
const (
	cellWidth  = 130.0
	cellHeight = 140.0
	cellsWide  = 5
	headHeight = 30.0
	noteHeight = 20.0
)

// Texts are the words on a sequence's card.
type Texts struct {
	Wind string // beside the arrow
	K    string // before the number
	Note string // at the foot
}

// English are the words in English.
var English = Texts{
	Wind: "wind",
	K:    "K",
	Note: "This says nothing about whether the sequence can be flown safely: the rules, the flight manual, the officials and the authorities decide.",
}

// A Card is a whole sequence to be drawn.
type Card struct {
	Title   string
	Figures []CardFigure
	Texts   Texts
}

// A CardFigure is a figure on a card, with its number in the sequence.
type CardFigure struct {
	Subject
	Item int
	K    figure.K
}

// CardOf sets out the figures of a checked sequence, without overall marks.
func CardOf(s figure.Sequence, checked figure.Checked, title string) Card {
	c := Card{Title: title, Texts: English, Figures: make([]CardFigure, 0, len(s.Items))}
	for i := range s.Items {
		item, out := &s.Items[i], &checked.Items[i]
		if item.Overall {
			continue
		}
		f := CardFigure{Item: out.Item, K: out.K, Subject: Subject{Elements: item.Elements, Name: item.Name}}
		if out.Entry != nil && len(item.MoveErrors) == 0 {
			f.Moves, f.Entry = item.Moves, *out.Entry
		}
		if out.Name != nil && *out.Name != "" {
			f.Name = *out.Name
		}
		if f.Title = f.Name; out.Call != nil && *out.Call != "" {
			f.Title = *out.Call
		}
		c.Figures = append(c.Figures, f)
	}
	return c
}

// Sequence draws a card along the box in flying order: towards the wind at the
// beginning, so from the left for a wind from the right and the other way round.
func Sequence(c Card, wind Wind) []byte {
	return AppendSequence(make([]byte, 0, 512+2048*len(c.Figures)), c, wind)
}

// AppendSequence appends the SVG document of a card.
func AppendSequence(b []byte, c Card, wind Wind) []byte {
	rows := (len(c.Figures) + cellsWide - 1) / cellsWide
	wide := cellWidth * cellsWide
	b = openSVG(b, box{0, 0, wide, headHeight + cellHeight*float64(rows) + noteHeight}, c.Title)
	b = appendWind(b, c.Texts.Wind, wind)
	for i := range c.Figures {
		column, row := i%cellsWide, i/cellsWide
		if wind == FromLeft {
			column = cellsWide - 1 - column
		}
		b = appendCell(b, &c.Figures[i], c.Texts.K, point{cellWidth * float64(column), headHeight + cellHeight*float64(row)}, wind)
	}
	b = appendWords(b, c.Texts.Note, point{wide / 2, headHeight + cellHeight*float64(rows) + 12}, 8)
	return append(b, "</svg>\n"...)
}

// appendWind draws an arrow with the wind.
func appendWind(b []byte, word string, wind Wind) []byte {
	from, to := cellWidth*cellsWide-10, cellWidth*cellsWide-60
	if wind == FromLeft {
		from, to = cellWidth*cellsWide-from, cellWidth*cellsWide-to
	}
	way := (to - from) / 50
	b = appendPoint(append(b, `<path d="M`...), point{from, 20})
	b = appendPoint(append(b, 'L'), point{to, 20})
	b = appendPoint(append(b, 'M'), point{to - way*6, 16})
	b = appendPoint(append(b, 'L'), point{to, 20})
	b = appendPoint(append(b, 'L'), point{to - way*6, 24})
	b = append(b, "\"/>\n"...)
	return appendWords(b, word, point{(from + to) / 2, 12}, letterHeight)
}

// appendCell draws one figure with its number and K below it.
func appendCell(b []byte, f *CardFigure, kWord string, at point, wind Wind) []byte {
	const margin, foot = 6.0, 20.0
	p := picture(f.Subject, wind)
	frame := p.frame()
	b = appendNumber(append(b, `<svg x="`...), at.x+margin)
	b = appendNumber(append(b, `" y="`...), at.y+margin)
	b = appendNumber(append(b, `" width="`...), cellWidth-2*margin)
	b = appendNumber(append(b, `" height="`...), cellHeight-2*margin-foot)
	b = appendFrame(append(b, `" viewBox="`...), frame)
	b = append(b, `"><title>`...)
	b = appendText(b, f.Title)
	b = p.append(append(b, "</title>\n"...))
	b = append(b, "</svg>\n"...)
	words := strconv.Itoa(f.Item) + "   " + kWord + " " + f.K.String()
	return appendWords(b, words, point{at.x + cellWidth/2, at.y + cellHeight - foot/2}, letterHeight)
}

func appendWords(b []byte, words string, at point, size float64) []byte {
	b = appendNumber(append(b, `<text font-family="sans-serif" text-anchor="middle" fill="currentColor" stroke="none" font-size="`...), size)
	b = appendNumber(append(b, `" x="`...), at.x)
	b = appendNumber(append(b, `" y="`...), at.y)
	b = appendText(append(b, `">`...), words)
	return append(b, "</text>\n"...)
}
