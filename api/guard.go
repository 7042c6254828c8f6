package api

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/netip"
	"strings"

	"halfpoint/db"
)

// How often a wrong password may be tried: by one address for one account, for
// one account by everyone, by one address for all accounts. Whoever is signed in
// goes on whatever others try, and these are counted apart from all other
// requests, so that nobody stops a contest by guessing. A right password costs
// nothing.
const (
	pairAtOnce, pairPerSecond       = 10, 1.0 / 15
	accountAtOnce, accountPerSecond = 100, 0.5
	addressAtOnce, addressPerSecond = 100, 1.0
	pairingAtOnce, pairingPerSecond = 30, 0.5 // codes of a pairing, by one address
)

type guards struct {
	pair    *limiter[pair]
	account *limiter[string]
	address *limiter[netip.Prefix]
	pairing *limiter[netip.Prefix]
}

type pair struct {
	address netip.Prefix
	account string
}

func newGuards() *guards {
	return &guards{
		pair:    newLimiter[pair](pairPerSecond, pairAtOnce),
		account: newLimiter[string](accountPerSecond, accountAtOnce),
		address: newLimiter[netip.Prefix](addressPerSecond, addressAtOnce),
		pairing: newLimiter[netip.Prefix](pairingPerSecond, pairingAtOnce),
	}
}

// A try is one to prove oneself. It counts as a wrong one until it succeeds, so
// that many at once are no way around the bound.
type try struct {
	guards *guards
	pair   pair
}

// enter begins a try for the account of an address, or says how long to wait.
func (g *guards) enter(r *http.Request, email string) (*try, error) {
	t := &try{g, pair{addressOf(r), strings.ToLower(email)}}
	wait := max(g.pair.take(t.pair, 1), g.account.take(t.pair.account, 1), g.address.take(t.pair.address, 1))
	if wait > 0 {
		return nil, &failure{
			kind: kindTooMany, after: wait,
			detail: fmt.Sprintf("wrong passwords came too often; try again in %s s", formatSeconds(wait)),
		}
	}
	return t, nil
}

// settle ends a try by what came of it: one that succeeded, or that the database
// was not there to judge, gives back what it took.
func (t *try) settle(err error) {
	if wasWrong(err) {
		return
	}
	t.guards.pair.give(t.pair)
	t.guards.account.give(t.pair.account)
	t.guards.address.give(t.pair.address)
}

// wasWrong tells whether a try that ended so was one with a wrong password or code,
// as far as is known.
func wasWrong(err error) bool {
	return err != nil && !errors.Is(err, db.ErrUnavailable) && !errors.Is(err, context.DeadlineExceeded)
}

// enterPairing begins a try to pair a device, or says how long to wait. What it
// returns is to be called with what came of it.
func (g *guards) enterPairing(r *http.Request) (settle func(error), err error) {
	from := addressOf(r)
	if wait := g.pairing.take(from, 1); wait > 0 {
		return nil, &failure{
			kind: kindTooMany, after: wait,
			detail: fmt.Sprintf("wrong codes came too often; try again in %s s", formatSeconds(wait)),
		}
	}
	return func(err error) {
		if !wasWrong(err) {
			g.pairing.give(from)
		}
	}, nil
}
