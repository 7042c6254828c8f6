package demo

import (
	"context"
	_ "embed"
	"fmt"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/figure"
)

//go:embed numbers.csv
var numbersCSV []byte

const (
	officeName = "office"
	limitsNote = "Invented for this demonstration"
)

// Prepare does the office's work on a contest that was just made: it sets the
// limits and the table of numbers, and signs off every sequence in which no
// error stands. One is left for whoever looks at the demo.
func Prepare(ctx context.Context, d *db.DB, contest uuid.UUID) error {
	table, err := figure.ReadTable(numbersCSV)
	if err != nil {
		return fmt.Errorf("the demo's table of numbers: %w", err)
	}
	if err := d.SetNumbers(ctx, contest, numbersCSV, len(table), officeName); err != nil {
		return err
	}
	part, err := d.ContestBundle(ctx, contest)
	if err != nil {
		return err
	}
	for i, category := range part.Categories {
		o := office{d, contest, levelOf(part.Bundle.Categories[i].ID), table}
		if err := o.prepare(ctx, category); err != nil {
			return fmt.Errorf("preparing the demo: %w", err)
		}
	}
	return nil
}

// An office works on the sequences of one category.
type office struct {
	db      *db.DB
	contest uuid.UUID
	level   *level
	table   figure.Table
}

func (o *office) prepare(ctx context.Context, category db.CategoryPart) error {
	limits, err := o.level.limits(true)
	if err != nil {
		return err
	}
	if err := o.db.SetLimits(ctx, o.contest, category.ID, limits, limitsNote, officeName); err != nil {
		return err
	}
	for _, programme := range category.Programmes {
		registered, err := o.db.Sequences(ctx, programme.ID)
		if err != nil {
			return err
		}
		for _, one := range registered.Sequences {
			if err := o.signOff(ctx, programme.ID, &one); err != nil {
				return err
			}
		}
	}
	return nil
}

// signOff accepts a sequence in which no error stands.
func (o *office) signOff(ctx context.Context, programme uuid.UUID, one *db.FlightSequence) error {
	checked, err := o.level.check(one.Sequence.Items, true, o.table)
	if err != nil || !checked.Clean() {
		return err
	}
	place := db.SequencePlace{Programme: programme}
	if one.Flight != nil {
		place = db.SequencePlace{Flight: one.Flight.ID}
	}
	found := db.Found{Remarks: len(checked.Findings)}
	return o.db.SignOffSequence(ctx, o.contest, place, db.Seen{Digest: one.Sequence.Digest}, found, "", officeName)
}
