package scoring

import "fmt"

// A Grade is 0 to 20 half points, or one of the codes. It is never a binary
// fraction.
type Grade int8

// MaxGrade is the best grade, ten points.
const MaxGrade Grade = 20

// The codes a judge may give instead of a number.
const (
	HardZero       Grade = -1 // HZ: the figure flown is not the figure drawn
	PerceptionZero Grade = -2 // PZ: what was required was not seen to happen
	NotSeen        Grade = -3 // A: asks for the panel's average
	NotEntered     Grade = -4 // nothing yet
)

var gradeTexts = makeGradeTexts()

// makeGradeTexts lists how grades are written, the codes after the numbers.
func makeGradeTexts() (texts [25]string) {
	for g := range int(MaxGrade) + 1 {
		texts[g] = fmt.Sprintf("%d.%d", g/2, g%2*5)
	}
	texts[21], texts[22], texts[23] = "HZ", "PZ", "A"
	return texts
}

var gradesByText = makeGradesByText()

func makeGradesByText() map[string]Grade {
	grades := map[string]Grade{"HZ": HardZero, "PZ": PerceptionZero, "A": NotSeen, "": NotEntered}
	for g := Grade(0); g <= MaxGrade; g++ {
		grades[g.String()] = g
		if g%2 == 0 {
			grades[fmt.Sprint(int(g/2))] = g
		}
	}
	return grades
}

// ParseGrade reads a grade as it is written in a bundle: "7.5", "7", "HZ",
// "PZ", "A", or nothing where none is entered.
func ParseGrade(text string) (Grade, error) {
	g, ok := gradesByText[text]
	if !ok {
		return NotEntered, fmt.Errorf(`%q is not a grade: 0 to 10 in steps of 0.5 as in "7.5", or HZ, PZ, A, or empty`, text)
	}
	return g, nil
}

// Numeric tells a number from a code.
func (g Grade) Numeric() bool { return g >= 0 }

// Points is the number of points, 0 to 10; 0 for a code.
func (g Grade) Points() float64 { return float64(max(g, 0)) / 2 }

// String writes the grade as in a bundle: "7.5", "HZ", or nothing.
func (g Grade) String() string {
	switch {
	case g > MaxGrade || g < NotEntered:
		return fmt.Sprintf("Grade(%d)", int8(g))
	case g < 0:
		return gradeTexts[int(MaxGrade)-int(g)]
	}
	return gradeTexts[g]
}

// MarshalText writes the grade as in a bundle.
func (g Grade) MarshalText() ([]byte, error) { return []byte(g.String()), nil }

// UnmarshalText reads a grade as ParseGrade does.
func (g *Grade) UnmarshalText(text []byte) (err error) {
	*g, err = ParseGrade(string(text))
	return err
}
