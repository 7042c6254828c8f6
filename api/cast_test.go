package api_test

import (
	"context"
	"fmt"
	"strings"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/db"
	"halfpoint/identity"
)

// The parts of those who ask, in the contest that is asked for. The other judge
// has another seat than the one that is asked for, the rival flies another
// flight; the seated one has the first judge's account. The stranger directs
// another contest.
const (
	deviceParts  = "judge other assistant chief announcer"
	accountParts = "pilot rival seated jury office director owner"
)

// A cast is everybody there is at a contest, each signed in.
type cast struct {
	service  *service
	contest  uuid.UUID
	sessions map[string]string // the secret of each part's
	accounts map[string]uuid.UUID
}

// castAt signs everybody in at a contest, and the stranger at another.
func castAt(s *service, contest, elsewhere uuid.UUID) *cast {
	s.t.Helper()
	c := &cast{service: s, contest: contest, sessions: map[string]string{}, accounts: map[string]uuid.UUID{}}
	part, err := s.db.ContestBundle(s.t.Context(), contest)
	if err != nil {
		s.t.Fatal(err)
	}
	for _, name := range strings.Fields(accountParts + " stranger") {
		c.accounts[name] = s.account(name, name == "owner")
	}
	for _, role := range []string{db.RoleJury, db.RoleOffice, db.RoleDirector} {
		s.give(contest, c.accounts[role], role, uuid.Nil)
	}
	flights := part.Bundle.Categories[0].Programmes[0].Flights
	s.give(contest, c.accounts["pilot"], db.RolePilot, part.Pilots[flights[0].Pilot])
	s.give(contest, c.accounts["rival"], db.RolePilot, part.Pilots[flights[1].Pilot])
	panel := part.Bundle.Categories[0].Programmes[0].Panel
	s.give(contest, c.accounts["seated"], db.RoleJudge, part.Judges[panel[0]])
	s.give(elsewhere, c.accounts["stranger"], db.RoleDirector, uuid.Nil)
	for name, account := range c.accounts {
		c.sessions[name] = s.signIn(account)
	}
	for name, seat := range map[string]int{"judge": 0, "other": 1, "assistant": 0, "chief": -1, "announcer": -1} {
		role, judge := strings.Replace(name, "other", "judge", 1), uuid.Nil
		if seat >= 0 {
			judge = part.Judges[panel[seat]]
		}
		c.sessions[name] = s.pair(contest, role, judge)
	}
	return c
}

// parts are all who ask, nobody and the token included.
func (c *cast) parts() []string {
	return append([]string{"nobody", "token", "stranger"}, strings.Fields(deviceParts+" "+accountParts)...)
}

// as is a request of a part's.
func (c *cast) as(name string, r request) request {
	if name == "token" {
		r.token = token
	} else {
		r.session = c.sessions[name]
	}
	return r
}

// account makes an account without a password.
func (s *service) account(name string, owner bool) uuid.UUID {
	s.t.Helper()
	email := fmt.Sprintf("%s-%s@example.org", name, uuid.NewString()[:8])
	a, err := s.db.MakeAccount(s.t.Context(), db.NewAccount{Email: email, Name: name, Owner: owner})
	if err != nil {
		s.t.Fatal(err)
	}
	return a.ID
}

func (s *service) give(contest, account uuid.UUID, role string, pilot uuid.UUID) {
	s.t.Helper()
	if err := s.db.GiveRole(s.t.Context(), contest, account, role, pilot, ""); err != nil {
		s.t.Fatal(err)
	}
}

// signIn opens a session in which the password was just given.
func (s *service) signIn(account uuid.UUID) (secret string) {
	s.t.Helper()
	secret = identity.NewSecret()
	if _, err := s.db.OpenSession(s.t.Context(), account, db.NewSession{Hash: identity.HashSecret(secret), Password: true}); err != nil {
		s.t.Fatal(err)
	}
	return secret
}

// pair makes a device with a session.
func (s *service) pair(contest uuid.UUID, role string, judge uuid.UUID) (secret string) {
	s.t.Helper()
	secret = identity.NewSecret()
	hash := identity.HashSecret(secret)
	id := uuid.New()
	var seat *uuid.UUID
	if judge != uuid.Nil {
		seat = &judge
	}
	s.meddle(`
		WITH paired AS (
			INSERT INTO device (contest_id, device_id, role, judge_id, public_key)
			VALUES (@contest, @device, @role, @judge, @key)
		)
		INSERT INTO session (session_id, hash, contest_id, device_id, user_agent, expires_at)
		VALUES (@device, @hash, @contest, @device, '', now() + interval '1 day')`,
		pgx.StrictNamedArgs{"contest": contest, "device": id, "role": role, "judge": seat, "key": id[:], "hash": hash[:]})
	return secret
}

// meddle changes the database behind the service's back.
func (s *service) meddle(sql string, args pgx.StrictNamedArgs) {
	s.t.Helper()
	conn, err := pgx.Connect(s.t.Context(), s.database)
	if err != nil {
		s.t.Fatal(err)
	}
	defer conn.Close(context.Background())
	if _, err := conn.Exec(s.t.Context(), sql, args); err != nil {
		s.t.Fatal(err)
	}
}
