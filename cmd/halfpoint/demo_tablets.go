package main

import (
	"context"
	"fmt"

	"github.com/google/uuid"

	"halfpoint/cmd/demo"
	"halfpoint/db"
	"halfpoint/identity"
	"halfpoint/scoring/line"
)

// A demoTablet is a role on the line that whoever looks at the demo may take.
type demoTablet struct {
	name, role string
	judge      uuid.UUID
	link       string // new at each start
}

// demoTablets offers the line's roles, for the first seat of what is flown next
// where they have one.
func demoTablets(ctx context.Context, d *db.DB, contest uuid.UUID) ([]demoTablet, error) {
	part, err := d.ContestBundle(ctx, contest)
	if err != nil {
		return nil, err
	}
	judge := demo.NextJudge(part)
	tablets := []demoTablet{
		{name: "a judge", role: line.RoleJudge, judge: judge},
		{name: "an assistant", role: "assistant", judge: judge},
		{name: "the chief judge", role: line.RoleChief},
	}
	for i := range tablets {
		t := &tablets[i]
		t.link = identity.NewPairingLink()
		offer := db.NewPairing{
			Role: t.role, Judge: t.judge, By: "demo", Lasts: demoLasts,
			Code: identity.HashSecret(identity.NewPairingCode()), Link: identity.HashSecret(t.link),
		}
		if _, err := d.OfferPairing(ctx, contest, offer); err != nil {
			return nil, fmt.Errorf("offering the demo's tablets: %w", err)
		}
	}
	return tablets, nil
}
