package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"time"

	"halfpoint/identity"
)

// firstLasts is how long the link for the first account is good; the next start
// prints another.
const firstLasts = 24 * time.Hour

// offerFirst prints a link that makes the first account, where there is none.
// It goes to the output and not to the log, which others may read.
func offerFirst(ctx context.Context, service *running, stdout io.Writer) {
	secret := identity.NewSecret()
	good, err := service.db.OfferFirst(ctx, identity.HashSecret(secret), firstLasts)
	switch {
	case err != nil:
		slog.Error("the first account could not be offered", "error", err)
	case good:
		fmt.Fprintf(stdout, `
Nobody has an account here yet. This link makes the first one, which owns the
server. It is good once and for a day:

  %s

`, link(service.address, "/first", secret))
	}
}
