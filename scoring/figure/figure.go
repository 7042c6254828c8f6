// Package figure knows the figures of aerobatics: what is flown, how it is
// called and what it is worth.
//
// A figure is a list of moves in flown order. From the moves follow the
// attitude and the direction at every point (Follow), the caller's and the
// announcer's words (Language.Describe) and the drawing (package draw). A
// sequence of figures is read with ReadSequence and held against the limits of
// its programme with Check.
//
// The state is exact: directions are multiples of 45 degrees held as small
// integers, turns are whole quarters, K is in tenths. Nothing here says whether
// a figure or a sequence can be flown safely.
package figure
