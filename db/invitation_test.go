package db_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
)

func TestInvitationGivesItsRoleOnce(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest := small(t, d)
	part := partOf(t, d, contest)
	bundled := part.Bundle.Pilots[0]
	pilot, link := part.Pilots[bundled.ID], aHash()
	invitation, err := d.Invite(t.Context(), contest, db.NewInvitation{
		Hash: link, Role: db.RolePilot, Pilot: pilot, Note: "for Mara", Lasts: time.Hour,
	})
	if err != nil || invitation.Pilot == nil || invitation.Pilot.ID != pilot || invitation.Note != "for Mara" || invitation.Accepted != nil {
		t.Fatalf("%+v, %v", invitation, err)
	}
	offer, err := d.Offer(t.Context(), link)
	if err != nil || offer.Contest.ID != contest || offer.Role != db.RolePilot || *offer.Pilot != (db.Named{ID: pilot, Name: bundled.Name}) {
		t.Errorf("%+v, %v", offer, err)
	}
	account, err := d.AcceptAsNew(t.Context(), link, db.NewAccount{Email: "mara@example.org", Name: "Mara Quist", Password: "hash"})
	if err != nil {
		t.Fatal(err)
	}
	members, err := d.Members(t.Context(), contest)
	if err != nil || len(members) != 1 || members[0].Account != account.ID || members[0].Role != db.RolePilot || members[0].Pilot.ID != pilot {
		t.Errorf("%+v, %v", members, err)
	}
	list, err := d.Invitations(t.Context(), contest)
	if err != nil || len(list) != 1 || list[0].Accepted == nil {
		t.Errorf("%+v, %v", list, err)
	}
	if err := d.Accept(t.Context(), link, account.ID); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("a second time: %v", err)
	}
	if err := d.WithdrawInvitation(t.Context(), contest, invitation.ID, ""); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("withdrawn when accepted: %v", err)
	}
	if err := d.TakeRole(t.Context(), contest, account.ID, db.RolePilot, "director"); err != nil {
		t.Fatal(err)
	}
	if members, err := d.Members(t.Context(), contest); err != nil || len(members) > 0 {
		t.Errorf("%+v, %v", members, err)
	}
	journalSays(t, d, contest, "invited", "role-given", "role-taken")
}

// journalSays holds the end of a journal, and that it is whole.
func journalSays(t *testing.T, d *db.DB, contest uuid.UUID, acts ...string) {
	t.Helper()
	head, journal, err := d.Journal(t.Context(), contest)
	if err != nil || db.CheckJournal(head, journal) != nil {
		t.Fatalf("%v, %v", err, db.CheckJournal(head, journal))
	}
	for i, act := range acts {
		body := string(journal[len(journal)-len(acts)+i].Body)
		if !strings.Contains(body, `"what":"`+act+`"`) {
			t.Errorf("the journal says %s, want %s", body, act)
		}
		if strings.Contains(body, "@") {
			t.Errorf("the journal has an address in it for ever: %s", body)
		}
	}
}

func TestInvitationsThatAreNotGood(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest, a := small(t, d), somebody(t, d, "a@example.org")
	past, withdrawn := aHash(), aHash()
	if _, err := d.Invite(t.Context(), contest, db.NewInvitation{Hash: past, Role: db.RoleOffice, Lasts: -time.Second}); err != nil {
		t.Fatal(err)
	}
	i, err := d.Invite(t.Context(), contest, db.NewInvitation{Hash: withdrawn, Role: db.RoleOffice, Lasts: time.Hour})
	if err != nil {
		t.Fatal(err)
	}
	if err := d.WithdrawInvitation(t.Context(), small(t, d), i.ID, ""); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("withdrawn in another contest: %v", err)
	}
	if err := d.WithdrawInvitation(t.Context(), contest, i.ID, ""); err != nil {
		t.Fatal(err)
	}
	for name, link := range map[string]db.Hash{"guessed": aHash(), "past": past, "withdrawn": withdrawn} {
		if _, err := d.Offer(t.Context(), link); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s, read: %v", name, err)
		}
		if err := d.Accept(t.Context(), link, a.ID); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s, accepted: %v", name, err)
		}
		if _, err := d.AcceptAsNew(t.Context(), link, db.NewAccount{Email: "b@example.org", Name: "B"}); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s, accepted as new: %v", name, err)
		}
	}
	if accounts, err := d.Accounts(t.Context()); err != nil || len(accounts) != 1 {
		t.Errorf("accounts were left behind: %+v, %v", accounts, err)
	}
	if _, err := d.Members(t.Context(), uuid.New()); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("of no contest: %v", err)
	}
}

func TestInvitationsThatCannotBe(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest, elsewhere := small(t, d), small(t, d)
	part := partOf(t, d, elsewhere)
	foreign := part.Pilots[part.Bundle.Pilots[0].ID]
	for name, c := range map[string]struct {
		contest uuid.UUID
		role    string
		pilot   uuid.UUID
		want    error
	}{
		"to no contest":                {uuid.New(), db.RoleOffice, uuid.Nil, db.ErrNotFound},
		"a pilot without one":          {contest, db.RolePilot, uuid.Nil, db.ErrPilot},
		"a judge without one":          {contest, db.RoleJudge, uuid.Nil, db.ErrJudge},
		"the office with one":          {contest, db.RoleOffice, foreign, db.ErrPilot},
		"a pilot of another contest":   {contest, db.RolePilot, foreign, db.ErrPilot},
		"to a role that there is not":  {contest, "king", uuid.Nil, db.ErrInvalid},
		"to a role that a device has ": {contest, "chief", uuid.Nil, db.ErrInvalid},
	} {
		if _, err := d.Invite(t.Context(), c.contest, db.NewInvitation{Hash: aHash(), Role: c.role, Pilot: c.pilot, Lasts: time.Hour}); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
}

func TestAddressThatIsTakenLeavesTheInvitation(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest, a, link := small(t, d), somebody(t, d, "a@example.org"), aHash()
	if _, err := d.Invite(t.Context(), contest, db.NewInvitation{Hash: link, Role: db.RoleJury, Lasts: time.Hour}); err != nil {
		t.Fatal(err)
	}
	if _, err := d.AcceptAsNew(t.Context(), link, db.NewAccount{Email: "A@example.org", Name: "Another"}); !errors.Is(err, db.ErrTaken) {
		t.Errorf("%v", err)
	}
	if err := d.Accept(t.Context(), link, a.ID); err != nil {
		t.Errorf("the owner of the address: %v", err)
	}
	if err := d.GiveRole(t.Context(), contest, a.ID, db.RoleJury, uuid.Nil, ""); !errors.Is(err, db.ErrConflict) {
		t.Errorf("a role a second time: %v", err)
	}
}
