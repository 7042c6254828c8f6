package figure

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"sync"
)

// A Language is every text that figures are put into words with. A {} in a
// text is where another stands. A translation is another file of the same
// fields; lists run by quarters, halves or eighths from the first.
type Language struct {
	Names       map[Shape]string `json:"names"`
	OutsideName string           `json:"outside_name"`
	NameUp      string           `json:"name_up"`
	NameDown    string           `json:"name_down"`

	Rolls         [16]string `json:"rolls"`          // by quarter turns
	Flicks        [16]string `json:"flicks"`         // by quarter turns
	OutsideFlicks [16]string `json:"outside_flicks"` // by quarter turns
	TwoPoint      string     `json:"two_point_roll"`
	FourPoint     string     `json:"four_point_roll"`
	EightPoint    string     `json:"eight_point_roll"`
	OfTwo         string     `json:"points_of_two"`
	OfFour        string     `json:"points_of_four"`
	OfEight       string     `json:"points_of_eight"`
	OneOfTwo      string     `json:"one_point_of_two"`
	OneOfFour     string     `json:"one_point_of_four"`
	Counts        [32]string `json:"counts"`
	Opposite      string     `json:"opposite"`
	And           string     `json:"and_rotation"`

	OnLevel        string `json:"on_level"`
	On45Up         string `json:"on_45_up"`
	On45Down       string `json:"on_45_down"`
	OnVerticalUp   string `json:"on_vertical_up"`
	OnVerticalDown string `json:"on_vertical_down"`
	AtTop          string `json:"at_top"`
	AtBottom       string `json:"at_bottom"`

	Loops        [8]string `json:"loops"`         // by eighths
	OutsideLoops [8]string `json:"outside_loops"` // by eighths
	ArcUp        string    `json:"arc_up"`
	ArcDown      string    `json:"arc_down"`
	ArcOver      string    `json:"arc_over"`
	ArcUnder     string    `json:"arc_under"`
	Pull         string    `json:"pull"`
	Push         string    `json:"push"`
	Level        string    `json:"level"`
	Up45         string    `json:"45_up"`
	Down45       string    `json:"45_down"`
	VerticalUp   string    `json:"vertical_up"`
	VerticalDown string    `json:"vertical_down"`

	Turns            [4]string  `json:"turns"`         // by quarters of a circle
	RollingTurns     [4]string  `json:"rolling_turns"` // by quarters of a circle
	TurnRolls        [16]string `json:"turn_rolls"`    // by half rolls
	Inward           string     `json:"inward"`
	Outward          string     `json:"outward"`
	AlternateInward  string     `json:"alternate_inward"`
	AlternateOutward string     `json:"alternate_outward"`

	StallTurn  string     `json:"stall_turn"`
	Slide      string     `json:"slide"`
	CanopyUp   string     `json:"canopy_up"`
	CanopyDown string     `json:"canopy_down"`
	Spin       string     `json:"spin"`
	SpinTurns  [16]string `json:"spin_turns"` // by quarter turns

	OutUpright      string `json:"out_upright"`
	OutInverted     string `json:"out_inverted"`
	PullOut         string `json:"pull_out"`
	PushOut         string `json:"push_out"`
	PullOutUpright  string `json:"pull_out_upright"`
	PullOutInverted string `json:"pull_out_inverted"`
	PushOutUpright  string `json:"push_out_upright"`
	PushOutInverted string `json:"push_out_inverted"`

	AfterName string `json:"after_name"`
	Between   string `json:"between"`
	End       string `json:"end"`

	Crowd           CrowdLanguage    `json:"crowd"`
	Look            map[Shape]string `json:"look"`
	LookPlain       map[Shape]string `json:"look_plain"` // without rotations, if that says less
	LookSpin        string           `json:"look_spin"`
	LookSlide       string           `json:"look_slide"`
	LookPivot       string           `json:"look_pivot"`
	LookFlick       string           `json:"look_flick"`
	LookRollingTurn string           `json:"look_rolling_turn"`
	LookPoints      string           `json:"look_points"`
	LookRoll        string           `json:"look_roll"`
	LookArc         string           `json:"look_arc"`
}

//go:embed english.json
var englishJSON []byte

// English is the language of the project's own words.
var English = sync.OnceValue(func() *Language {
	language, err := ReadLanguage(englishJSON)
	if err != nil {
		panic(err) // the file is part of the program
	}
	return language
})

// ReadLanguage reads a language from its JSON file.
func ReadLanguage(text []byte) (*Language, error) {
	language := new(Language)
	if err := json.Unmarshal(text, language); err != nil {
		return nil, fmt.Errorf("reading the words of a language: %w", err)
	}
	return language, nil
}
