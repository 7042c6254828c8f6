package main

import (
	"context"
	"crypto/rand"
	"errors"
	"strings"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/identity"
)

// demoLasts is how long the demo's links are good; each start prints others.
const demoLasts = 7 * 24 * time.Hour

// A demoPerson is an invented official who can sign in.
type demoPerson struct {
	role, email    string
	link, password string // new at each start
}

// demoPeople makes those who run the contest, or finds those of an earlier
// start, and gives them a password and a link each.
func demoPeople(ctx context.Context, d *db.DB, contest uuid.UUID) ([]demoPerson, error) {
	people := []demoPerson{
		{role: db.RoleDirector, email: "director@demo.example"},
		{role: db.RoleOffice, email: "office@demo.example"},
	}
	for i := range people {
		p := &people[i]
		p.link, p.password = identity.NewSecret(), demoPassword()
		if err := p.enter(ctx, d, contest); err != nil {
			return nil, err
		}
	}
	return people, nil
}

// demoPassword is random, in groups that are easily typed.
func demoPassword() string {
	text := strings.ToLower(rand.Text())
	return strings.Join([]string{text[:4], text[4:8], text[8:12], text[12:16]}, "-")
}

// enter lets a person in.
func (p *demoPerson) enter(ctx context.Context, d *db.DB, contest uuid.UUID) error {
	account, err := p.account(ctx, d)
	if err != nil {
		return err
	}
	err = d.GiveRole(ctx, contest, account, p.role, uuid.Nil, "")
	if err != nil && !errors.Is(err, db.ErrConflict) { // given at an earlier start
		return err
	}
	if err := d.SetPassword(ctx, account, identity.HashPassword(p.password), uuid.Nil); err != nil {
		return err
	}
	return d.MakeLink(ctx, identity.HashSecret(p.link), db.LinkSignIn, account, demoLasts)
}

func (p *demoPerson) account(ctx context.Context, d *db.DB) (uuid.UUID, error) {
	made, err := d.MakeAccount(ctx, db.NewAccount{Email: p.email, Name: "The " + p.role + " of the demo"})
	if !errors.Is(err, db.ErrTaken) {
		return made.ID, err
	}
	found, err := d.CredentialsByEmail(ctx, p.email)
	return found.ID, err
}
