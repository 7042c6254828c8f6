package figure

// A Direction is a multiple of 45 degrees in a vertical plane along or across
// the box: x is ahead at the entry of the sequence, y to the left of it, z up.
// Each part is -1, 0 or 1; (1, 0, 1) is 45 degrees up.
type Direction struct{ X, Y, Z int8 }

func (d Direction) reversed() Direction { return Direction{-d.X, -d.Y, -d.Z} }

// plus is the direction half way between two at right angles.
func (d Direction) plus(e Direction) Direction {
	return Direction{sign(d.X + e.X), sign(d.Y + e.Y), sign(d.Z + e.Z)}
}

// cross is the direction of the vector product.
func (d Direction) cross(e Direction) Direction {
	return Direction{
		sign(d.Y*e.Z - d.Z*e.Y),
		sign(d.Z*e.X - d.X*e.Z),
		sign(d.X*e.Y - d.Y*e.X),
	}
}

// leftAbout turns the direction a quarter about z, to the left seen from above.
func (d Direction) leftAbout() Direction { return Direction{-d.Y, d.X, d.Z} }

func sign(n int8) int8 {
	switch {
	case n > 0:
		return 1
	case n < 0:
		return -1
	}
	return 0
}

// State is where the aeroplane points: its nose, and its canopy at a right
// angle to it. The right wing is nose × canopy.
type State struct{ Nose, Canopy Direction }

// Level tells whether the nose is on the horizon.
func (s State) Level() bool { return s.Nose.Z == 0 }

// Vertical tells whether the nose is straight up or down.
func (s State) Vertical() bool { return s.Nose.X == 0 && s.Nose.Y == 0 }

// Up tells whether the nose is above the horizon, Down whether below.
func (s State) Up() bool { return s.Nose.Z > 0 }

// Down tells whether the nose is below the horizon.
func (s State) Down() bool { return s.Nose.Z < 0 }

// Inverted tells whether the canopy looks down.
func (s State) Inverted() bool { return s.Canopy.Z < 0 }

// wingsLevel tells whether both wing tips are as high.
func (s State) wingsLevel() bool { return s.Nose.cross(s.Canopy).Z == 0 }

// arc turns the nose towards the canopy, or away from it, by a multiple of 45
// degrees.
func (s State) arc(degrees int, push bool) State {
	for ; degrees > 0; degrees -= 45 {
		if push {
			s = State{s.Nose.plus(s.Canopy.reversed()), s.Canopy.plus(s.Nose)}
		} else {
			s = State{s.Nose.plus(s.Canopy), s.Canopy.plus(s.Nose.reversed())}
		}
	}
	return s
}

// Roll turns the canopy towards the right wing by quarters, to the left where
// they are negative.
func (s State) Roll(quarters int) State {
	for range (quarters%4 + 4) % 4 {
		s.Canopy = s.Nose.cross(s.Canopy)
	}
	return s
}

// turn swings nose and canopy about z.
func (s State) turn(degrees int, left bool) State {
	quarters := degrees / 90
	if !left {
		quarters = 4 - quarters
	}
	for range quarters {
		s = State{s.Nose.leftAbout(), s.Canopy.leftAbout()}
	}
	return s
}

// pivot reverses the nose and leaves the canopy where it is.
func (s State) pivot() State { return State{s.Nose.reversed(), s.Canopy} }

// slide turns both through half a circle in their own plane.
func (s State) slide() State { return State{s.Nose.reversed(), s.Canopy.reversed()} }

// stall drops the nose out of level flight: upright the canopy comes to where
// the nose was, inverted to the opposite.
func (s State) stall() State {
	canopy := s.Nose
	if s.Inverted() {
		canopy = canopy.reversed()
	}
	return State{Direction{0, 0, -1}, canopy}
}

// Attitude is level flight with the wings level: how every figure begins and
// ends.
type Attitude struct {
	Inverted bool `json:"inverted"`
	Heading  int  `json:"heading"` // degrees from x, counted to the left: 0, 90, 180 or 270
}

// State is the state of level flight.
func (a Attitude) State() State {
	s := State{Direction{1, 0, 0}, Direction{0, 0, 1}}
	if a.Inverted {
		s.Canopy.Z = -1
	}
	return s.turn(a.Heading, true)
}

// Across tells whether the aeroplane flies across the box.
func (a Attitude) Across() bool { return a.Heading == 90 || a.Heading == 270 }

// Attitude is the level flight that a state is; ok is false for a state that
// is not level with the wings level.
func (s State) Attitude() (a Attitude, ok bool) {
	if !s.Level() || !s.wingsLevel() {
		return Attitude{}, false
	}
	a.Inverted = s.Inverted()
	switch {
	case s.Nose.Y > 0:
		a.Heading = 90
	case s.Nose.X < 0:
		a.Heading = 180
	case s.Nose.Y < 0:
		a.Heading = 270
	}
	return a, true
}
