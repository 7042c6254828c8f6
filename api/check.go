package api

import (
	"context"

	"github.com/google/uuid"

	"halfpoint/scoring/document"
	"halfpoint/scoring/figure"
	"halfpoint/scoring/figure/draw"
)

// CheckSequence says of a sequence what can be said, and keeps nothing.
func (s *server) CheckSequence(ctx context.Context, request CheckSequenceRequestObject) (CheckSequenceResponseObject, error) {
	var report document.Report
	v, ok := document.Parse(*request.Body, &report)
	if !ok {
		return nil, report.Err()
	}
	rules, err := s.rulesNamed(ctx, v)
	if err != nil {
		return nil, err
	}
	sequence := figure.ReadSequenceValue(v, rules.table, "category", "contest")
	if report.Err() != nil {
		sequence.ReportMoves(&report)
		return nil, report.Err()
	}
	if sequence.Limits == nil {
		sequence.Limits = rules.limits
	}
	return CheckSequence200JSONResponse(checkedOf(sequence, rules.table)), nil
}

// rulesNamed are the rules of the category or the contest that a question
// names.
func (s *server) rulesNamed(ctx context.Context, v document.Value) (rules, error) {
	o, ok := v.ReportTo(&document.Report{}).AnyObject()
	if !ok {
		return rules{}, nil
	}
	for _, named := range []struct {
		field string
		read  ruleReader
	}{{"category", s.db.CategoryRules}, {"contest", s.db.ContestRules}} {
		if id, there := o.Optional(named.field); there {
			return s.rulesAt(ctx, id.ReportTo(v.Report()), named.read)
		}
	}
	return rules{}, nil
}

// rulesAt are the rules of what an id in a document names; where it names
// nothing that may be seen, that is a complaint.
func (s *server) rulesAt(ctx context.Context, v document.Value, read ruleReader) (rules, error) {
	text, ok := v.Text()
	if !ok {
		return rules{}, nil
	}
	id, err := uuid.Parse(text)
	if err != nil {
		v.Complain("is not of the format uuid")
		return rules{}, nil //nolint:nilerr // it is told as a complaint
	}
	found, err := s.readRules(ctx, id, read)
	if err != nil && failureOf(err).kind == kindNotFound {
		v.Complain("there is no such thing here")
		return rules{}, nil
	}
	return found, err
}

// checkedOf follows, checks, calls and draws a sequence.
func checkedOf(sequence figure.Sequence, table figure.Table) CheckedSequence {
	checked := figure.Check(sequence, table)
	c := CheckedSequence{
		Items: make([]CheckedItem, len(checked.Items)), Findings: make([]Finding, len(checked.Findings)),
		TotalK: points(checked.TotalK), Figures: checked.Figures, Clean: checked.Clean(),
	}
	for i := range checked.Items {
		c.Items[i] = checkedItem(&checked.Items[i])
	}
	for i, f := range checked.Findings {
		c.Findings[i] = Finding{Item: f.Item, Rule: string(f.Rule), Level: FindingLevel(f.Level), Text: f.Text}
	}
	for _, f := range draw.Subjects(sequence, checked) {
		c.Items[f.Item-1].Drawings = drawingsOf(f.Subject)
	}
	return c
}

func drawingsOf(subject draw.Subject) Drawings {
	return Drawings{Right: string(draw.Figure(subject, draw.FromRight)), Left: string(draw.Figure(subject, draw.FromLeft))}
}

func checkedItem(item *figure.CheckedItem) CheckedItem {
	c := CheckedItem{
		Item: item.Item, K: points(item.K), Name: item.Name, Call: item.Call, Crowd: item.Crowd,
		Entry: attitudeOf(item.Entry), Exit: attitudeOf(item.Exit), Across: item.Across,
		Errors: make([]PlacedText, len(item.Errors)),
	}
	for i, e := range item.Errors {
		c.Errors[i] = PlacedText{Place: e.Place, Text: e.Text}
	}
	return c
}

func attitudeOf(a *figure.Attitude) *Attitude {
	if a == nil {
		return nil
	}
	return &Attitude{Inverted: a.Inverted, Heading: a.Heading}
}

// points is a K as the contract writes it.
func points(k figure.K) float64 { return float64(k) / 10 }

// count counts the errors and remarks that stand, those of moves included.
func count(checked *figure.Checked) (errors, remarks int) {
	for _, item := range checked.Items {
		errors += len(item.Errors)
	}
	for _, f := range checked.Findings {
		if f.Level == figure.Error {
			errors++
		} else {
			remarks++
		}
	}
	return errors, remarks
}
